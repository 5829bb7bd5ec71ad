"""What the service notices by itself of a bound gauge."""

from dataclasses import replace

import pytest

from daq.audit.anytime.gauge import condition
from tests.words import en


@pytest.fixture
def parked(bench):
    """Nod is out, parked at the front at 1.200 with the contact 1.1 mm in."""
    b = bench().start(free=0.1)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    return b


def test_the_unit_key_is_noticed_before_its_number_is_used(bench):
    """A reading in another unit says so itself: everything is in that unit with it."""
    b = bench().start()
    b.unit = "in"
    noted, taken = b.take("front", 1.2)
    assert (noted.said.code, noted.unit) == ("unit-changed", "in")
    assert taken.reading.mean_mm == pytest.approx(1.2)
    front = next(spot for spot in b.console["circle"] if spot["position"] == "front")
    assert (b.console["unit"], front["value"]) == ("in", f"{1.2 / 25.4:.5f}")
    b.do("undo")
    assert (b.job.reads.taken, b.job.gauge.unit) == ((), "in")


def test_the_unit_key_turns_every_number_into_the_new_unit(parked):
    parked.unit = "in"
    parked.do("gauge-noted", {"code": "unit-changed"}, [1.2] * 10)
    assert "everything is in inches now" in parked.console["message"]["say"]
    assert parked.console["stop_at"]["value"] == f"{1.1 / 25.4:.5f}"
    assert parked.aim.unit == "in"
    assert parked.job.trail


def test_a_preset_takes_the_stop_at_away(parked):
    (event,) = parked.do("gauge-noted", {"code": "number-jumped"}, [1.2] * 6 + [5.0] * 10)
    assert event.next.step == "park"
    assert parked.console["stop_at"] is None
    parked.take("front", 5.0)
    assert "zeroed or bumped" in parked.console["question"]["say"]


def jump(bench, before, after, frames=16):
    """The number is another one from one frame to the next; the service looks."""
    samples = [before] * 6 + [after] * (frames - 6)
    return bench.do("gauge-noted", {"code": "jumped-at-rest"}, samples)


def told(bench):
    assert "press “The gauge was zeroed: touch test”" in bench.console["message"]["say"]
    return "touch" in [each["kind"] for each in bench.console["actions"]]


def test_a_jump_at_a_spot_is_said_at_once_and_voids_nothing(bench):
    """A preset, a unit key pressed twice that leaves another zero, a knock on the holder."""
    b = bench().start(free=0.1)
    b.take("front", 1.200)
    b.take("right", 1.160)
    read = b.job.reads.taken
    (event,) = jump(b, 1.160, 1.510)
    assert (event.next, b.job.reads.taken, told(b)) == (None, read, True)
    b.take("back", 1.120)
    assert len(b.job.reads.taken) == 3
    b.do("touch")
    b.do("take", {}, [0.450] * 10)  # in the air it reads otherwise than before: its zero moved
    assert (b.job.step, b.job.reads.taken) == ("as-found", ())


def test_a_jump_between_the_two_spots_of_a_check_is_said(parked):
    parked.do("loosened", {}, [1.18] * 10)
    stop = float(parked.console["stop_at"]["value"])
    parked.do("stopped", {}, [stop] * 10)
    parked.take("front", stop)
    (event,) = jump(parked, stop, stop + 0.4)
    assert (event.next, parked.job.step, told(parked)) == (None, "check", True)


