"""A head found beyond what the gauge can read: recorded so, and brought closer until it reads."""

import math

import pytest

from daq.audit.recompute import differences
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import changed, told
from tests.words import en

STYLUS = math.radians(15.0)
PAST = {"last_good": "2026-01-05", "disposition": "none made since"}


def audit(**more):
    """A bench with limits of 0.025 over 300, the nod pivot 150 behind."""
    return Bench(changed(setup_of(limit=0.025, height=400.0), **more))


def lever(**more):
    """A lever gauge with 0.8 mm of travel, held at 15 degrees."""
    gauge = {"kind": "lever", "travel": 0.8, "cosine": math.cos(STYLUS), "resolution": 0.001}
    return audit(gauge=gauge, **more)


def fallen_off(b):
    """Swept until the lever hangs free at the back, which is recorded."""
    b.do("open", {"reason": "scheduled"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [0.0] * 10)
    b.do("pushed", {}, [0.0, 0.3, 0.5, 0.0])
    b.take("front", 0.350)
    b.take("right", 0.180)
    return en(b.refused("take", {"position": "back"}, [0.001] * 10))


def test_a_lever_that_falls_off_contact_at_the_back_is_no_reading():
    b = lever()
    said = fallen_off(b)
    assert said.startswith("Off contact at back.") and "off its scale" in said
    assert [r.position for r in b.job.reads.taken] == ["front", "right"]
    (event,) = b.do("off-scale", {"position": "back"})
    # The front's 0.350 on the face, as a length: times the cosine of the stylus.
    assert en(event) == "off scale, beyond 0.338 mm at back"
    assert event.beyond_mm == pytest.approx(0.350 * math.cos(STYLUS), abs=1e-9)
    assert b.job.reads.taken == () and b.job.sweeps.done == () and b.job.step == "arm-out-closer"
    assert told(b, "SweepDone") == []


def test_off_scale_at_the_first_place_tells_no_distance():
    b = lever()
    b.do("open", {"reason": "scheduled"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [0.0] * 10)
    b.do("pushed", {}, [0.0, 0.3, 0.5, 0.0])
    (event,) = b.do("off-scale", {"position": "front"})
    assert (en(event), event.beyond_mm) == ("off scale at front", 0.0)


def test_off_contact_is_told_from_the_newest_samples():
    """Free reads 0.000: what was pushed in most is how far the surface is away at least."""
    b = lever()
    fallen_off(b)
    (event,) = b.do("off-scale", {"position": "back"}, [0.350, 0.180] + [0.001] * 10)
    assert event.beyond_mm == pytest.approx(0.350 * math.cos(STYLUS), abs=1e-9)


def test_at_the_end_of_travel_it_is_what_was_left_where_it_was_pushed_in_least():
    """A plunger with 12.7 of travel, read at 1.000 and 3.000: 11.7 further at least."""
    b = Bench(setup_of(limit=0.025, height=400.0)).start()
    b.take("front", 1.000)
    b.take("right", 3.000)
    assert b.refused("take", {"position": "back"}, [12.7] * 10).code == "end-of-travel"
    (event,) = b.do("off-scale", {"position": "back"}, [3.0] * 5 + [12.7] * 10)
    assert event.beyond_mm == pytest.approx(11.7, abs=1e-9)
    assert en(event) == "off scale, beyond 11.700 mm at back"
    assert list(differences(b.events, b.chunks.__getitem__)) == []


@pytest.mark.parametrize("values", [[], [2.0] * 10], ids=["no samples", "neither end"])
def test_off_scale_where_the_gauge_does_not_tell_which_way(values):
    b = Bench(setup_of(limit=0.025, height=400.0)).start()
    b.take("front", 1.000)
    b.take("right", 3.000)
    (event,) = b.do("off-scale", {"position": "back"}, values)
    assert event.beyond_mm == pytest.approx(3.0, abs=1e-9)


def test_off_scale_at_the_end_of_travel_at_the_first_place_tells_no_distance():
    b = Bench(setup_of(limit=0.025, height=400.0)).start()
    (event,) = b.do("off-scale", {"position": "front"}, [12.7] * 10)
    assert (en(event), event.beyond_mm) == ("off scale at front", 0.0)


def test_a_head_not_yet_close_enough_is_brought_closer_again():
    b = lever()
    fallen_off(b)
    b.do("off-scale", {"position": "back"})
    b.closer()
    b.take("front", 0.250)
    b.take("right", 0.150)
    (event,) = b.do("off-scale", {"position": "back"}, [0.001] * 10)
    assert event.beyond_mm == pytest.approx(0.250 * math.cos(STYLUS), abs=1e-9)
    assert b.job.step == "arm-out-closer" and b.job.reads.taken == ()
    b.closer()
    b.sweep(front=0.301, right=0.300, back=0.300, left=0.301)
    b.do("cleared")
    b.do("sign", {"done_by": "T", **PAST})
    signed = b.shop.machine("mill").last.signed
    # How it was found is the first; the second is how near the scale brought it.
    assert en(signed.off_scale) == "off scale, beyond 0.338 mm at back"
    assert (signed.verdict, signed.as_found) == ("conforms", None)


def test_a_head_that_was_swept_is_not_off_scale_any_more():
    b = lever()
    fallen_off(b)
    b.do("off-scale", {"position": "back"})
    b.closer()
    b.sweep(front=0.301, right=0.300, back=0.300, left=0.301)
    said = b.refused("sign", {"done_by": "T", "as_found": 1, "as_found_why": "it was in"})
    assert said.code == "not-this-step"
    b.do("again", {"why": "not sure"})
    assert b.job.step == "final"
    said = b.refused("off-scale", {"position": "back"})
    assert said.code == "off-scale-after-sweep"
    b.sweep(front=0.301, right=0.300, back=0.300, left=0.301)
    b.do("cleared")
    said = b.refused("sign", {"done_by": "T", "as_found": 1, "as_found_why": "it was in"})
    assert (said.code, said.of["found"]) == ("as-found-never-read", "1")


@pytest.mark.parametrize(("pushed", "little"), [(0.150, False), (0.040, True)])
def test_a_levers_preload_is_judged_as_a_levers(pushed, little):
    """Common practice, no source: a lever is pushed in by 0.1 to 0.25 mm."""
    b = lever()
    b.do("open", {"reason": "scheduled"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [0.0] * 10)
    b.do("pushed", {}, [0.0, 0.3, 0.5, 0.0])
    (event,) = b.take("front", pushed)
    assert en(event).startswith("Little preload at front") == little
    assert (event.said is None) == (not little)


def test_a_plungers_preload_is_judged_as_a_plungers():
    b = audit().start()
    (event,) = b.take("front", 0.150)
    assert en(event).startswith("Little preload at front")


def test_a_head_found_off_scale_is_brought_closer_and_signed():
    b = lever()
    fallen_off(b)
    b.do("off-scale", {"position": "back"})
    assert b.console["actions"][0]["kind"] == "arm-out"
    b.closer()
    assert b.job.step == "final" and b.console["verdict"] is None
    done = b.sweep(front=0.301, right=0.300, back=0.300, left=0.301)
    assert (done.purpose, b.job.step) == ("final", "clear")
    b.do("cleared")
    assert b.refused("sign", {"done_by": "T"}).code == "last-good-no-date"
    b.do("sign", {"done_by": "T", **PAST})
    signed = b.shop.machine("mill").last.signed
    assert (signed.verdict, signed.as_found) == ("conforms", None)
    assert en(signed.off_scale) == "off scale, beyond 0.338 mm at back"
    (kept,) = b.shop.machine("mill").history.latest
    assert kept.as_found is None and kept.off_scale == signed.off_scale
