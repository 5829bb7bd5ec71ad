"""A number that stopped is told from one that stands still for a moment."""

import pytest

from daq.metrology.stuck import STILL_SAMPLES, stands_still


@pytest.mark.parametrize(("hz", "enough"), [(2, 20), (4, 20), (10, 31), (50, 151)])
def test_three_seconds_and_enough_samples(samples, hz, enough):
    assert stands_still(samples([1.2] * enough, hz=hz))
    assert not stands_still(samples([1.2] * (enough - 1), hz=hz))


def test_one_digit_is_enough_to_be_alive(samples):
    flicker = [1.2] * 100 + [1.201] + [1.2] * 100
    assert not stands_still(samples(flicker, hz=50))
    assert stands_still(samples([*flicker, *[1.2] * 51], hz=50))


def test_another_opening_of_the_port_does_not_count(samples):
    before = samples([1.2] * 200, hz=50)
    after = samples([1.2] * 100, hz=50, start_s=5.0, run="run-2")
    assert not stands_still([*before, *after])


def test_a_press_now_and_then_is_no_stream(samples):
    assert not stands_still(samples([1.2] * (STILL_SAMPLES - 1), hz=1))
    assert not stands_still([])
