"""What must have happened to a head is said, and what to learn from it."""

import pytest

from tests.audit.conftest import Bench
from tests.audit.pupil import (
    PIVOT_MM,
    at_the_check,
    audit,
    head_at,
    learned_of,
    setup,
    taught_bench,
    zeroed_after_parking,
)
from tests.audit.rigid import Machinist, leans_mm, told
from tests.words import en


@pytest.fixture
def taught():
    return taught_bench()


def checked(m):
    """The pair check done; its event."""
    m.step()
    m.step()
    return told(m.bench, "CheckDone")[-1]


def taught_since(b, n):
    return [event for event in b.events[n:] if event.type == "ResponseUpdated"]


def test_a_bump_is_said_and_not_learned_from(taught):
    before = learned_of(taught).carried()
    m = at_the_check(taught, 0.0, -0.4)
    m.head.lift_mm -= 0.04
    m.head.shift("side", 0.03)
    n = len(taught.events)
    check = checked(m)
    assert check.strange == "bumped"
    assert "was knocked" in taught.console["message"]["say"]
    assert "Nothing is learned" in en(check)
    assert taught_since(taught, n) == []
    assert taught.job.head.learned == before
    m.finish()
    known = learned_of(taught).answering
    assert known.pivot_mm("nod") == pytest.approx(PIVOT_MM, abs=3.0)
    assert known.coupling("nod") == pytest.approx(before.answering.coupling("nod"), abs=0.005)
    assert max(map(abs, leans_mm(m.head).values())) < 0.010


def test_a_knock_between_the_check_and_the_sweep_is_said_and_not_learned_from(taught):
    m = at_the_check(taught, 0.0, -0.4).work("final")
    before = taught.job.head.learned.answering
    m.head.lift_mm -= 0.04
    m.head.shift("side", 0.05)
    done = m.sweep()
    assert done.elsewhere and "was it knocked" in taught.console["message"]["say"]
    assert taught.job.head.learned.answering.mean == pytest.approx(before.mean, abs=0.01)


def test_a_knock_after_the_check_leaves_what_the_turn_taught():
    """The turn was read: it stands, and the pair read once more stands apart from it."""
    b = Bench(setup())
    m = at_the_check(b, 0.0, -0.4)
    assert checked(m).strange == ""
    known = b.job.head.learned.answering.pivot_mm("nod")
    m.head.shift("nod", 0.06)
    m.head.lift_mm -= 0.1
    m.step()
    b.do("answer", {"key": "check-again"})
    checked(m)
    assert told(b, "CheckDone")[-1].strange == "bumped"
    assert "was knocked" in b.console["message"]["say"]
    assert b.job.head.learned.answering.pivot_mm("nod") == known
    m.work("tighten")
    assert abs(told(b, "CheckDone")[-1].results.nod.d_mm) < 0.002
    assert m.finish().verdict == "conforms"
    assert learned_of(b).answering.pivot_mm("nod") == pytest.approx(PIVOT_MM, abs=3.0)


def test_the_wrong_adjuster_is_said_and_not_learned_from(taught):
    before = learned_of(taught).carried()
    m = audit(taught, head_at(0.2, 0.0)).work("move")
    stop = taught.job.stop
    m.head.turn("nod", stop.position, stop.stop_face_mm)
    taught.do("stopped", {}, [m.face(stop.position)] * 10)
    n = len(taught.events)
    check = checked(m)
    assert check.strange == "wrong-adjuster"
    assert "was another adjuster turned?" in taught.console["message"]["say"]
    assert taught_since(taught, n) == []
    assert (taught.job.step, taught.job.axis) == ("check", "nod")
    signed = m.finish()
    assert signed.verdict == "conforms"
    known = learned_of(taught).answering
    assert known.pivot_mm("side") == pytest.approx(6.0, abs=2.0)
    assert known.pivot_mm("nod") == pytest.approx(before.answering.pivot_mm("nod"), abs=1.0)


def test_a_pivot_on_the_wrong_side_is_said_and_learned_once_a_second_turn_bears_it_out():
    """The nod pivot 250 in front of the spindle, the file says 150 behind it."""
    b = Bench(setup())
    m = at_the_check(b, 0.0, 0.05, nod=(-250.0, 0.0))
    n = len(b.events)
    check = checked(m)
    assert check.strange == "backwards"
    assert check.results.nod.d_mm > 0.1
    assert "went the other way than the number said" in b.console["message"]["say"]
    assert taught_since(b, n) == [] and b.job.head.learned is None
    signed = m.finish()
    assert signed.verdict == "conforms" and signed.moves <= 3
    assert learned_of(b).answering.pivot_mm("nod") == pytest.approx(-250.0, abs=5.0)
    again = audit(b, head_at(0.0, 0.2, nod=(-250.0, 0.0))).finish()
    assert (again.verdict, again.moves) == ("conforms", 1)
    assert "backwards" not in [each.strange for each in told(b, "CheckDone")[-3:]]


