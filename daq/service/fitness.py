"""What a gauge's papers say against it: calibration overdue, a check it did not pass.

These warn and do not stop: the shop decides what it does with such a gauge.
"""

import datetime
from collections.abc import Mapping

from daq.audit.gauge_events import GaugeChecked
from daq.gauges.config import GaugeConfig

Said = Mapping[str, str]
"""Like a fault of the snapshot, of the kind "warning": it leaves the number on the screens."""


def warnings(
    gauge: GaugeConfig, check: GaugeChecked | None, today: datetime.date
) -> tuple[Said, ...]:
    """Return what to say of a gauge today; `check` is the latest recorded for its key.

    The last day on which the calibration is due still counts as good.
    """
    found = []
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
