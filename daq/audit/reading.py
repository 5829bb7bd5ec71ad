"""One reading of a surface: refused in the air, at the end of the travel, of a stuck gauge."""

from itertools import pairwise
from typing import Final

from daq.audit.anytime.gauge import check_moves
from daq.audit.events import ReadingTaken
from daq.audit.facts import at_the_end, in_air, shown_face
from daq.audit.input import Input, Refused
from daq.audit.parts import StopAt
from daq.audit.state import Job
from daq.words import Position, Reading, Said, said

LEAST_PRELOAD_MM: Final = {"plunger": 0.2, "lever": 0.05}
"""Less than this and a lean can lift the contact off (a plunger's is usually pushed in by
about 1 mm, a lever's by 0.1 to 0.25 mm: common practice, no source)."""


def taken(job: Job, given: Input, position: Position) -> ReadingTaken:
    """One reading with its preload; refused when the contact is in the air."""
    reading = given.reading(position)
    check_contact(job, reading)
    pushed = job.setup.gauge.pushed(reading.mean_mm)
    if job.gauge.free_pushed_mm is None:
        return ReadingTaken(reading, pushed, None, None, given.second(position))
    in_mm = pushed - job.gauge.free_pushed_mm
    check_travel(job, reading)
    told = preload_told(job, in_mm, position)
    return ReadingTaken(reading, pushed, in_mm, told, given.second(position))


def move_of(job: Job) -> StopAt:
    """The stop-at of the move that is made."""
    if job.stop is None:
        raise Refused("no-stop-at")
    return job.stop


def watched(job: Job, given: Input, position: Position | None) -> Reading:
    """Where the number stands after it was watched; refused of a stuck gauge, and of the air."""
    check_moves(job, given)
    reading = given.reading(position)
    check_contact(job, reading)
    return reading


def check_contact(job: Job, reading: Reading) -> None:
    """Refuse a reading of the air."""
    if in_air(job, job.setup.gauge.pushed(reading.mean_mm)):
        raise Refused("off-contact", at=_at(job, reading), reads=shown_face(job, reading.mean_mm))


def _at(job: Job, reading: Reading) -> str:
    """Where that was, as a refusal says it."""
    return "station" if job.check is not None else reading.position or "unknown"


def check_travel(job: Job, reading: Reading) -> None:
    """Refuse a reading with the contact pushed in to its stop."""
    if at_the_end(job, job.setup.gauge.pushed(reading.mean_mm)):
        raise Refused("end-of-travel", at=_at(job, reading))


def preload_told(job: Job, in_mm: float, position: Position | Said) -> Said | None:
    """What is to be said of how far the contact is pushed in, or None."""
    room = job.setup.gauge.travel - in_mm
    least = LEAST_PRELOAD_MM[job.setup.gauge.kind]
    if in_mm < least:
        return said("little-preload", position=position, pushed=shown_face(job, in_mm))
    if room < least:
        return said("near-end-of-travel", position=position, left=shown_face(job, room))
    return None


def orders(readings: tuple[Reading, ...]) -> tuple[float, ...]:
    """Seconds since the first reading; the readings' count when a restart broke the clock."""
    times = [(r.mid_ns - readings[0].mid_ns) / 1e9 for r in readings]
    rising = all(before < after for before, after in pairwise(times))
    return tuple(times) if rising else tuple(float(i) for i in range(len(readings)))