def test_an_adjuster_that_answers_the_other_way_round_is_said_at_once(taught):
    m = audit(taught, head_at(0.0, 0.2)).work("move")
    stop = taught.job.stop
    m.head.turn("nod", "front", 2.0 * stop.base_face_mm - stop.stop_face_mm)
    taught.do("stopped", {}, [m.face("front")] * 10)
    assert taught.console["title"].startswith("Wrong way, ")
    (moved,) = taught.do("stopped", {"on_purpose": True}, [m.face("front")] * 10)
    assert "answers the other way round" in en(moved)
    assert taught.console["message"]["say"] == en(moved)
    assert m.finish().verdict == "conforms"


def test_an_overshoot_is_said_and_its_check_takes_it_as_it_stands(taught):
    m = Machinist(taught, head_at(0.0, 0.2), miss_mm=-0.06).start().work("check")
    (moved,) = told(taught, "Moved")[-1:]
    assert moved.past_face_mm == pytest.approx(-0.06, abs=0.001)
    assert en(moved) == "It stopped 0.060 past the stop-at. The check takes it as it stands."
    assert taught.console["message"]["say"] == en(moved)
    check = checked(m)
    assert check.strange == ""
    m.miss_mm = 0.0
    assert m.finish().verdict == "conforms"
    assert learned_of(taught).answering.pivot_mm("nod") == pytest.approx(PIVOT_MM, abs=2.0)


def test_stopping_short_is_no_overshoot(taught):
    Machinist(taught, head_at(0.0, 0.2), miss_mm=0.008).start().work("check")
    assert told(taught, "Moved")[-1].said is None


def test_a_zero_is_said_and_changes_nothing_that_is_learned():
    """What a zero costs is a little certainty; the pivots come out the same."""
    known = []
    for zeroed in (False, True):
        b = Bench(setup())
        m = Machinist(b, head_at(0.3, -0.5), plus_mm=0.1).start().work("loosen")
        if zeroed:
            zeroed_after_parking(b, m)
            assert b.console["message"]["say"] == "Zeroed: read this spot again."
        assert m.finish().verdict == "conforms"
        assert not any(check.strange for check in told(b, "CheckDone"))
        known.append(learned_of(b).answering)
    for axis in ("side", "nod"):
        doubt = known[1].pivot_doubt_mm(axis)
        assert known[1].pivot_mm(axis) == pytest.approx(known[0].pivot_mm(axis), abs=doubt)


def test_a_stop_at_the_end_of_the_gauges_travel_is_no_reading(taught):
    audit(taught, head_at(0.0, 0.2)).work("move")
    said = taught.refused("stopped", {}, [3e6] * 10)
    assert "at the end of its travel at front: this is no reading" in en(said)


def test_bolts_pulled_up_in_the_middle_of_a_second_move_show_no_shift(taught):
    """The adjuster was turned since the loose check: the difference is not the bolts'."""
    m = Machinist(taught, head_at(0.0, 0.2), miss_mm=-0.06).start().work("check")
    m.work("move")
    taught.do("tightened", {}, [m.face("front")] * 10)
    m.miss_mm = 0.0
    m.work("final")
    shifts = taught.job.tightening.shifts
    assert shifts == () or abs(shifts[-1].shift_mm) < 0.003


class Restless(Bench):
    """A bench whose gauge does not stand still: every sample counts since it was last pushed."""

    def still(self, samples):
        pushed = [i for i, s in enumerate(samples) if abs(s.value_mm - samples[-1].value_mm) > 0.1]
        return samples[pushed[-1] + 1 :] if pushed else samples


@pytest.mark.parametrize(
    ("flicker_mm", "off_mm", "asked"),
    [(0.0, 0.009, False), (0.0, 0.014, True), (0.001, 0.014, False), (0.001, 0.030, True)],
)
def test_a_gauge_that_flickers_on_its_arm_may_read_a_spot_otherwise_by_as_much(
    flicker_mm, off_mm, asked
):
    b = Restless(setup())
    m = Machinist(b, head_at(0.0, -0.5))
    b.do("open", {"reason": "scheduled"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [-flicker_mm, flicker_mm] * 5)
    b.do("pushed", {}, [0.0, 0.8, 1.1, *[-flicker_mm, flicker_mm] * 5])
    m.work("park")
    place = b.console["do"]["position"]
    (parked,) = b.take(place, m.face(place) + off_mm)
    assert (parked.question is not None) is asked
