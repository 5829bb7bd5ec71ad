"""What the folds of several stages share: an audit after an event."""

from daq.audit.changed import changed
from daq.audit.gauge_events import GaugeNoted
from daq.audit.moved_parts import Foreseen
from daq.audit.parts import Flaw, Next, Point
from daq.audit.state import Job
from daq.squaring.story import Seen
from daq.words import Position, Said


def go(job: Job, to: Next, said: Said | None = None) -> Job:
    """On to the next step, with a message or without."""
    return changed(
        job, step=to.step, axis=to.axis, ahead=to.ahead, left_out=to.left_out, message=said
    )


def leave(job: Job, to: Next, said: Said | None = None) -> Job:
    """On to the next step: nothing parked, asked or half read stands any more."""
    return changed(go(job, to, said), parked=None, asked=None, reads=job.reads.anew())


def as_foreseen(job: Job, stands: Foreseen | None) -> Job:
    """The audit with the head standing as it must; as it was where that is read first."""
    if stands is None:
        return job
    return changed(
        job,
        circle=changed(job.circle, known=values(stands.points)),
        axes=changed(job.axes, results=stands.results, whole=stands.whole),
        head=changed(job.head, slack_mm=stands.slack_mm),
    )


def begun(job: Job) -> Job:
    """What is under way, begun again: nothing of it is shown."""
    return changed(job, reads=job.reads.anew(), circle=changed(job.circle, shown={}))


def in_unit(job: Job, noted: GaugeNoted) -> Job:
    """The gauge shows this unit from now on, and a round's stations are told in it."""
    ahead = job.ahead
    if noted.stations and ahead is not None:
        ahead = changed(ahead, stations=noted.stations)
    gauge = changed(job.gauge, unit=noted.unit or job.gauge.unit)
    return changed(job, gauge=gauge, ahead=ahead)


def values(points: tuple[Point, ...]) -> dict[Position, float]:
    """Points by position."""
    return {p.position: p.pushed_mm for p in points}


def seen_at(reading_position: Position | None, pushed_mm: float) -> tuple[Seen, ...]:
    """One reading as the story keeps it."""
    return () if reading_position is None else (Seen(reading_position, pushed_mm),)


def foremost(findings: tuple[Flaw, ...]) -> Said | None:
    """What readings say against themselves: of several findings one that blocks."""
    return next((f.said for f in sorted(findings, key=lambda f: not f.blocking)), None)
