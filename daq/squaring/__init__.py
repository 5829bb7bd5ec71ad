"""From a lean to one turn of one adjuster.

Here live the axis to move, the reading to stop at and the check that the parked gauge
stands where it is said to. Values are `pushed_in`, mm, and slopes, mm/mm. How the lean
was measured is not known here; nothing does I/O, reads a clock or starts a thread.
"""
