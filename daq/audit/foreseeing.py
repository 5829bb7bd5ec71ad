"""What the screens show of the step an input leads to, worked out once and kept with it."""

from dataclasses import replace
from functools import reduce
from typing import Any

from daq.audit.apply import evolve
from daq.audit.chosen import read_at
from daq.audit.events import Data
from daq.audit.facts import certain
from daq.audit.head import nod_mm, park_from
from daq.audit.next_move import furthest, no_shims
from daq.audit.parts import Ahead, Next, Way
from daq.audit.reading_order import check_order, stands_at, sweep_from
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.audit.way import way_left
from daq.squaring.story import last_worked
from daq.squaring.tightening import Tighten, next_step, pull, steps, whole

_SETTLED = ("tighten", "final", "clear", "sign")
"""Where it is settled that an axis is turned no more."""


def foreseen(job: Job, found: tuple[Data, ...]) -> tuple[Data, ...]:
    """The events of one input; the last that names a next step says what is shown there."""
    last = max((i for i, data in enumerate(found) if _follows(data)), default=None)
    if last is None:
        return found
    after = reduce(lambda job, data: evolve(job, data, 0, job.since), found, job)
    data: Any = found[last]
    to = certain(_follows(data))
    if to.step != after.step:  # asked first, and gone to only then
        return found
    seen = replace(data, next=replace(to, ahead=_ahead(after)))
    return (*found[:last], seen, *found[last + 1 :])


def _follows(data: Data) -> Next | None:
    follows: Next | None = getattr(data, "next", None)
    return follows


def _ahead(job: Job) -> Ahead | None:
    ahead = _of_step(job)
    none = no_shims(job) if job.step in _SETTLED else ()
    return replace(ahead or Ahead(), no_shims=none) if none else ahead


def _of_step(job: Job) -> Ahead | None:
    if job.step == "stations" and job.check is not None:
        return Ahead(stations=read_at(job, job.check))
    stands, worked = stands_at(job), last_worked(job.head.story)
    if job.step in ("as-found", "final"):
        return Ahead(sweep_from(job), stands)
    if job.step == "clear":
        return _squares(job)
    if job.axis is None:
        return None
    if job.step == "park":
        return Ahead((park_from(job, job.axis, stands),), nod_mm=nod_mm(job))
    if job.step == "check":
        return Ahead(check_order(job, job.axis), stands, worked)
    if job.step == "tighten":
        return _pull(job, job.setup.machine.axis(job.axis).tighten)
    return Ahead(way=_way(job))


def _squares(job: Job) -> Ahead | None:
    """What a check alone found out, if a move would better it."""
    unasked = job.check is None and not REASONS[job.reason].squares
    if not unasked or job.moves.squaring_asked or job.moves.ended:
        return None
    axis = furthest(job, job.axes.results)
    return None if axis is None else Ahead(squares=axis)


def _pull(job: Job, tighten: Tighten) -> Ahead:
    """The next bolt and how far; after the last, or where none is named, how far in the end."""
    unit, every = job.setup.machine.unit, len(steps(tighten))
    step = next_step(tighten, job.bolts.steps)
    if step is None:
        return Ahead(pull=whole(tighten, unit), bolts=every)
    return Ahead(bolt=step.bolt, pull=pull(step, tighten, unit), bolts=every)


def _way(job: Job) -> Way | None:
    """What is left of a move from where the number stands since the bolts were cracked."""
    cracked_mm = job.parked.cracked_face_mm if job.parked is not None else None
    if job.stop is None or job.stop.by_hand or cracked_mm is None:
        return None
    return way_left(job, job.stop, cracked_mm)
