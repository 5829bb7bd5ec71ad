"""What a gauge's numbers say, whatever is being checked.

Here live the gauge's sign and cosine, settling, jumps of the zero, how well visits repeat,
the budget of an uncertainty, the verdict against limits with its guard, the tolerances by
name and the control charts, with the distributions they need. Nothing here knows a kind of
check, a machine's adjusters or an audit; nothing does I/O, reads a clock or starts a thread.
"""
