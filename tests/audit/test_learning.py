"""What a head teaches, when it does not, and what is made of it at the next audit."""

import math
import re
from dataclasses import replace

import pytest

from daq.audit.head import standing
from daq.audit.history import History
from daq.audit.state import MachineState, Shop
from daq.checks.sweep.doubts import Doubts
from daq.squaring.story import Happened
from tests.audit.conftest import MACHINE, Bench
from tests.audit.pupil import PIVOT_MM, audit, head_at, learned_of, setup, taught_bench
from tests.audit.rigid import changed, told


@pytest.fixture
def taught():
    return taught_bench()


def test_an_audit_teaches_where_the_pivot_is(taught):
    known = learned_of(taught)
    assert known.audits == 1
    doubt = known.answering.pivot_doubt_mm("nod")
    assert doubt < 2.0
    # For a hinge through (0, y) the pivot acts at y, the cross-coupling at the mill's own.
    assert known.answering.pivot_mm("nod") == pytest.approx(PIVOT_MM, abs=3.0 * doubt)
    assert known.answering.pivot_mm("side") == pytest.approx(6.0, abs=2.0)
    for axis, true in (("side", 0.03), ("nod", -0.02)):
        within = 3.0 * known.answering.coupling_doubt(axis)
        assert known.answering.coupling(axis) == pytest.approx(true, abs=within)


def test_what_was_learned_is_said_in_words(taught):
    m = audit(taught, head_at(0.0, 0.2)).work("clear")
    side, nod = m.bench.console["numbers"]["head"]
    assert re.match(r"Side to side: the pivot acts -?\d+\.\d mm from the spindle, give", side)
    found = re.match(
        r"Nod: the pivot acts (\d+\.\d) mm from the spindle, give or take (\d+\.\d)", nod
    )
    assert float(found[1]) == pytest.approx(PIVOT_MM, abs=float(found[2]))


@pytest.mark.parametrize("radius", [60.0, 75.0, 140.0])
def test_what_was_learned_at_one_radius_holds_at_another(taught, radius):
    """The next audit of the same head takes one move an axis; the first of a head takes more."""
    first = taught.shop.machine("mill").last.signed.moves
    # A ring that is good enough for the smallest circle.
    doubts = Doubts(wedge=0.001, spindle_axial=0.0005)
    taught.setup = changed(setup(radius), machine={"uncertainty": doubts})
    # 0.25 of slope · 2 R as large a lean as at 100 mm.
    m = audit(taught, head_at(0.4 * radius / 100.0, -0.5 * radius / 100.0, radius))
    assert m.bench.job.head.learned.audits == 1
    signed = m.finish()
    assert (signed.verdict, signed.moves) == ("conforms", 2)
    assert first > 2
    moved = told(taught, "Moved")[-2:]
    assert all(abs(move.past_face_mm) < 0.0006 for move in moved)
    answering = learned_of(taught).answering
    assert answering.pivot_mm("nod") == pytest.approx(PIVOT_MM, abs=2.0)


def test_the_prediction_at_another_radius_comes_from_what_was_learned(taught):
    """The stop-at changes by (R + p) · t with the pivot as learned, not as in the file."""
    taught.setup = setup(60.0)
    m = audit(taught, head_at(0.0, -0.3, 60.0)).work("loosen")
    stop = m.bench.job.stop
    change = stop.stop_face_mm - stop.base_face_mm
    pivot = learned_of(taught).answering.pivot_mm("nod")
    lean = 0.3 / 120.0
    assert change == pytest.approx((60.0 + pivot) * lean, abs=0.02 * abs(change))
    assert change != pytest.approx((60.0 + 150.0) * lean, abs=0.10 * abs(change))


