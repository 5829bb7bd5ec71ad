"""The sweep: a gauge on an arm in the spindle, read around a circle on the table.

Here live the order of its positions, the least squares that turn readings into a
lean, what the readings say against themselves, how sure the lean is, term by term,
and what it does to the work. Readings are `pushed_in`, mm, leans are slopes, mm/mm.
How to correct a lean is not known here.
"""
