"""One head whose pivots the machine's file has wrong, and audits of it."""

from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill

PIVOT_MM = 210.0
"""Where the nod pivot truly is; the machine's file says 150."""

GEOMETRY = {"side": (6.0, 0.03), "nod": (PIVOT_MM, -0.02), "height_mm": 430.0}


def setup(radius=100.0, limit=0.015, **more):
    return changed(setup_of(limit=limit, nod_pivot=150.0, height=400.0, radius=radius), **more)


def head_at(side_mm, nod_mm, radius=100.0, **more):
    return RigidHead(mill(radius_mm=radius, **{**GEOMETRY, **more}), side_mm, nod_mm)


def learned_of(b):
    return b.shop.machine("mill").learned


def audit(b, head, reason="scheduled", **card):
    """Opened and touched; the machinist."""
    return Machinist(b, head).start(reason, **card)


def taught_bench():
    """A bench on which one audit was signed."""
    b = Bench(setup())
    audit(b, head_at(0.4, -0.5)).finish()
    return b


def at_the_check(b, side_mm, nod_mm, **geometry):
    """One axis moved to its stop-at, nothing checked yet."""
    return audit(b, head_at(side_mm, nod_mm, **geometry)).work("check")


def zeroed_after_parking(b, m):
    """The gauge zeroed on the parked spot; the machinist reads on from the new zero."""
    before = m.face(m.place)
    b.do("zeroed", {}, [before] * 12 + [0.0] * 5)
    m.plus_mm -= before
    m.plus_mm = round(m.plus_mm, 3)
