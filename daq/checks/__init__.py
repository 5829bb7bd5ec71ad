"""Checks: where a gauge is read, what is made of the readings, and how sure that is.

A check is a table (`station.py`): stations, their order, and what a reading at each follows.
`linear.py` solves it, `quantity.py` says how far each result may be off, `outcome.py` judges.
The kinds that are such a table have a file each in `kinds`. The sweep has a folder, as squaring
asks more of it; so has the check of a gauge, which is none of a machine.

Nothing here knows an adjuster, an audit or a gauge's wire; kinds import nothing of
each other; nothing does I/O, reads a clock or starts a thread.
"""
