"""What the folds of several stages share: the fields of an audit that an event sets."""

from dataclasses import replace
from typing import Any

from daq.audit.gauge_events import GaugeNoted
from daq.audit.parts import Next, Point
from daq.audit.state import Job
from daq.squaring.story import Seen
from daq.words import Position, Said

Change = dict[str, Any]

NO_BASE: Change = {
    "base": None,
    "stop": None,
    "cracked_face_mm": None,
    "lost_face_mm": None,
    "question": None,
    "asked": None,
    "zero_asked": None,
}


def in_unit(job: Job, noted: GaugeNoted) -> Change:
    """The unit the gauge shows from now on, and a round's stations told in it."""
    change: Change = {} if noted.unit is None else {"unit": noted.unit}
    if noted.stations and job.ahead is not None:
        change["ahead"] = replace(job.ahead, stations=noted.stations)
    return change


def go(to: Next, said: Said | None = None) -> Change:
    """To the next step, with a message or without."""
    return {"step": to.step, "axis": to.axis, "ahead": to.ahead, "message": said}


def values(points: tuple[Point, ...]) -> dict[Position, float]:
    """Points by position."""
    return {p.position: p.pushed_mm for p in points}


def seen_at(reading_position: Position | None, pushed_mm: float) -> tuple[Seen, ...]:
    """One reading as the story keeps it."""
    return () if reading_position is None else (Seen(reading_position, pushed_mm),)
