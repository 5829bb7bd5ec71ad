"""The kinds of check, a folder each: a list of positions and what is made of the readings.

Nothing here knows an adjuster, an audit or a gauge's wire; kinds import nothing of
each other; nothing does I/O, reads a clock or starts a thread.
"""
