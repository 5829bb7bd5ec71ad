"""A pivot that is not where the file says: no stop-at is given twice from what proved wrong."""

from itertools import pairwise, product

import pytest

from daq.audit.recompute import differences
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told
from tests.thinned import thinned

LIMIT_MM = 0.010
HEIGHT_MM = 385.0
FILE = {"side": 0.0, "nod": 190.0}
"""Where the file has the pivots, give or take 5 and 40."""


def started(radius, axis, pivot, start_mm):
    """An audit of a head with one pivot elsewhere, and only that axis out; the machinist."""
    setup = setup_of(limit=LIMIT_MM, nod_pivot=FILE["nod"], height=HEIGHT_MM, radius=radius)
    setup = changed(setup, both={"over": 2.0 * radius}, gauge={"travel": 60.0})
    pivots = {key: (mm, 0.0) for key, mm in {**FILE, axis: pivot}.items()}
    spec = mill(radius_mm=radius, height_mm=HEIGHT_MM, **pivots)
    leans = {"side": 0.0, "nod": 0.0, axis: start_mm}
    head = RigidHead(spec, leans["side"], leans["nod"])
    # Pushed in far enough for whatever a wrong stop-at does.
    head.zero_mm = 30.0
    return Machinist(Bench(setup), head).start()


def ways(m, axis):
    """Work to the end: the lean before and after each stop-at that was obeyed."""
    found = []
    for _ in range(120):
        job = m.bench.job
        if job.step == "clear":
            return found
        by_hand, before, moves = job.stop and job.stop.by_hand, m.head.true_mm(axis), job.moves.made
        m.step()
        if m.bench.job.moves.made > moves and not by_hand:
            found.append((before, m.head.true_mm(axis)))
    raise AssertionError(f"never done: {found}")


def grew(before, after):
    return abs(after) > max(abs(before) + 0.002, LIMIT_MM)


NODS = (-400.0, -300.0, -230.0, -191.0, -120.0, -90.0, -50.0, -20.0, 20.0, 60.0, 300.0, 500.0)
SIDES = (-200.0, -110.0, -70.0, -40.0, 40.0, 70.0, 110.0, 300.0)


PIVOTS = [*(("nod", p) for p in NODS), *(("side", p) for p in SIDES)]


@pytest.mark.parametrize(
    ("pivot", "radius_start"), thinned(PIVOTS, product([60.0, 145.0], [-0.122, 0.4])), ids=str
)
def test_a_pivot_anywhere_is_found_and_the_lean_never_grows_twice(pivot, radius_start):
    (axis, pivot), (radius, start_mm) = pivot, radius_start
    if abs(radius + pivot) < 0.1 * radius:
        pytest.skip("over the pivot the number does not move: it cannot be brought to a stop-at")
    m = started(radius, axis, pivot, start_mm)
    obeyed = ways(m, axis)
    grown = [grew(*way) for way in obeyed]
    assert not any(one and other for one, other in pairwise(grown))
    assert m.bench.job.moves.made <= 5
    assert m.finish().verdict == "conforms"


@pytest.mark.parametrize(("start_mm", "pivot"), [(-0.122, -20.0), (0.4, -110.0), (-0.03, -50.0)])
def test_no_stop_at_comes_from_a_disproved_pivot(start_mm, pivot):
    m = started(145.0, "nod", pivot, start_mm).work("check")
    b = m.bench
    m.step()
    m.step()
    check = told(b, "CheckDone")[-1]
    assert check.strange == "astray"
    assert b.console["headline"] == "No stop-at for now."
    assert "No stop-at is given until a turn by hand" in b.console["message"]["say"]
    # Which way that turn goes is said when it is made: it may be back.
    still, _, onward = b.console["title"].partition(": ")
    assert (still[:6], onward) == ("Still ", "try a turn.")
    m.work("move")
    stop = b.job.stop
    assert (stop.by_hand, stop.stop_face_mm) == ("back", stop.base_face_mm)
    assert (b.console["stop_at"], b.aim) == (None, None)
    assert b.console["title"] == "Turn the nod adjuster a little back the way you came."
    assert b.console["do"] == {"kind": "nudge", "axis": "nod", "back": True}
    m.step()
    assert b.job.step == "check"
    m.work("move")
    # From the turn by hand it is known where the pivot acts, and the next stop-at lands.
    assert not b.job.stop.by_hand
    stood = m.head.true_mm("nod")
    m.work("check")
    assert abs(m.head.true_mm("nod")) < LIMIT_MM + 0.02 * abs(stood)
    m.finish()
    known = b.shop.machine("mill").learned.answering
    assert known.pivot_mm("nod") == pytest.approx(pivot, abs=10.0)
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_over_the_pivot_the_gauge_goes_across():
    """At the front it hardly moves; once that is known the move is watched from the back."""
    m = started(145.0, "nod", -125.0, -0.05)
    m.finish()
    assert told(m.bench, "Moved")[-1].reading.position == "back"


def test_a_turn_by_hand_that_turned_nothing_is_asked_for_again():
    m = started(145.0, "nod", -20.0, -0.122).work("check")
    m.step()
    m.step()
    m.work("move")
    m.bench.do("stopped", {}, [m.face(m.place)] * 10)
    m.work("move")
    assert m.bench.job.stop.by_hand
    assert m.finish().verdict == "conforms"
