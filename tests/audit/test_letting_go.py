"""What a head does when the hand leaves it: learned, aimed past, called by its name, waited for."""

import math
from dataclasses import replace

import pytest

from daq.audit.head import standing
from daq.audit.recompute import differences
from daq.audit.stop_at import stop_for
from daq.squaring.adjuster import Adjust
from daq.squaring.story import Happened
from daq.words import AXES, PARKED
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told


class LetsGo(Machinist):
    """Presses with a hand on the adjuster; let go, the parked number goes on by `goes_mm`.

    Against the way it was turned where that is below zero; `sinks`: unless that raised it.
    """

    def __init__(self, bench, head, goes_mm, *, sinks=False):
        super().__init__(bench, head)
        self.goes_mm, self.sinks = goes_mm, sinks

    def press(self, kind, payload):
        ack = super().press(kind, payload)
        for seq in ack.seqs:
            event = self.bench.events[seq - 1 - self.bench.rows]
            if event.type == "Moved":
                axis = event.data["axis"]
                way = self.went[axis]
                if self.sinks and way < 0.0:
                    continue
                gain = abs(self.head.gain(axis, self.place))
                self.head.swing(axis, way * self.goes_mm / gain)
        return ack


class Late(Machinist):
    """Turns 4 µm past whatever is told, the way it goes."""

    def turn(self, axis, reads):
        past_mm = math.copysign(0.004, reads - self.face(self.place))
        super().turn(axis, reads + past_mm)


def bench(**more):
    return Bench(changed(setup_of(height=400.0, nod_pivot=155.0), **more))


def one(b, goes_mm, side_mm=0.3, nod_mm=-0.4, **more):
    """One audit of the head, started."""
    return LetsGo(b, RigidHead(mill(), side_mm, nod_mm), goes_mm, **more).start()


def test_a_head_that_goes_back_is_learned_and_aimed_past():
    """6 µm at the gauge each time: after one audit it comes to rest where it is to."""
    b = bench()
    one(b, -0.006).finish()
    for axis in AXES:
        away_mm = 0.0 if axis == "side" else b.state.learned.answering.pivot_mm("nod")
        seen_mm = math.sqrt(200.0 * (100.0 + away_mm))
        known = b.state.learned
        assert known.rest_stats[axis].n >= 1
        assert known.answering.rest(axis) * seen_mm == pytest.approx(0.006, abs=0.0012)
    m = one(b, -0.006, -0.35, 0.25)
    signed = m.finish()
    assert (signed.verdict, signed.moves) == ("conforms", 2)
    assert all(abs(m.head.true_mm(axis)) < 0.004 for axis in AXES)
    assert not [check.strange for check in told(b, "CheckDone") if check.strange]
    assert list(differences(b.events, b.chunks.__getitem__)) == []


def test_going_back_as_before_is_said_and_is_no_knock():
    b = bench()
    one(b, -0.012).finish()
    first = [check.said for check in told(b, "CheckDone") if check.said]
    assert not first, "of a head that nobody knows, nothing is named"
    one(b, -0.012, -0.35, 0.25).finish()
    said = {check.said.code: check.said.of["of"] for check in told(b, "CheckDone") if check.said}
    assert said == {"went-back": "creep"}


@pytest.mark.parametrize("goes_mm", [0.024, 0.045])
def test_a_fall_within_the_backlash_that_the_file_names_is_called_so(goes_mm):
    rack = {"adjust": Adjust("rack", backlash=0.05)}
    b = bench(both=rack)
    assert one(b, goes_mm, -0.3, -0.4, sinks=True).finish().verdict == "conforms"
    checks = told(b, "CheckDone")
    assert not [check.strange for check in checks if check.strange]
    named = [check.said for check in checks if check.said]
    assert {(each.code, each.of["of"]) for each in named} == {("went-back", "backlash")}
    assert named[0].of["by"].mm == pytest.approx(goes_mm, abs=0.0011)


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_the_story_says_which_way_an_axis_was_turned_last(way):
    b = bench()
    one(b, -0.006, way * 0.3, way * 0.4).work("check")
    rested = [e for e in b.job.head.story if isinstance(e, Happened) and e.what == "rested"]
    assert [(each.axis, each.way) for each in rested] == [("nod", -way)]


def test_one_that_has_a_side_to_rise_last_was_turned_that_way():
    for rising, way in (("front", -1), ("back", 1)):
        b = bench(nod={"adjust": Adjust("worm", finish_raising=rising)})
        for nod_mm in (0.4, -0.4):
            one(b, 0.0, 0.0, nod_mm).work("check")
            (rested,) = (
                e for e in b.job.head.story if isinstance(e, Happened) and e.what == "rested"
            )
            assert rested.way == way
            b = bench(nod={"adjust": Adjust("worm", finish_raising=rising)})


