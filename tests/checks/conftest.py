from collections.abc import Callable, Sequence

import pytest

from daq.checks.sweep.plan import FOUR
from daq.checks.sweep.reduce import Spot
from daq.words import POSITIONS


@pytest.fixture
def swept() -> Callable[[Sequence[float]], list[Spot]]:
    """Make points of readings in the order front, right, back, left (and front again)."""

    def make(read_mm: Sequence[float]) -> list[Spot]:
        names = FOUR.sequence[: len(read_mm)]
        return [
            Spot(POSITIONS[name], value, float(order))
            for order, (name, value) in enumerate(zip(names, read_mm, strict=True))
        ]

    return make