@pytest.mark.parametrize(
    ("before", "after", "hz"),
    [
        (1.200, 1.160, 50),  # no more than a head does as its bolts are cracked
        (1.200, 0.100, 50),  # the contact sprang off the ring
        (0.100, 1.200, 50),  # and was set down
        (1.200, 12.800, 50),  # pushed in to its stop
        (1.200, 1.600, 5),  # too slow a gauge to tell it from a quick hand
    ],
)
def test_what_a_hand_or_a_spring_does_is_no_jump(bench, before, after, hz):
    b = bench().start(free=0.1)
    b.take("front", 1.200)
    samples = b.samples([before] * 6 + [after] * 12)
    samples = [replace(s, mono_ns=n * 1_000_000_000 // hz) for n, s in enumerate(samples)]
    assert condition(b.job, samples) is None


def test_before_anything_was_read_a_jump_matters_to_nothing(bench):
    b = bench().start(free=0.1)
    assert condition(b.job, b.samples([1.2] * 6 + [1.6] * 12)) is None


def test_with_the_bolts_loose_a_preset_leads_to_a_check(parked):
    parked.do("loosened", {}, [1.18] * 10)
    parked.do("gauge-noted", {"code": "number-jumped"}, [1.18] * 6 + [5.0] * 10)
    assert (parked.job.step, parked.job.base) == ("check", None)


def test_a_contact_that_came_off_during_the_move_is_said(parked):
    parked.do("loosened", {}, [1.18] * 10)
    parked.do("gauge-noted", {"code": "contact-lifted"}, [0.1] * 10)
    assert "off the surface" in parked.console["message"]["say"]
    assert parked.console["stop_at"] is not None
    assert parked.refused("stopped", {}, [0.1] * 10).code == "off-contact"


def test_the_end_of_the_travel_is_said_and_is_no_reading(parked):
    parked.do("loosened", {}, [1.18] * 10)
    parked.do("gauge-noted", {"code": "travel-ended"}, [12.8] * 10)
    assert "end of its travel" in parked.console["message"]["say"]


def test_a_reading_at_the_end_of_the_travel_is_refused(bench):
    b = bench().start(free=0.1)
    said = b.refused("take", {"position": "front"}, [12.8] * 10)
    assert "end of its travel at front" in en(said)


@pytest.mark.parametrize(
    "code", ["unit-changed", "travel-ended", "contact-lifted", "number-jumped"]
)
def test_nothing_is_noted_that_the_samples_do_not_show(parked, code):
    assert parked.refused("gauge-noted", {"code": code}, [1.2] * 12).code == "not-shown-by-samples"


FLICKER = (0.0, 0.001, 0.0, 0.0, -0.001)


def flickering(b, value, count=10):
    return [value + FLICKER[i % 5] for i in range(count)]


@pytest.fixture
def moving(bench):
    """A gauge that flickers in every reading, parked for nod, the bolts cracked."""

    def start(noisy=("front", "right", "back", "left", "again", "parked", "loose"), cracked=True):
        b = bench()
        b.still = lambda samples: samples[-10:]
        b.start(free=0.1)
        spots = {"front": 1.2, "right": 1.16, "back": 1.12, "left": 1.16, "again": 1.2}
        for place, value in {**spots, "parked": 1.2}.items():
            position = "front" if place in ("again", "parked") else place
            values = flickering(b, value) if place in noisy else [value] * 10
            b.do("take", {"position": position}, values)
        if cracked:
            b.do("loosened", {}, flickering(b, 1.18) if "loose" in noisy else [1.18] * 10)
        return b

    return start


STOPPED = [1.18] * 160
"""3.2 s at 50 a second without a digit's change."""


def test_a_gauge_that_stopped_flickering_does_not_count_as_stopped_at(moving):
    b = moving()
    said = b.refused("stopped", {}, [*flickering(b, 1.18, 100), *STOPPED])
    assert en(said).startswith("The number has not changed for some time: push the contact")
    stop_mm = round(b.job.stop.stop_face_mm, 3)
    pushed = [1.18, 1.5, 1.9, 1.4, *flickering(b, stop_mm, 20)]
    b.do("stopped", {}, [*STOPPED, *pushed])
    assert b.job.step == "check"


@pytest.mark.parametrize(("seconds", "stuck"), [(10, False), (20, True)])
def test_one_number_all_through_a_turn_is_asked_about_of_a_gauge_that_flickers_now_and_then(
    moving, seconds, stuck
):
    """Two readings of seven: still for 16 s once in a thousand times, but never while turned."""
    b = moving(noisy=("front", "parked"))
    there = [round(b.job.stop.stop_face_mm, 3)] * 50 * seconds
    if stuck:
        assert b.refused("stopped", {}, there).code == "maybe-stuck"
        b.do("stopped", {}, [1.18, *there])
    else:
        b.do("stopped", {}, there)
    assert b.job.step == "check"


def test_a_gauge_that_stands_still_at_times_is_not_asked(moving):
    b = moving(noisy=("front", "parked"))
    b.do("stopped", {}, STOPPED)
    assert b.job.asked.question.said.code == "stop-far"  # of the way to go, not of the gauge


def test_a_gauge_without_flicker_is_not_asked(moving):
    b = moving(noisy=())
    assert (
        b.refused("gauge-noted", {"code": "number-stuck"}, STOPPED).code == "not-shown-by-samples"
    )
    b.do("stopped", {}, STOPPED)
    assert b.job.asked.question.said.code == "stop-far"  # of the way to go, not of the gauge


def test_three_seconds_are_not_up_yet(moving):
    b = moving()
    b.do("stopped", {}, [*flickering(b, 1.18, 60), *[1.18] * 150])
    assert b.job.asked.question.said.code == "stop-far"  # of the way to go, not of the gauge


def test_cracking_the_bolts_is_watched_by_a_gauge_that_moves(moving):
    b = moving(cracked=False)
    assert b.refused("loosened", {}, [1.2] * 160).code == "maybe-stuck"
    b.do("loosened", {}, flickering(b, 1.2))
    assert b.job.step == "move"


def test_a_number_that_stopped_is_said_and_that_it_goes_again(moving):
    b = moving()
    b.do("gauge-noted", {"code": "number-stuck"}, STOPPED)
    assert b.console["headline"] == "Does the gauge move?"
    assert b.console["stop_at"] is not None
    b.do("gauge-noted", {"code": "number-moves"}, flickering(b, 1.18, 20))
    assert (b.console["message"], b.console["headline"]) == (None, "")
    assert (
        b.refused("gauge-noted", {"code": "number-stuck"}, STOPPED).code == "not-shown-by-samples"
    )


def test_a_contact_in_the_air_is_not_stuck(moving):
    b = moving()
    assert b.refused("stopped", {}, [0.1] * 160).code == "off-contact"


def test_a_number_that_stopped_in_a_sweep_is_said(bench):
    b = bench()
    b.still = lambda samples: samples[-10:]
    b.start(free=0.1)
    b.do("take", {"position": "front"}, flickering(b, 1.2))
    b.do("gauge-noted", {"code": "number-stuck"}, [1.2] * 160)
    assert b.console["headline"] == "Does the gauge move?"
    b.do("take", {"position": "right"}, flickering(b, 1.16))
    assert b.console["headline"] == ""


@pytest.mark.parametrize(
    ("code", "unit", "value"),
    [("unit-changed", "in", 1.18), ("contact-lifted", "mm", 0.1), ("travel-ended", "mm", 12.8)],
)
def test_ten_samples_in_a_row_say_it_and_nine_do_not(parked, code, unit, value):
    """A digit garbled on the wire, or a contact that bounces, is over sooner."""
    parked.do("loosened", {}, [1.18] * 10)
    before = parked.samples([1.18] * 20)
    parked.unit = unit
    after = parked.samples([value] * 10)
    assert condition(parked.job, [*before, *after[:9]]) is None
    assert condition(parked.job, [*before, *after]) == code
