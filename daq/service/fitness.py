"""What a gauge's papers say against it: calibration overdue or not yet made, a check failed.

These warn and do not stop; whoever signs all the same is asked why.
"""

import datetime
from collections.abc import Mapping
from typing import Any, Final

from daq.audit.gauge_events import GaugeChecked
from daq.audit.papers import GaugePapers, named, said_against
from daq.audit.recompute import day_of
from daq.gauges.config import GaugeConfig
from daq.words import Said, Stamp

Warned = Mapping[str, Any]
"""Like a fault of the snapshot, of the kind "warning": it leaves the number on the screens."""


CODES: Final[Mapping[str, str]] = {
    "calibrated-ahead": "calibrated-ahead",
    "calibration-overdue": "overdue",
    "check-was-failed": "check-failed",
}
"""What a warning is called in the snapshot, by what it says."""


def day(stamp: Stamp) -> tuple[datetime.date, bool]:
    """The day of a stamp, and whether its clock is to be trusted."""
    return datetime.date.fromisoformat(day_of(stamp)), stamp.utc_trusted


def warnings(
    gauge: GaugeConfig, check: GaugeChecked | None, today: datetime.date, sure: bool = False
) -> tuple[Warned, ...]:
    """Return what to say of a gauge today; `check` is the latest recorded for its key.

    The last day on which the calibration is due still counts as good. A calibration still to
    come is doubted only by a clock that is `sure`: a Pi without one starts in the past.
    """
    check = of_gauge(gauge, check)
    failed = check.day if check is not None and not check.passed else None
    ahead = None if gauge.calibrated_on is None else gauge.calibrated_on.isoformat()
    papers = GaugePapers(
        named(gauge.name, gauge.serial_number), gauge.calibration_due.isoformat(), ahead, failed
    )
    found = said_against(papers, today.isoformat(), sure=sure)
    return tuple(warning(CODES[say.code], say) for say in found)


def of_gauge(gauge: GaugeConfig, check: GaugeChecked | None) -> GaugeChecked | None:
    """The check, if it was of this very gauge and not of another that had its key before."""
    same = check is not None and check.serial_number == gauge.serial_number
    return check if same else None


def warning(code: str, say: Said) -> Warned:
    """One warning as the snapshot carries it."""
    return {"code": code, "kind": "warning", "say": say}
