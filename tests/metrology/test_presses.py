"""Windows made of presses of the gauge's key: which frames count, and when."""

import pytest

from daq.metrology.presses import GAP_S, pressed
from daq.metrology.settle import SettleRules, Unsettled, Window
from daq.words import Sample, said
from tests.words import en

RULES = SettleRules()
LIMIT_MM = 0.005
NS = 1_000_000_000


def frames(*at, run="r1"):
    """Samples at these (seconds, value)."""
    return [
        Sample("g", run, n, round(t * NS), f"{v:+.3f}", "mm", v, (), b"")
        for n, (t, v) in enumerate(at)
    ]


def look(samples, now_s, presses=1, take_s=0.0):
    return pressed(samples, round(take_s * NS), round(now_s * NS), RULES, LIMIT_MM, presses)


def test_one_press_of_one_frame_is_a_reading_once_the_line_is_quiet():
    one = frames((1.0, 0.35))
    assert look(one, 1.0 + GAP_S / 2) == Unsettled(said("key-down"), False)
    found = look(one, 1.0 + GAP_S)
    assert isinstance(found, Window)
    assert (found.mean_mm, found.sd_mm, found.count, found.mid_ns) == (0.35, 0.0, 1, NS)


def test_of_a_key_that_repeats_only_the_last_frame_counts():
    held = frames((1.0, 0.9), (1.08, 0.5), (1.16, 0.35))
    found = look(held, 2.0)
    assert (found.first_n, found.last_n, found.mean_mm) == (2, 2, 0.35)


def test_three_presses_are_one_reading_with_their_spread():
    three = frames((1.0, 0.350), (2.0, 0.352), (3.0, 0.351))
    assert "pressed 2 of 3 times" in en(look(three[:2], 2.5, presses=3).why)
    found = look(three, 4.0, presses=3)
    assert (found.first_n, found.last_n, found.count) == (0, 2, 3)
    assert found.mean_mm == pytest.approx(0.351)
    assert found.sd_mm == pytest.approx(0.001)
    assert found.spread_mm == pytest.approx(0.002)


def test_presses_that_differ_are_no_reading_until_the_newest_agree():
    presses = frames((1.0, 0.40), (2.0, 0.350), (3.0, 0.351), (4.0, 0.352))
    assert en(look(presses[:3], 3.5, presses=3).why) == (
        "the last 3 presses differ by 0.050 mm; allowed 0.005"
    )
    assert look(presses, 4.5, presses=3).first_n == 1


def test_what_was_sent_before_the_take_or_in_an_earlier_run_does_not_count():
    assert en(look(frames((1.0, 0.35)), 3.0, take_s=2.0).why) == "the gauge's key was not pressed"
    replugged = [*frames((1.0, 0.1)), *frames((2.0, 0.1), run="r2")]
    assert "pressed 1 of 2 times" in en(look(replugged, 3.0, presses=2).why)


def test_a_take_without_a_press_expires():
    assert not look([], RULES.timeout_s).expired
    assert look([], RULES.timeout_s + 0.1).expired
