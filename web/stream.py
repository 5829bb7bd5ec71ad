"""The event stream of one screen: the latest value, never a queue.

Events: `snapshot` (its id is the sequence number), `live` (25 a second at
most), `settling` (a command waits for the gauge), and `beat` every half
second, so that a silent line is noticed at both of its ends.
"""

import json
import time
from collections.abc import Callable, Iterator
from dataclasses import replace

from daq.says import language
from daq.words import Live, Snapshot
from web.ports import Subscription
from web.rooms import Rooms

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


def _snapshot(snapshot: Snapshot) -> bytes:
    return message("snapshot", language().told(snapshot), snapshot.seq)


def events(
    rooms: Rooms,
    machine: str,
    slot: Subscription,
    clock: Callable[[], float] = time.monotonic,
) -> Iterator[bytes]:
    """Yield one screen's events until the server closes.

    Whatever is due at one moment goes out in one piece. Each beat carries the
    live number too when none was sent since the last, so that its age and
    freshness stay true on a screen whose gauge went silent.
    """
    pace = Pace()
    settling = rooms.settling.now(machine)
    yield b"retry: 1000\n\n" + b"".join(
        (
            _snapshot(rooms.hub.snapshot(machine)),
            message("live", language().told(rooms.hub.live(machine))),
            message("settling", {"settling": settling}),
        )
    )
    beat_at = clock() + BEAT_S
    quiet = True
    while not rooms.gate.closing.is_set():
        wake_at = min(beat_at, pace.mark or beat_at)
        live, snapshot = slot.wait(max(0.0, wake_at - clock()))
        now = clock()
        out = [_snapshot(snapshot)] if snapshot else []
        if settling != rooms.settling.now(machine):
            settling = not settling
            out.append(message("settling", {"settling": settling}))
        ready = pace.offer(live, now) if live else pace.overdue(now)
        beat = now >= beat_at
        if beat:
            beat_at = now + BEAT_S
            out.append(message("beat", {}))
            ready = ready or (rooms.hub.live(machine) if quiet else None)
        quiet = beat or (quiet and ready is None)
        if ready:
            out.append(message("live", language().told(ready)))
        if out:
            yield b"".join(out)
