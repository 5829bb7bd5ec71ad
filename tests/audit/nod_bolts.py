"""A nod axis with named bolts, squared while loose and about to be tightened."""

from daq.squaring.tightening import Tighten
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import changed

BOLTS = ("nod bolt 1", "nod bolt 3", "nod bolt 2", "nod bolt 4")
LOOSE_MM = 1.100


def setup(loosen="one", **more):
    made = setup_of(limit=0.025, nod_pivot=150.0, height=400.0)
    return changed(made, machine={"loosen": loosen}, **more)


def nod_loose(bolts=BOLTS, passes=1, free_mm=0.0, back_mm=LOOSE_MM, then="front"):
    """Nod moved and checked; the gauge reads `LOOSE_MM` at the front and was left at `then`."""
    b = Bench(setup(nod={"tighten": Tighten(bolts, passes=passes)})).start(free=free_mm)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.200] * 10)
    b.do("stopped", {}, [LOOSE_MM] * 10)
    values = {"front": LOOSE_MM, "back": back_mm}
    for position in sorted(values, key=lambda each: each == then):
        b.take(position, values[position])
    return b
