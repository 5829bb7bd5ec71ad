"""A sweep without stopping: the spindle turned slowly by hand, once round and back.

`way`: the switches that the arm passed, as when it was where, or what was not done as it is to be;
`fit`: the circle through every sample; `unknowns`: what else is fitted with it. Where a reading is
taken standing still is not known here.
"""
