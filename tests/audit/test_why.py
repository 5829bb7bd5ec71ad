"""Why a stop-at is what it is: its shares add up, and the console and the record tell them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told

leans = st.floats(-0.4, 0.4)


def stops(bench):
    """Every stop-at of an audit."""
    return [data.stop for data in told(bench, "Parked") if data.stop is not None]


@given(leans, leans, st.booleans(), st.sampled_from([1.0, 0.94]), st.sampled_from([0.0, 0.02]))
@settings(derandomize=True, max_examples=3, deadline=None)
def test_the_shares_add_up_to_the_stop_at(side_mm, nod_mm, counts_up, cosine, wanted):
    setup = setup_of(limit=0.025, height=400.0, counts_up=counts_up, wanted_side=wanted / 300.0)
    setup = changed(setup, gauge={"cosine": cosine})
    head = RigidHead(mill(side=(0.0, 0.05), nod=(150.0, 0.05)), side_mm, nod_mm)
    m = Machinist(Bench(setup), head, {"side": 0.006, "nod": -0.01}, sense=1.0 if counts_up else -1)
    m.start().finish()
    head.lean_by(0.2, -0.4)
    before = len(stops(m.bench))
    m.start().finish()
    # What one axis does to the other is known from the moves of the audit before.
    assert before == 0 or any(stop.because.cross.makes_mm for stop in stops(m.bench)[before:])
    for stop in stops(m.bench):
        turn_mm = stop.stop_face_mm - stop.base_face_mm
        assert stop.because.sum_mm == pytest.approx(turn_mm, abs=1e-9)


def test_the_shares_of_a_first_stop_at_by_hand():
    """Nod 0.400 low at the front, pivot 150 behind, circle of 100: the gauge sees 250 of 200."""
    setup = setup_of(limit=0.025, height=400.0)
    m = Machinist(Bench(setup), RigidHead(mill(), 0.0, 0.4)).start().work("move")
    because = m.bench.job.stop.because
    assert because.sees == pytest.approx(250.0 / 200.0)
    assert because.lean.across_mm == pytest.approx(0.4, abs=0.002)
    assert because.lean.makes_mm == pytest.approx(-0.5, abs=0.003)
    assert because.cross.makes_mm == because.rest.makes_mm == because.tightening.makes_mm == 0.0
    # 400 high: 400 × (0.002² / 2), the circle's middle.
    assert because.bend_mm == pytest.approx(400.0 * 0.002**2 / 2.0, abs=1e-5)
    assert list(m.bench.console["why"]) == [
        "Base: 1.999 mm, read at the front. Stop at 1.500 mm.",
        "Nodded down by 0.4000 mm across the sweep, its pivot 150.0 mm beyond the spindle, "
        "give or take 80.0 mm: the gauge sees 1.25 times that, -0.5000 mm.",
        "Side to side: nothing is left for its move.",
        "Tightening: nothing is left for it; it may do 0.0104 mm either way.",
        "Let go: nothing is known to come back.",
    ]
