"""The sweep: a gauge on an arm in the spindle, read around a circle on the table.

Here live the order of its positions, the least squares that turn readings into a
lean, and what the readings say against themselves. Readings are `pushed_in`, mm,
leans are slopes, mm/mm. How to correct a lean is not known here.
"""
