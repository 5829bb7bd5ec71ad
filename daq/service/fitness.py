"""What a gauge's papers say against it: calibration overdue or not yet made, a check failed.

These warn and do not stop: the shop decides what it does with such a gauge.
"""

import datetime
from collections.abc import Mapping

from daq.audit.gauge_events import GaugeChecked
from daq.audit.recompute import day_of
from daq.gauges.config import GaugeConfig
from daq.words import Stamp

Said = Mapping[str, str]
"""Like a fault of the snapshot, of the kind "warning": it leaves the number on the screens."""


def day(stamp: Stamp) -> tuple[datetime.date, bool]:
    """The day of a stamp, and whether its clock is to be trusted."""
    return datetime.date.fromisoformat(day_of(stamp)), stamp.utc_trusted


def warnings(
    gauge: GaugeConfig, check: GaugeChecked | None, today: datetime.date, sure: bool = False
) -> tuple[Said, ...]:
    """Return what to say of a gauge today; `check` is the latest recorded for its key.

    The last day on which the calibration is due still counts as good. A calibration still to
    come is doubted only by a clock that is `sure`: a Pi without one starts in the past.
    """
    found = []
    if sure and gauge.calibrated_on is not None and gauge.calibrated_on > today:
        say = (
            f"{named(gauge)}: its file says it was calibrated on "
            f"{gauge.calibrated_on.isoformat()}, and that day is still to come. "
            "Look at its certificate."
        )
        found.append(warning("calibrated-ahead", say))
    if gauge.calibration_due < today:
        found.append(warning("overdue", f"{named(gauge)} {_overdue(gauge)}"))
    check = of_gauge(gauge, check)
    if check is not None and not check.passed:
        say = f"{named(gauge)} did not pass its check of {check.day}: see to it or take another."
        found.append(warning("check-failed", say))
    return tuple(found)


def of_gauge(gauge: GaugeConfig, check: GaugeChecked | None) -> GaugeChecked | None:
    """The check, if it was of this very gauge and not of another that had its key before."""
    same = check is not None and check.serial_number == gauge.serial_number
    return check if same else None


def warning(code: str, say: str) -> Said:
    """One warning as the snapshot carries it."""
    return {"code": code, "kind": "warning", "say": say}


def named(gauge: GaugeConfig) -> str:
    """The gauge as people know it: its name and the number on its housing."""
    return f"{gauge.name} ({gauge.serial_number})"


def _overdue(gauge: GaugeConfig) -> str:
    return f"is overdue: its calibration was good until {gauge.calibration_due.isoformat()}."
