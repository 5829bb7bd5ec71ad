"""What must not matter to a whole audit, obeyed from the card to the signature."""

import pytest

from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told
from tests.audit.shapes import machine


def audit_of(setup, head, **more):
    """A whole audit obeyed to the signature; the machinist."""
    m = Machinist(Bench(setup), head, shifts={"side": 0.004, "nod": -0.006}, **more)
    m.start().finish()
    return m


def story(m):
    """What the audit came to, in lengths and words."""
    lean = [("sweep", *_read(done)) for done in told(m.bench, "SweepDone")]
    return [*lean, *((done.axis, *_read(done)) for done in told(m.bench, "CheckDone"))]


def _read(done):
    side, nod = done.results.values()
    return side.d_mm, nod.d_mm, side.word, nod.word, done.next.step, done.next.axis


def same_story(one, other):
    for a, b in zip(one, other, strict=True):
        assert a[0] == b[0] and a[3:] == b[3:]
        assert a[1:3] == pytest.approx(b[1:3], abs=1e-6)


GEOMETRY = {"side": (-6.0, 0.03), "nod": (170.0, -0.02), "height_mm": 430.0}


def head_at(side_mm, nod_mm):
    return RigidHead(mill(**GEOMETRY), side_mm, nod_mm)


STARTS = [(0.42, -0.37), (-0.31, 0.02), (0.012, 0.5)]


@pytest.mark.parametrize("start", STARTS)
def test_a_whole_audit_on_a_gauge_that_counts_down(start):
    setup = machine()
    down = changed(setup, gauge={"counts_up": False})
    one = audit_of(setup, head_at(*start))
    other = audit_of(down, head_at(*start), sense=-1.0)
    same_story(story(one), story(other))


@pytest.mark.parametrize("start", STARTS)
def test_a_whole_audit_with_every_number_larger(start):
    one = audit_of(machine(), head_at(*start))
    other = audit_of(machine(), head_at(*start), plus_mm=3.217)
    same_story(story(one), story(other))


@pytest.mark.parametrize("start", STARTS)
def test_a_whole_audit_on_the_mirror_image_of_the_machine(start):
    """Everything on the other side: the leans of side change sign and nothing else does."""
    setup = changed(machine(), side={"limit_low": None, "wanted_lean": 0.0})
    side = {"pivot_distance": -8.0, "coupling": -0.03, "adjust": Adjust(finish_raising="right")}
    image = changed(setup, side=side, nod={"coupling": 0.02})
    one = audit_of(setup, head_at(*start))
    spec = mill(side=(6.0, -0.03), nod=(170.0, 0.02), height_mm=430.0)
    head = RigidHead(spec, -start[0], start[1])
    m = Machinist(Bench(image), head, shifts={"side": -0.004, "nod": -0.006}, mirrored=True)
    m.start().finish()
    flipped = [(a[0], -a[1], *a[2:]) for a in story(m)]
    same_story(story(one), flipped)
    assert m.bench.shop.machine("mill").last.signed.moves == (
        one.bench.shop.machine("mill").last.signed.moves
    )
