"""The lean told while an adjuster is turned is what a pair check taken at once finds."""

import math

import pytest

from tests.benchmarks.heads.leaning import agrees, told


@pytest.mark.parametrize(
    ("heads", "low", "high"),
    [(8, 0.85, 1.0), pytest.param(130, 0.93, 0.97, marks=pytest.mark.long)],
)
def test_it_holds_as_often_as_is_stated(heads, low, high):
    """95 % are stated; of a few turns as many as chance leaves."""
    found = told(0.010, heads, 1, seed=2)
    assert len(found) > 2 * heads
    assert low <= agrees(found) <= high
    off = math.sqrt(sum((off_mm / sd_mm) ** 2 for off_mm, sd_mm in found) / len(found))
    assert off == pytest.approx(1.0, abs=0.3)
