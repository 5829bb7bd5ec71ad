"""What readings say against themselves, whatever they were taken for."""

from dataclasses import dataclass

from daq.units import FINE, SLACK_MM
from daq.words import Said, Shown, Unit, said


@dataclass(frozen=True, slots=True)
class Finding:
    """Something wrong with readings. `blocking`: nothing may be built on them.

    `value_mm` is what was found, `limit_mm` what is allowed.
    """

    said: Said
    blocking: bool
    value_mm: float
    limit_mm: float

    @property
    def code(self) -> str:
        """The code of what is said."""
        return self.said.code


def return_limit_mm(resolution_mm: float, tolerance_mm: float) -> float:
    """Return how large a return error may be: two counts or a fifth of the tolerance.

    The larger of the two; `tolerance_mm` is the limit on what is read.
    """
    return max(2.0 * resolution_mm, tolerance_mm / 5.0)


def return_error_past(error_mm: float, limit_mm: float, unit: Unit = "mm") -> Finding | None:
    """Return what to say about a return error past its limit, or None within it."""
    if abs(error_mm) <= limit_mm + SLACK_MM:
        return None
    found, allowed = size(error_mm, unit), size(limit_mm, unit)
    say = said("return-error", found=found, allowed=allowed, unit=unit)
    return Finding(say, True, error_mm, limit_mm)


def size(mm: float, unit: Unit) -> Shown:
    """Return a length as a finding shows it: without its sign."""
    return Shown(abs(mm), unit, FINE[unit])
