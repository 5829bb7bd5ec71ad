from collections.abc import Callable, Sequence

import pytest

from daq.words import Sample

Make = Callable[..., list[Sample]]


@pytest.fixture
def samples() -> Make:
    """Make samples of one run at a steady rate: values in mm, as a plunger would send them."""

    def make(
        values_mm: Sequence[float],
        *,
        hz: float = 10.0,
        start_s: float = 0.0,
        run: str = "run-1",
        first_n: int = 0,
        unit: str = "mm",
        decimals: int = 3,
    ) -> list[Sample]:
        return [
            Sample(
                gauge="g",
                run=run,
                n=first_n + i,
                mono_ns=round((start_s + i / hz) * 1e9),
                text=f"{value / (25.4 if unit == 'in' else 1.0):+.{decimals}f}",
                unit="in" if unit == "in" else "mm",
                value_mm=value,
                flags=(),
                raw=b"",
            )
            for i, value in enumerate(values_mm)
        ]

    return make
