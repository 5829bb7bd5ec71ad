"""What can be decided with this gauge, ring and radius, and what would help: said with a sweep.

`parts`: what the sweep's event carries of it; `left`: the zone left for "in", and how likely a
move ends there; `helps`: the same once the ring is turned, with more places, a larger radius or
another gauge of the shop.
"""
