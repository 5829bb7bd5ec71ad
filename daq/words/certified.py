"""What the papers say of a thing that measures: who calibrated it, when, and when it is due."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, kw_only=True)
class Certified:
    """The certificate's number and laboratory, the day of it, and the last day it is good for.

    Raises:
        ValueError: it was due before it was made.
    """

    certificate: str = ""
    laboratory: str = ""
    calibrated_on: date | None = None
    due: date | None = None

    def __post_init__(self) -> None:
        """Refuse days that contradict each other."""
        if (
            self.calibrated_on is not None
            and self.due is not None
            and self.due < self.calibrated_on
        ):
            raise ValueError(
                f"due: found {self.due}, before calibrated_on {self.calibrated_on}; "
                "allowed: that day or later"
            )
