"""A gauge's check in one plain sentence."""

from typing import Literal

from daq.checks.gauge.reduce import Found
from daq.units import show


def sentence(found: Found, unit: Literal["mm", "in"], decimals: int) -> str:
    """Say whether the gauge is good, by what, and how it repeats, in `unit`."""

    def text(value_mm: float) -> str:
        return f"{show(value_mm, unit, decimals)} {unit}"

    said = [
        f"{'Good' if found.passed else 'Not good'}: its errors span {text(found.span_mm)}; "
        f"allowed {text(found.max_error_mm)}."
    ]
    if found.repeatability_mm is not None:
        said.append(f"It repeats within a standard deviation of {text(found.repeatability_mm)}.")
    if found.hysteresis_mm is not None:
        said.append(f"Up and down differ by up to {text(found.hysteresis_mm)}.")
    if not found.passed:
        said.append("Take it out of use until it has been seen to.")
    return " ".join(said)
