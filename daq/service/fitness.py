"""What a gauge's papers say against it: calibration overdue or not yet made, a check failed.

These warn and do not stop: the shop decides what it does with such a gauge.
"""

import datetime
from collections.abc import Mapping
from typing import Any

from daq.audit.gauge_events import GaugeChecked
from daq.audit.recompute import day_of
from daq.gauges.config import GaugeConfig
from daq.words import Said, Stamp, said

Warned = Mapping[str, Any]
"""Like a fault of the snapshot, of the kind "warning": it leaves the number on the screens."""


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
    found: list[Warned] = []
    known = named(gauge)
    if sure and gauge.calibrated_on is not None and gauge.calibrated_on > today:
        say = said("calibrated-ahead", gauge=known, day=gauge.calibrated_on.isoformat())
        found.append(warning("calibrated-ahead", say))
    if gauge.calibration_due < today:
        say = said("calibration-overdue", gauge=known, day=gauge.calibration_due.isoformat())
        found.append(warning("overdue", say))
    check = of_gauge(gauge, check)
    if check is not None and not check.passed:
        say = said("check-was-failed", gauge=known, day=check.day)
        found.append(warning("check-failed", say))
    return tuple(found)


def of_gauge(gauge: GaugeConfig, check: GaugeChecked | None) -> GaugeChecked | None:
    """The check, if it was of this very gauge and not of another that had its key before."""
    same = check is not None and check.serial_number == gauge.serial_number
    return check if same else None


def warning(code: str, say: Said) -> Warned:
    """One warning as the snapshot carries it."""
    return {"code": code, "kind": "warning", "say": say}


def named(gauge: GaugeConfig) -> str:
    """The gauge as people know it: its name and the number on its housing."""
    return f"{gauge.name} ({gauge.serial_number})"
