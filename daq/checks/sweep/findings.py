"""What a sweep says against itself."""

from collections.abc import Sequence

from daq.checks.finding import Finding, size
from daq.checks.sweep.harmonics import Second, aliasing, first_taken_for_lean
from daq.units import SLACK_MM
from daq.words import Unit, said

_LINES = ("left-right", "back-right-front-left", "front-back", "back-left-front-right")
"""The lines through the middle by their azimuth, every 45 degrees."""


def spare_limit_mm(resolution_mm: float, tolerance_mm: float, noise_mm: float = 0.0) -> float:
    """Return how large the spare equation may be, mm.

    Half of what the return error may be, as the mean of four readings scatters half as
    much as one: one count, a tenth of the tolerance on this sweep's diameter, or three
    times half of `noise_mm`, the scatter of one reading, whichever is largest. (The
    fractions: common practice, no source.)
    """
    return max(resolution_mm, tolerance_mm / 10.0, 1.5 * noise_mm)


def spare_past(
    spare_mm: float,
    limit_mm: float,
    unit: Unit = "mm",
    *,
    earlier_mm: float | None = None,
) -> Finding | None:
    """Return what to say about a spare equation past its limit, or None within it.

    `earlier_mm` is the spare equation of an earlier sweep over the same spots: a chip, a
    swap or a zeroing does not come out the same twice, the surface's own form does and
    does not stand in the way.
    """
    if abs(spare_mm) <= limit_mm + SLACK_MM:
        return None
    # The spare equation is a quarter of the four readings' sum, the middles differ by a half.
    found, allowed = size(2.0 * spare_mm, unit), size(2.0 * limit_mm, unit)
    if earlier_mm is not None and abs(spare_mm - earlier_mm) <= limit_mm + SLACK_MM:
        say = said("form", found=found, allowed=allowed, unit=unit)
        return Finding(say, False, spare_mm, limit_mm)
    say = said("spare-equation", found=found, allowed=allowed, unit=unit)
    return Finding(say, True, spare_mm, limit_mm)


def second_past(second: Second, limit_mm: float, unit: Unit = "mm") -> Finding | None:
    """Return what to say about a saddle or ridge past its limit, or None within it.

    `limit_mm` is for its amplitude, as `spare_limit_mm` gives it. It is the surface's own
    and, with the positions that can show it, does not touch the lean: it stops nothing.
    """
    if second.amplitude_mm <= limit_mm + SLACK_MM:
        return None
    high = round(second.direction_deg / 45.0) % 4
    say = said(
        "second-harmonic",
        high=_LINES[high],
        low=_LINES[(high + 2) % 4],
        found=size(second.between_mm, unit),
        allowed=size(2.0 * limit_mm, unit),
        unit=unit,
    )
    return Finding(say, False, second.amplitude_mm, limit_mm)


def aliased(azimuths_deg: Sequence[float]) -> Finding | None:
    """Return what to say of positions with which a surface that is not flat reads as lean.

    None when a hollow or a ridge stays out of the lean.

    Raises:
        ValueError: as `reduce.fit`.
    """
    if first_taken_for_lean(tuple(azimuths_deg)) > 2:
        return None
    return Finding(aliasing(azimuths_deg), False, 0.0, 0.0)
