"""Moments as paper shows them: in the shop's time zone, with how far that is from UTC."""

from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from zoneinfo import ZoneInfo

from daq.words import Stamp


@dataclass(frozen=True)
class When:
    """The shop's `zone` by its IANA name; "UTC" where the shop names none, or one unknown here."""

    zone: str
    of: tzinfo

    def at(self, stamp: Stamp) -> str:
        """A moment to the second, ISO 8601 with its distance from UTC."""
        return self._of(stamp).isoformat()

    def shown(self, stamp: Stamp) -> str:
        """The same as paper shows it: 2026-10-25 02:30:00 +01:00."""
        moment = self._of(stamp)
        return f"{moment:%Y-%m-%d %H:%M:%S} {moment.isoformat()[-6:]}"

    def day(self, stamp: Stamp) -> str:
        """The day it was there, an ISO date."""
        return self._of(stamp).date().isoformat()

    def _of(self, stamp: Stamp) -> datetime:
        utc = datetime.fromtimestamp(stamp.utc_us // 1_000_000, UTC)
        return utc.astimezone(self.of)


def when(zone: str) -> When:
    """How moments are shown in that zone; what this computer does not know is shown in UTC."""
    try:
        return When(zone, ZoneInfo(zone))
    except (KeyError, OSError, ValueError):  # not found, no zone's file, no name of one
        return When("UTC", UTC)
