"""From a lean to one turn of one adjuster, by how this head has answered so far.

Here live the story of a head since its first sweep, what is learned from it, the lean to
stop at and the reading that shows it, the kinds of adjuster, the tightening of bolts, what
does not fit, and the check that the parked gauge stands where it is said to. Values are
`pushed_in`, mm, and slopes, mm/mm. How the lean was measured is not known here; nothing
does I/O, reads a clock or starts a thread.
"""
