"""What the service notices by itself of a bound gauge."""

import pytest


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
    assert (noted.code, noted.unit, taken.reading.mean_mm) == ("unit", "in", pytest.approx(1.2))
    front = next(spot for spot in b.console["circle"] if spot["position"] == "front")
    assert (b.console["unit"], front["value"]) == ("in", f"{1.2 / 25.4:.5f}")
    b.do("undo")
    assert (b.job.taken, b.job.unit) == ((), "in")


def test_the_unit_key_turns_every_number_into_the_new_unit(parked):
    parked.unit = "in"
    parked.do("gauge-noted", {"code": "unit"}, [1.2] * 10)
    assert "everything is in inches now" in parked.console["message"]["say"]
    assert parked.console["stop_at"]["value"] == f"{1.1 / 25.4:.5f}"
    assert parked.aim.unit == "in"
    assert parked.job.trail


def test_a_preset_takes_the_stop_at_away(parked):
    (event,) = parked.do("gauge-noted", {"code": "jumped"}, [1.2] * 6 + [5.0] * 10)
    assert event.next.step == "park"
    assert parked.console["stop_at"] is None
    parked.take("front", 5.0)
    assert "zeroed or bumped" in parked.console["question"]["say"]


def test_with_the_bolts_loose_a_preset_leads_to_a_check(parked):
    parked.do("loosened", {}, [1.18] * 10)
    parked.do("gauge-noted", {"code": "jumped"}, [1.18] * 6 + [5.0] * 10)
    assert (parked.job.step, parked.job.base) == ("check", None)


def test_a_contact_that_came_off_during_the_move_is_said(parked):
    parked.do("loosened", {}, [1.18] * 10)
    parked.do("gauge-noted", {"code": "off-contact"}, [0.1] * 10)
    assert "off the surface" in parked.console["message"]["say"]
    assert parked.console["stop_at"] is not None
    assert "not on the surface" in parked.refused("stopped", {}, [0.1] * 10)


def test_the_end_of_the_travel_is_said_and_is_no_reading(parked):
    parked.do("loosened", {}, [1.18] * 10)
    parked.do("gauge-noted", {"code": "travel"}, [12.8] * 10)
    assert "end of its travel" in parked.console["message"]["say"]


def test_a_reading_at_the_end_of_the_travel_is_refused(bench):
    b = bench().start(free=0.1)
    said = b.refused("take", {"position": "front"}, [12.8] * 10)
    assert "end of its travel at front" in said


@pytest.mark.parametrize("code", ["unit", "travel", "off-contact", "jumped"])
def test_nothing_is_noted_that_the_samples_do_not_show(parked, code):
    assert "do not show that" in parked.refused("gauge-noted", {"code": code}, [1.2] * 12)
