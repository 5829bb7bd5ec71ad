"""What a sweep says against itself, each as one plain sentence."""

from dataclasses import dataclass
from typing import Literal

from daq.units import show

_SLACK_MM = 1e-9
_DECIMALS = {"mm": 3, "in": 4}


@dataclass(frozen=True, slots=True)
class Finding:
    """Something wrong with a sweep. `blocking`: nothing may be built on these readings.

    `value_mm` is what was found, `limit_mm` what is allowed.
    """

    code: str
    say: str
    blocking: bool
    value_mm: float
    limit_mm: float


def return_limit_mm(resolution_mm: float, tolerance_mm: float) -> float:
    """Return how large a return error may be: two counts or a fifth of the tolerance.

    The larger of the two; `tolerance_mm` is the limit on this sweep's diameter.
    """
    return max(2.0 * resolution_mm, tolerance_mm / 5.0)


def spare_limit_mm(resolution_mm: float, tolerance_mm: float, noise_mm: float = 0.0) -> float:
    """Return how large the spare equation may be, mm.

    Half of what the return error may be, as the mean of four readings scatters half as
    much as one: one count, a tenth of the tolerance on this sweep's diameter, or three
    times half of `noise_mm`, the scatter of one reading, whichever is largest. (The
    fractions: common practice, no source.)
    """
    return max(resolution_mm, tolerance_mm / 10.0, 1.5 * noise_mm)


def return_error_past(
    error_mm: float, limit_mm: float, unit: Literal["mm", "in"] = "mm"
) -> Finding | None:
    """Return what to say about a return error past its limit, or None within it."""
    if abs(error_mm) <= limit_mm + _SLACK_MM:
        return None
    found, allowed = _pair(error_mm, limit_mm, unit)
    return Finding(
        "return-error",
        f"Back at the first position the gauge reads {found} {unit} different; allowed "
        f"{allowed}. Something moved: see to the arm and the contact and sweep again.",
        True,
        error_mm,
        limit_mm,
    )


def spare_past(
    spare_mm: float,
    limit_mm: float,
    unit: Literal["mm", "in"] = "mm",
    *,
    earlier_mm: float | None = None,
) -> Finding | None:
    """Return what to say about a spare equation past its limit, or None within it.

    `earlier_mm` is the spare equation of an earlier sweep over the same spots: a chip, a
    swap or a zeroing does not come out the same twice, the surface's own form does and
    does not stand in the way.
    """
    if abs(spare_mm) <= limit_mm + _SLACK_MM:
        return None
    found, allowed = _pair(spare_mm, limit_mm, unit)
    if earlier_mm is not None and abs(spare_mm - earlier_mm) <= limit_mm + _SLACK_MM:
        return Finding(
            "form",
            f"Front and back against left and right are {found} {unit} apart, as before; "
            f"allowed {allowed}. The surface itself is not flat there.",
            False,
            spare_mm,
            limit_mm,
        )
    return Finding(
        "spare-equation",
        f"The readings do not fit together: front and back against left and right are "
        f"{found} {unit} apart; allowed {allowed}. A chip under the contact, two positions "
        f"swapped, or the gauge zeroed on the way: wipe and sweep again.",
        True,
        spare_mm,
        limit_mm,
    )


def _pair(value_mm: float, limit_mm: float, unit: Literal["mm", "in"]) -> tuple[str, str]:
    decimals = _DECIMALS[unit]
    return show(abs(value_mm), unit, decimals), show(limit_mm, unit, decimals)
