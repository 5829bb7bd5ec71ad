"""A number that goes to zero because the contact was turned to where it reads zero is no zero."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.audit.input import Refused
from tests.audit.conftest import Bench, setup_of

RATES = (2, 4, 10, 20, 50)
PARKED_AT = {"side": "right", "nod": "front"}


class Slow(Bench):
    """A bench whose gauge sends `hz` frames a second, and whose contact is turned at once."""

    def __init__(self, hz=4, **kind):
        super().__init__(setup_of(**kind))
        self.hz = hz
        self.at = 0.0

    def samples(self, values):
        found = []
        for sample in super().samples(values):
            self.ns += round(1e9 / self.hz) - 20_000_000
            found.append(replace(sample, mono_ns=self.ns))
        return found

    def stands(self, value):
        self.at = value

    def turn(self, value, frames=10):
        """The number is another one from one frame to the next; the service looks."""
        before, self.at = self.at, value
        try:
            return self.do("zeroed", {}, [before] * 10 + [value] * frames)
        except Refused:
            return ()

    def read(self, position, value):
        self.turn(value)
        return self.do("take", {"position": position}, [value] * 10)

    def offered(self):
        return [a["kind"] for a in self.console["actions"]]


def zeroed_at_right(hz):
    """Read at the front, turned to the right, zeroed there; the front then reads -0.037."""
    b = Slow(hz)
    b.start(free=-1.0)
    b.stands(0.700)
    b.read("front", 0.700)
    b.turn(0.737)
    if b.turn(0.0)[0].question is not None:
        b.do("answer", {"key": "zeroed"})
    assert (b.job.step, b.job.reads.taken) == ("as-found", ())
    return b


@pytest.mark.parametrize("hz", RATES)
def test_turning_back_to_where_it_was_zeroed_is_no_new_zero(hz):
    b = zeroed_at_right(hz)
    b.read("front", -0.037)
    assert b.turn(0.0) == ()
    for position, value in (("right", 0.0), ("back", 0.021), ("left", -0.016)):
        b.read(position, value)
        assert b.job.reads.taken[-1].position == position
    b.read("front", -0.037)
    assert b.job.sweeps.latest is not None and b.job.sweeps.done[-1].usable


@pytest.mark.parametrize("hz", RATES)
def test_the_return_to_a_first_spot_that_was_zeroed_is_no_new_zero(hz):
    b = Slow(hz)
    b.start(free=-1.0)
    b.stands(0.4)
    (noted,) = b.turn(0.0)
    assert (noted.question, noted.said.code) == (None, "zeroed-noted")
    for position, value in (("front", 0.0), ("right", 0.031), ("back", 0.055), ("left", 0.024)):
        b.read(position, value)
    assert b.turn(0.0) == ()
    b.read("front", 0.0)
    assert b.job.sweeps.latest is not None


@settings(derandomize=True, max_examples=60, deadline=None)
@given(
    hz=st.sampled_from(RATES),
    zero_at=st.sampled_from(["front", "right", "back", "left"]),
    side=st.integers(-400, 400),
    nod=st.integers(-400, 400),
)
def test_no_sweep_of_a_zeroed_gauge_is_voided_by_turning(hz, zero_at, side, nod):
    """Wherever it was zeroed and however it leans: nothing that was read is dropped."""
    heights = {"front": nod, "back": -nod, "right": side, "left": -side}
    face = {p: round((h - heights[zero_at]) * 0.001, 3) for p, h in heights.items()}
    b = Slow(hz)
    b.start(free=-1.0)
    b.stands(0.5)
    b.turn(0.0)  # zeroed with the contact down, before anything was read
    for count, position in enumerate(("front", "right", "back", "left", "front"), 1):
        for event in b.turn(face[position]):
            assert event.question is not None
            b.do("answer", {"key": "not-zeroed"})
        b.do("take", {"position": position}, [face[position]] * 10)
        assert len(b.job.reads.taken) == count % 5
    assert b.job.sweeps.latest is not None


def parked(b, face):
    for position in ("front", "right", "back", "left", "front"):
        b.read(position, face[position])
    axis = b.job.axis
    return axis, PARKED_AT[axis]


ZEROED_FRONT = {"front": 0.0, "right": 0.110, "back": 0.230, "left": 0.120}
ZEROED_RIGHT = {"front": 0.110, "right": 0.0, "back": 0.120, "left": 0.230}


@pytest.mark.parametrize("hz", RATES)
@pytest.mark.parametrize("face", [ZEROED_FRONT, ZEROED_RIGHT])
def test_parking_where_it_reads_zero_is_no_zero(hz, face):
    b = Slow(hz)
    b.start(free=-1.0)
    b.stands(0.5)
    b.turn(0.0)
    axis, spot = parked(b, face)
    assert (b.job.step, face[spot]) == ("park", 0.0)
    b.turn(face["left" if axis == "nod" else "back"])
    assert b.turn(0.0) == ()
    b.do("take", {"position": spot}, [0.0] * 10)
    assert b.job.stop is not None


@pytest.mark.parametrize("hz", RATES)
@pytest.mark.parametrize("face", [ZEROED_FRONT, ZEROED_RIGHT])
def test_a_pair_check_after_stopping_at_zero_is_not_begun_again(hz, face):
    b = Slow(hz)
    b.start(free=-1.0)
    b.stands(0.5)
    b.turn(0.0)
    _, spot = parked(b, face)
    far = {"front": "back", "right": "left"}[spot]
    b.read(spot, 0.0)
    b.do("loosened", {}, [0.0] * 10)
    b.do("stopped", {}, [0.0] * 10)
    b.do("stopped", {"on_purpose": True}, [0.0] * 10)
    b.stands(0.0)
    b.turn(0.150)  # on the way round
    b.read(far, 0.004)
    b.turn(0.150)
    assert b.turn(0.0) == ()
    b.read(spot, 0.0)
    assert (b.job.step, b.job.reads.taken) != ("check", ())


@pytest.mark.parametrize("hz", [2, 4, 10])
def test_at_a_spot_not_read_yet_a_slow_gauge_is_asked_about(hz):
    b = Slow(hz)
    b.start(free=-1.0)
    b.stands(0.2)
    b.read("front", 0.200)
    before = b.job
    (asked,) = b.turn(0.0)
    assert asked.question is not None
    assert "was the gauge zeroed?" in b.console["title"]
    assert [a["payload"].get("key") for a in b.console["actions"]][:2] == ["not-zeroed", "zeroed"]
    assert not any(a["primary"] for a in b.console["actions"]), "a pedal answers nothing"
    assert [s["key"] for s in b.console["steps"] if s["state"] == "now"] == ["as-found"]
    b.do("answer", {"key": "not-zeroed"})
    assert (b.job.reads, b.job.circle, b.job.step) == (before.reads, before.circle, "as-found")


@pytest.mark.parametrize("key", ["zeroed", "not-zeroed"])
def test_an_answer_about_the_zero_can_be_put_right(key):
    b = Slow(4)
    b.start(free=-1.0)
    b.stands(0.2)
    b.read("front", 0.200)
    before = b.job
    b.turn(0.0)
    b.do("answer", {"key": key})
    assert ("not-zeroed" in b.offered()) == (key == "zeroed")
    if key == "zeroed":
        assert b.job.reads.taken == ()
        b.do("not-zeroed")
    assert b.job.reads.taken == before.reads.taken


def test_a_fast_gauge_that_is_zeroed_in_a_sweep_begins_again_at_once():
    b = Slow(50)
    b.start(free=-1.0)
    b.stands(0.2)
    b.read("front", 0.200)
    (event,) = b.turn(0.0)
    assert (event.question, event.restart) == (None, True)


@pytest.mark.parametrize("hz", RATES)
def test_i_did_not_zero_it_gives_the_sweep_back(hz):
    b = zeroed_at_right(hz)
    b.do("take", {"position": "front"}, [-0.037] * 10)
    b.do("undo")
    assert "not-zeroed" in b.offered()
    button = next(a for a in b.console["actions"] if a["kind"] == "not-zeroed")
    assert (button["primary"], button["key"] == "Enter") == (False, False)
    b.do("not-zeroed")
    assert [r.position for r in b.job.reads.taken] == ["front"]
    assert b.job.gauge.free_pushed_mm == pytest.approx(-1.0)
    b.do("undo")
    assert b.job.reads.taken == ()
    assert b.refused("not-zeroed").code == "nothing-noticed"


@pytest.mark.parametrize("hz", RATES)
def test_i_did_not_zero_it_gives_the_stop_at_back(hz):
    b = Slow(hz)
    b.start(free=0.1)
    for position, value in (("front", 1.2), ("right", 1.16), ("back", 1.12), ("left", 1.16)):
        b.read(position, value)
    b.read("front", 1.2)
    b.read("front", 1.2)
    before = b.job
    b.turn(0.0)
    assert b.job.stop is None
    b.do("not-zeroed")
    assert (b.job.step, b.job.stop, b.job.base) == ("loosen", before.stop, before.base)
    assert (b.job.circle.known, b.job.head.story) == (before.circle.known, before.head.story)


def test_a_jump_is_denied_as_a_zero_is():
    b = Slow(50)
    b.start(free=0.1)
    b.sweep(front=1.2, right=1.16, back=1.12, left=1.16)
    b.take("front", 1.2)
    before = b.job
    b.do("gauge-noted", {"code": "number-jumped"}, [1.2] * 6 + [5.0] * 10)
    button = next(a for a in b.console["actions"] if a["kind"] == "not-zeroed")
    assert button["say"] == "Not preset, not bumped: carry on"
    b.do("not-zeroed")
    assert (b.job.step, b.job.stop) == ("loosen", before.stop)


def test_what_the_gauge_does_while_it_is_asked_is_not_taken_back():
    b = Slow(4)
    b.start(free=-1.0)
    b.stands(0.2)
    b.read("front", 0.200)
    b.turn(0.0)
    b.unit = "in"
    b.do("gauge-noted", {"code": "unit-changed"}, [0.0] * 10)
    b.do("gauge-back", {"run": "run-2", "gauge": "arm"})
    b.do("answer", {"key": "not-zeroed"})
    assert (b.job.gauge.unit, len(b.job.reads.taken)) == ("in", 1)


@pytest.mark.parametrize("hz", RATES)
def test_coming_to_a_stop_near_zero_at_once_is_asked_about(hz):
    """A tap lands in one frame on any gauge; the stop-at stays if nobody zeroed it."""
    b = Slow(hz, nod_pivot=0.0)
    b.start(free=-1.0)
    b.sweep(front=0.2, right=0.0, back=-0.2, left=0.0)
    b.take("front", 0.2)
    b.stands(0.2)
    stop = b.job.stop
    assert abs(stop.stop_face_mm) < 0.01
    b.do("loosened", {}, [0.2] * 10)
    (asked,) = b.turn(0.0)
    assert asked.question is not None
    # On another zero the stop-at would be another number: nobody is told to turn to it meanwhile.
    assert (b.console["stop_at"], b.aim) == (None, None)
    assert b.console["detail"] == "Hands off until that is answered."
    b.do("answer", {"key": "not-zeroed"})
    assert b.console["stop_at"] is not None and b.aim.stop_face_mm == stop.stop_face_mm
    b.do("stopped", {}, [0.0] * 10)
    assert b.job.step == "check"