def test_practice_never_teaches(taught):
    before = learned_of(taught), taught.shop.machine("mill").visits
    n = len(taught.events)
    audit(taught, head_at(0.4, -0.4, nod=(160.0, 0.1)), "practice").finish()
    assert "ResponseUpdated" not in [event.type for event in taught.events[n:]]
    assert (learned_of(taught), taught.shop.machine("mill").visits) == before
    assert [each.reason for each in taught.shop.machine("mill").history.latest] == ["scheduled"]


def test_practice_on_a_new_head_leaves_nothing():
    b = Bench(setup())
    audit(b, head_at(0.4, -0.5), "practice").finish()
    state = b.shop.machine("mill")
    assert (state.learned, dict(state.visits), state.history) == (None, {}, History())


def test_an_abandoned_audit_still_teaches():
    b = Bench(setup())
    m = audit(b, head_at(0.4, -0.5)).work("clear")
    b.abandon("the day is over")
    assert b.shop.machine("mill").history == History()
    assert learned_of(b).answering.pivot_mm("nod") == pytest.approx(PIVOT_MM, abs=4.0)
    m.head = head_at(0.3, -0.4)
    assert m.start().finish().moves == 2


def test_an_audit_in_which_nothing_was_turned_teaches_nothing(taught):
    before = learned_of(taught)
    n = len(taught.events)
    audit(taught, head_at(0.001, 0.0)).finish()
    assert "ResponseUpdated" not in [event.type for event in taught.events[n:]]
    assert learned_of(taught).answering.mean == before.answering.mean
    assert learned_of(taught).audits == before.audits


def test_taking_back_takes_back_what_was_learned_from_it():
    b = Bench(setup())
    m = audit(b, head_at(0.4, -0.5)).work("check")
    m.step()
    before = b.job
    events = m.step()
    assert [type(data).__name__ for data in events] == [
        "ReadingTaken",
        "CheckDone",
        "ResponseUpdated",
    ]
    assert b.job.head.learned is not None and before.head.learned is None
    (voided,) = b.do("undo")
    assert len(voided.voids) == 3
    assert replace(b.job, since=before.since) == before
    b.abandon("taken back")
    assert learned_of(b) is None


def test_a_reading_taken_back_and_taken_right_teaches_as_if_it_had_been_right_at_once():
    benches = []
    for slip in (False, True):
        b = Bench(setup())
        m = audit(b, head_at(0.4, -0.5)).work("check")
        m.step()
        if slip:
            b.take("front", round(m.face("front") + 0.037, 3))
            b.do("undo")
        m.finish()
        benches.append(b)
    assert learned_of(benches[0]) == learned_of(benches[1])


def test_a_moved_ram_makes_what_was_learned_void(taught):
    m = audit(taught, head_at(0.3, -0.4), ram_moved=True).work("loosen")
    stop = m.bench.job.stop
    change = stop.stop_face_mm - stop.base_face_mm
    # The file's pivot again; aimed besides for the little the other axis does.
    assert change == pytest.approx((100.0 + 150.0) * 0.4 / 200.0, rel=0.01)
    m.finish()
    assert learned_of(taught).audits == 1


def test_a_ram_swung_at_the_card_stays_swung_at_the_next_audit(taught):
    swung = head_at(0.0, -0.2, ram_deg=15.0)
    audit(taught, swung, ram_moved=True, ram_angle="15 deg").work("clear")
    taught.abandon("only to be told")
    known = learned_of(taught)
    assert known.ram == pytest.approx(math.radians(15.0))
    again = audit(taught, head_at(0.0, -0.2, ram_deg=15.0))
    assert again.bench.job.head.learned.ram == known.ram
    # Nod's move and what it does to side, which is then moved: both known beforehand.
    signed = again.finish()
    assert (signed.verdict, signed.moves) == ("conforms", 2)


def test_another_angle_in_the_file_makes_what_was_learned_void(taught):
    taught.setup = setup(machine={"ram_angle": math.radians(10.0)})
    m = audit(taught, head_at(0.3, -0.4))
    assert m.bench.job.head.learned is None and m.bench.job.setup.learned is None
    assert learned_of(taught) is not None


