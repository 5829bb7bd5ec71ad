"""Many cases of one test: some run always, all of them in the long run."""

from collections.abc import Iterable
from itertools import product
from typing import Any

import pytest


def thinned(*axes: Iterable[Any]) -> list[Any]:
    """Every combination; in the ordinary run those alone that bring each value with another one.

    So each value of each axis runs, and no pair of them is left to be met by the long run alone
    unless there are more pairs than values of the longest axis.
    """
    values = [list(axis) for axis in axes]
    longest = max(map(len, values))
    kept = {tuple(nth % len(axis) for axis in values) for nth in range(longest)}
    return [
        case([axis[at] for axis, at in zip(values, places, strict=True)], places in kept)
        for places in product(*(range(len(axis)) for axis in values))
    ]


def case(given: list[Any], always: bool) -> Any:
    return pytest.param(*given, marks=() if always else pytest.mark.long)
