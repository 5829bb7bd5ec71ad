"""What a gauge's numbers say, whatever is being checked.

Here live the gauge's sign and cosine, settling, jumps of the zero and the verdict
against a tolerance. Nothing here knows a kind of check, a machine's adjusters or an
audit; nothing does I/O, reads a clock or starts a thread.
"""