def test_a_ram_moved_in_practice_makes_what_was_learned_void(taught):
    audit(taught, head_at(0.0, -0.2), "practice", ram_moved=True)
    taught.abandon("enough")
    assert learned_of(taught) is None


def test_a_spot_come_back_to_untouched_teaches_how_well_it_repeats(taught):
    m = audit(taught, head_at(0.3, 0.0)).work("park")
    (parked,) = taught.take("right", m.face("right") + 0.002)
    # Three eighths more than twice one reading's variance, for the drift taken out: × √(2/3.125).
    assert parked.visit_mm == pytest.approx(0.8 * 0.002, abs=0.0004)
    assert taught.job.gauge.visits == (parked.visit_mm,)
    taught.do("undo")
    assert taught.job.gauge.visits == ()


def test_a_spot_that_was_never_left_teaches_nothing_of_that(taught):
    """A sweep begun at the right ends there; parked there the gauge has not moved at all."""
    m = audit(taught, head_at(0.3, 0.0))
    m.sweep("right", "back", "left", "front")
    (parked,) = taught.take("right", m.face("right"))
    assert parked.visit_mm is None


@pytest.mark.parametrize(
    ("way", "axis", "stays"),
    [
        (("front", "right", "back", "left"), "nod", True),
        (("back", "left", "front", "right"), "nod", False),
        (("front", "right", "back", "left"), "side", False),
        (("back", "left", "front", "right"), "side", False),
        (("right", "back", "left", "front"), "side", True),
    ],
)
def test_parked_where_the_sweep_ended_the_gauge_has_not_landed_anew(way, axis, stays):
    """A sweep ends at the spot it began at, whatever was read in between."""
    b = Bench(setup())
    lean = (0.3, 0.0) if axis == "side" else (0.0, 0.3)
    m = audit(b, head_at(*lean))
    m.sweep(*way)
    m.step()
    assert b.job.head.story[-1].position == {"side": "right", "nod": "front"}[axis]
    assert b.job.head.story[-1].stays == stays


def test_a_file_put_right_voids_what_was_learned_by_the_wrong_one(taught):
    state = taught.shop.machine("mill")
    assert state.started(taught.setup).learned is not None
    right = changed(taught.setup, nod={"pivot_distance": 300.0, "pivot_doubt": 2.0})
    assert state.started(right).learned is None


def test_a_ram_said_to_have_moved_by_mistake_is_taken_back(taught):
    known = learned_of(taught)
    taught.do("open", {"reason": "scheduled"})
    taught.do("prepared", {"serial_number": "P-1", "ram_moved": True, "ram_angle": "20 deg"})
    assert taught.job.head.ram_moved and taught.job.head.learned != known
    taught.do("undo")
    assert taught.job.step == "prepare" and not taught.job.head.ram_moved
    taught.abandon("a wrong press")
    assert learned_of(taught).audits == known.audits


def test_of_the_spots_come_back_to_the_latest_two_hundred_are_kept():
    """Enough to know how well the gauge repeats to a twentieth of itself; a longer list would
    grow with every audit for ever."""
    b = Bench(setup())
    key = b.setup.gauge.key
    old = tuple(n * 1e-6 for n in range(250))
    b.shop = Shop({MACHINE: MachineState(MACHINE, visits={key: old})})
    m = audit(b, head_at(0.3, 0.0)).work("park")
    (parked,) = b.take("right", m.face("right") + 0.002)
    m.finish()
    assert b.shop.machine(MACHINE).visits[key] == (*old[-199:], parked.visit_mm)


def test_where_the_head_stands_is_found_once_for_one_story(taught):
    """A press asks for it many times over; another story is another head."""
    m = audit(taught, head_at(0.0, 0.2)).work("move")
    job = m.bench.job
    assert standing(job) is standing(job)
    assert standing(job, (Happened("unknown"),)) is not standing(job)
