"""Whether the computer's clock was set: what it says is held against the time that passed."""

import uuid
from collections.abc import Mapping
from typing import Final

from daq.audit.clock_events import ClockStepped
from daq.audit.codec import encode
from daq.audit.history import day_of
from daq.words import Draft, Figure, Said, Stamp, said

STEP_US: Final = 1_000_000
"""From here on it was set. A time server that only corrects a clock changes it by 500 ppm at most
(adjtimex(2)), which is 50 µs from one look to the next."""

AT_ONCE: Final = 8
"""So many steps have an event of their own; after that one an hour has."""

APART_NS: Final = 3_600_000_000_000
SHOWN_NS: Final = 3_600_000_000_000
"""How long a step is told of."""


class ClockWatch:
    """Looks at each stamp; belongs to one thread."""

    def __init__(self, last: Stamp | None) -> None:
        """`last`: the stamp of the record's last row."""
        self._last = last
        self._offset_us: int | None = None
        self._doubt_us: int | None = None
        self._recorded = 0
        self._recorded_ns = 0
        self._more = 0
        self._shown: tuple[Said, int] | None = None
        self.waits: ClockStepped | None = None
        """What is still to be recorded."""

    def look(self, now: Stamp) -> ClockStepped | None:
        """What is to be recorded: that, or what could not be before."""
        offset_us = now.utc_us - now.mono_ns // 1000
        if self._offset_us is None:
            self._offset_us = self._before(now, offset_us)
        by_us = offset_us - self._offset_us
        if abs(by_us) < STEP_US:
            self._offset_us, self._doubt_us = offset_us, None
        elif self._doubt_us is None or abs(offset_us - self._doubt_us) >= STEP_US:
            self._doubt_us = offset_us  # a process stopped between two looks at a clock sees one
        else:
            self._step(now, by_us)
            self._offset_us, self._doubt_us = offset_us, None
        return self.waits

    def _before(self, now: Stamp, offset_us: int) -> int:
        """How far UTC was ahead of the other clock, as far as the record tells."""
        last = self._last
        if last is None:
            return offset_us
        if last.boot == now.boot:
            return last.utc_us - last.mono_ns // 1000
        return max(offset_us, last.utc_us - now.mono_ns // 1000)

    def _step(self, now: Stamp, by_us: int) -> None:
        way = "back" if by_us < 0 else "on"
        self._shown = said("clock-was-set", way=way, by=_long(abs(by_us))), now.mono_ns
        if self.waits is not None:  # several at once are one
            self.waits = ClockStepped(self.waits.before_us, now.utc_us, self.waits.more + 1)
        elif self._recorded < AT_ONCE or now.mono_ns - self._recorded_ns >= APART_NS:
            self.waits = ClockStepped(now.utc_us - by_us, now.utc_us, self._more)
        else:
            self._more += 1

    def recorded(self, now: Stamp) -> None:
        """What waited stands in the record."""
        self.waits, self._more = None, 0
        self._recorded, self._recorded_ns = self._recorded + 1, now.mono_ns

    def say(self, now: Stamp, latest_us: int) -> Said | None:
        """What people are to know of the date; `latest_us`: up to when the record goes."""
        if not now.utc_trusted:
            if now.utc_us + STEP_US < latest_us:
                day = day_of(Stamp(0, latest_us, "", utc_trusted=False))
                return said("clock-behind", today=day_of(now), day=day)
            if self._shown is None:
                return said("clock-unsure", today=day_of(now))
        if self._shown is not None and now.mono_ns - self._shown[1] < SHOWN_NS:
            return self._shown[0]
        return None if now.utc_trusted else said("clock-unsure", today=day_of(now))


def drafted(data: ClockStepped, stamp: Stamp, engine: str) -> Draft:
    """The row it is to be."""
    kind, version, fields = encode(data)
    cause: Mapping[str, object] = {
        "id": str(uuid.uuid4()), "kind": "clock-stepped", "payload": {}, "engine": engine,
    }  # fmt: skip
    return Draft(kind, version, "", "", stamp, "service", cause, fields)


def _long(us: int) -> Said:
    """How long, in the unit that people would use."""
    for unit, seconds in (("days", 86400), ("hours", 3600), ("minutes", 60)):
        if us >= 2 * seconds * 1_000_000:
            return said("so-long", of=unit, n=Figure(us / seconds / 1e6, 0))
    return said("so-long", of="seconds", n=Figure(us / 1e6, 0))
