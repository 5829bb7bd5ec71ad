"""The events of a stream, and how often the live number may come.

Events: `snapshot` (its id is the sequence number), `live` (25 a second at
most), `settling` (a command waits for the gauge), and `beat` every half
second, so that a silent line is noticed at both of its ends.
"""

import json
from dataclasses import replace

from daq.words import Live

BEAT_S = 0.5
GAP_S = 0.040
SLACK_S = 0.008
"""Tolerance of the pace. A gauge at 50 a second lands every second sample right on
the 40 ms mark; without slack, jitter would send the older one and hold the newer."""


def message(event: str, data: object, seq: int | None = None) -> bytes:
    """Return one server-sent event."""
    number = "" if seq is None else f"id: {seq}\n"
    body = json.dumps(data, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return f"{number}event: {event}\ndata: {body}\n\n".encode()


class Pace:
    """Lets live numbers through at once, but no faster than one in GAP_S on average."""

    def __init__(self) -> None:
        """Start open."""
        self._due = 0.0
        self._held: Live | None = None
        self._since = 0.0

    @property
    def mark(self) -> float | None:
        """The time at which the number held must go out, or None if none is held."""
        return None if self._held is None else self._due + SLACK_S

    def offer(self, live: Live, now: float) -> Live | None:
        """Return the number if it may go out now; else hold it in place of an older one."""
        self._held, self._since = live, now
        return self._release(now) if now >= self._due - SLACK_S else None

    def overdue(self, now: float) -> Live | None:
        """Return the number held once its time has come, aged by how long it waited."""
        return self._release(now) if self._held and now >= self._due + SLACK_S else None

    def _release(self, now: float) -> Live | None:
        held, self._held = self._held, None
        self._due = max(self._due, now) + GAP_S
        waited_ms = round((now - self._since) * 1000)
        return _aged(held, waited_ms) if held and waited_ms else held


def _aged(live: Live, ms: int) -> Live:
    left = live.fresh_for_ms
    return replace(
        live, age_ms=live.age_ms + ms, fresh_for_ms=None if left is None else max(0, left - ms)
    )
