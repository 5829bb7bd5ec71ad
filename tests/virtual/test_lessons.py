"""Each lesson, walked by somebody who does as the console says."""

from typing import Any

import pytest

from daq.virtual.lessons import LESSONS
from tests.thinned import case
from tests.virtual.lesson_walk import Walk

KEYS = [lesson.key for lesson in LESSONS]
WORDLESS = "zeroed"
ANEW = 5
"""Its zero is noticed by the running service alone, and then all spots are read anew: here not."""


def walks() -> list[Any]:
    return [case([key], key == KEYS[0]) for key in KEYS]


@pytest.mark.parametrize("key", walks())
def test_who_does_as_the_console_says_loses_no_point(key: str) -> None:
    walk = Walk(key)
    walk.mill.zero = lambda: None  # type: ignore[method-assign]
    run = walk.perfect()
    assert (run["state"], run["lost"], run["score"]) == ("signed", [], 100)
    (lesson,) = (each for each in LESSONS if each.key == key)
    assert walk.house.presses == lesson.presses - ANEW * (key == WORDLESS)


@pytest.mark.parametrize("key", [case(["chip"], False)])
def test_who_turns_by_readings_over_a_chip_is_told_square_and_loses_by_the_truth(key: str) -> None:
    walk = Walk(key)
    walk.wipes = False
    run = walk.perfect()
    assert {lost["say"].of["why"] for lost in run["lost"]} == {"on-chip", "out"}
    assert run["score"] <= 70