def late(m):
    """The turn ends where it is told, and is seen to creep on for ten seconds before the press."""
    m.obey()
    stop = m.bench.job.stop
    shown = m.face(m.place)
    way = math.copysign(1.0, stop.stop_face_mm - stop.base_face_mm)
    creeps = [round(shown + way * 0.012 * math.exp(-n * 0.02 / 15.0), 3) for n in range(600)]
    return [*creeps, *[creeps[-1]] * 5]


def at_the_stop():
    b = bench()
    m = Machinist(b, RigidHead(mill(), 0.0, 0.4)).start().work("move")
    return b, m, late(m)


def test_a_number_that_still_creeps_is_asked_about_once_with_its_seconds():
    b, _, shown = at_the_stop()
    (asked,) = b.do("stopped", {}, shown)
    code, of = asked.question.said.code, asked.question.said.of
    assert (b.job.step, code) == ("question", "creeps-still")
    left_mm = shown[0] - shown[-1]
    assert of["by"].mm == pytest.approx(abs(left_mm) * 0.8, rel=0.5)
    assert of["seconds"] % 5 == 0
    assert 5 <= of["seconds"] <= 60
    assert "It still creeps" in b.console["title"]
    first = b.console["actions"][0]
    assert (first["kind"], first["payload"], first["primary"]) == (
        "stopped",
        {"on_purpose": True},
        True,
    )
    (moved,) = b.do("stopped", {"on_purpose": True}, [shown[-1]] * 10)
    assert (moved.creeps, b.job.step) == (0.0, "check")


def test_whoever_insists_has_what_it_still_creeps_in_its_doubt():
    b, _, shown = at_the_stop()
    b.do("stopped", {}, shown)
    (moved,) = b.do("stopped", {"on_purpose": True}, shown)
    assert moved.creeps > 0.0
    rested = next(e for e in reversed(b.job.head.story) if isinstance(e, Happened))
    assert (rested.what, rested.creeps) == ("rested", moved.creeps)
    calm = tuple(replace(e, creeps=0.0) if e is rested else e for e in b.job.head.story)
    still = replace(b.job, head=replace(b.job.head, story=calm))
    assert standing(b.job).lean_doubt("nod") > standing(still).lean_doubt("nod")


def test_a_number_that_stands_still_is_not_asked_about():
    b, _, shown = at_the_stop()
    flickers = [shown[-1] + 0.001 * (n % 3 == 0) for n in range(600)]
    (moved,) = b.do("stopped", {}, [*flickers, *[shown[-1]] * 10])
    assert moved.creeps == 0.0


def test_a_hand_that_is_late_each_time_is_told_so_much_less():
    """4 µm past its stop-at in every turn: the third stop-at is moved back by nearly that."""
    b = bench()
    for side_mm, nod_mm in ((0.3, -0.4), (-0.2, 0.3)):
        Late(b, RigidHead(mill(), side_mm, nod_mm)).start().finish()
    stats = b.state.learned.stop_stats
    assert all(stats[axis].mean == pytest.approx(0.004, abs=0.0006) for axis in AXES)
    m = Late(b, RigidHead(mill(), 0.0, 0.4)).start().work("loosen", "move")
    job = b.job
    at, learned = standing(job), job.head.learned
    unknown = replace(learned, stop_stats=type(stats).of(lambda axis: type(stats["nod"])()))
    told_nothing = replace(job, setup=replace(job.setup, learned=unknown))
    place = PARKED[job.axis]
    plain = stop_for(told_nothing, place, job.base.mean_mm, at).stop_face_mm
    asked = stop_for(job, place, job.base.mean_mm, at).stop_face_mm
    way = math.copysign(1.0, plain - job.base.mean_mm)
    assert (plain - asked) * way == pytest.approx(0.004, abs=0.001)
    assert m.finish().verdict == "conforms"


class Relaxes(Machinist):
    """Once let go each axis goes back by 6 µm at the gauge, but not before its bolts are tight."""

    def press(self, kind, payload):
        ack = super().press(kind, payload)
        for seq in ack.seqs:
            event = self.bench.events[seq - 1 - self.bench.rows]
            if event.type == "Tightened":
                axis = event.data["axis"]
                gain = abs(self.head.gain(axis, PARKED[axis]))
                self.head.swing(axis, self.went[axis] * -0.006 / gain)
        return ack


def test_what_goes_back_until_the_bolts_are_tight_is_no_habit_of_the_bolts_alone():
    """Which of both it is only the ways of the turns tell: the second audit turns the other way."""
    b = bench()
    for side_mm, nod_mm in ((0.3, -0.4), (-0.35, 0.25)):
        Relaxes(b, RigidHead(mill(), side_mm, nod_mm)).start().finish()
    known = b.state.learned.answering
    for axis in AXES:
        seen_mm = math.sqrt(200.0 * (100.0 + abs(known.pivot_mm(axis))))
        # More than half of it; the rest is still thought to be chance.
        assert 0.0035 < known.late(axis) * seen_mm < 0.007
        assert abs(known.shift(axis)) * 200.0 < 0.002
