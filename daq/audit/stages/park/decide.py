"""Parking for a move: the base, the parked check, the question it may raise."""

import math
from dataclasses import replace

from daq.audit.events import BaseRead, Data, Parked, ReadingTaken
from daq.audit.facts import agreement, axis_of, began_at, shown_face
from daq.audit.head import park_at, pivot_mm, standing
from daq.audit.input import Input, Refused
from daq.audit.parts import Next
from daq.audit.questions import Answer, Question
from daq.audit.reading import taken
from daq.audit.state import Job
from daq.audit.stop_at import ready, stop_for
from daq.squaring import advice, whereabouts
from daq.squaring.story import Seen, stood
from daq.words import OPPOSITE, Command, Position, Reading, Shown, said

UNSURE_MM = 0.05
"""With the lean in more doubt than this, one standard deviation, no stop-at is given, mm across
the sweep."""

READ_AGAIN = Answer("read-again", said("answer-read-again"))
SWEEP_AGAIN = Answer("sweep-again", said("answer-sweep-again"))
CHECK_AGAIN = Answer("check-again", said("answer-check-again"))
OTHER_WAY = Answer("other-way", said("answer-other-way"))
ZEROED = Answer("zeroed", said("answer-only-zeroed"))
SET_ANEW = Answer("set-anew", said("answer-set-anew"))


def place(job: Job, command: Command) -> Position:
    """Where the gauge is parked, if the move can be watched from there."""
    axis = axis_of(job)
    best = park_at(job, axis)
    position = Input(command).position or best
    if position not in (best, OPPOSITE[best]) or position not in job.setup.plan.positions:
        raise Refused("move-not-seen-from", position=position, best=best)
    away_mm = pivot_mm(job, axis)
    near = advice.pivot_from_parked(axis, position, away_mm)
    far = advice.pivot_from_parked(axis, OPPOSITE[position], away_mm)
    better = advice.sees_too_little(position, job.setup.machine.sweep_radius, near, far)
    if better is not None and better in job.setup.plan.positions:
        raise Refused("gauge-hardly-moves", better=better)
    return position


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """The parked reading, checked against the sweep."""
    position = place(job, given.command)
    event = taken(job, given, position)
    if job.parked is not None and job.parked.lost_face_mm is not None:
        return (_read_again(job, event, job.parked.base, job.parked.lost_face_mm),)
    question = ask(job, position, event.pushed_mm)
    axis = axis_of(job)
    stop, told, to = None, event.said, Next("question", axis)
    if question is None:
        story = stood(job.head.story, Seen(position, event.pushed_mm))
        at = standing(replace(job, head=replace(job.head, story=story)))
        if at.lean_doubt(axis) * job.setup.machine.diameter > UNSURE_MM:
            # After a knock one reading does not tell where the axis stands: its pair does.
            told, to = said("stand-unsure"), Next("check", axis)
        else:
            stop, to = stop_for(job, position, event.reading.mean_mm, at), ready(job)
    return (
        Parked(
            axis=axis,
            reading=event.reading,
            pushed_mm=event.pushed_mm,
            expected_pushed_mm=job.circle.known[position],
            question=question,
            stop=stop,
            said=told,
            next=to,
            visit_mm=_visit(job, position, event.pushed_mm) if stop else None,
        ),
    )


def _visit(job: Job, position: Position, pushed_mm: float) -> float | None:
    """How far a spot reads off that was come back to, with nothing touched since the sweep.

    As the difference of two readings: what is remembered of the spot has the drift since
    its reading in it, which was told from two others.
    """
    come_back = position != began_at(job)
    untouched = len(job.head.story) == job.head.swept_to and not job.loose
    if not (come_back and untouched):
        return None
    plan = job.setup.plan
    since = 1.0 - plan.positions.index(position) / len(plan.positions)
    variances = 2.0 + (2.0 * since * since if plan.returns else 0.0)
    return (pushed_mm - job.circle.known[position]) * math.sqrt(2.0 / variances)


def _read_again(job: Job, event: ReadingTaken, base: Reading, lost_face_mm: float) -> BaseRead:
    """After a zero the old base counts from the new zero: nothing else moved in between."""
    position = event.reading.position
    if position is None or position != base.position:
        raise Refused("parked-elsewhere", parked=base.position or "unknown")
    axis = axis_of(job)
    base_face_mm = event.reading.mean_mm + (base.mean_mm - lost_face_mm)
    # The gauge was read again, but the base still stands for where the head was read in it.
    told = Seen(position, job.setup.gauge.pushed(base_face_mm))
    stop = stop_for(job, position, base_face_mm, standing(job, (told,)))
    return BaseRead(axis, event.reading, event.pushed_mm, stop, ready(job))


def ask(job: Job, position: Position, pushed_mm: float) -> Question | None:
    """The question to ask when the spot does not read as it did, or None."""
    match whereabouts.compare(pushed_mm, position, job.circle.known, agreement(job)):
        case whereabouts.Agrees():
            return None
        case whereabouts.LooksLike(other=other):
            return _looks_like(job, position, other, pushed_mm)
        case whereabouts.LooksLikeNothing():
            was, now = _was_and_now(job, position, pushed_mm)
            asked = said("spot-differs", was=was, now=now)
            return Question(asked, (READ_AGAIN, ZEROED, SET_ANEW, _unsure(job)))


def _was_and_now(job: Job, position: Position, pushed_mm: float) -> tuple[Shown, Shown]:
    """What this spot read and reads, on the gauge's face."""
    face = job.setup.gauge.face
    was, now = face(job.circle.known[position]), face(pushed_mm)
    return shown_face(job, was, plus=True), shown_face(job, now, plus=True)


def _looks_like(job: Job, position: Position, other: Position, pushed_mm: float) -> Question:
    was, now = _was_and_now(job, position, pushed_mm)
    if _other_way_fits(job, position, other) and _fresh_from_sweep(job):
        asked = said("went-other-way", was=was, now=now)
        return Question(asked, (OTHER_WAY, READ_AGAIN, _unsure(job)))
    asked = said("spot-like-another", was=was, now=now, other=other)
    return Question(asked, (READ_AGAIN, ZEROED, _unsure(job)))


def _unsure(job: Job) -> Answer:
    """What to do in doubt: a full sweep, or with bolts loose a pair check of this axis."""
    return CHECK_AGAIN if job.loose else SWEEP_AGAIN


def _fresh_from_sweep(job: Job) -> bool:
    """Whether this axis still stands as the sweep read it, so that its labels can be exchanged."""
    sweep, axis = job.sweeps.latest, axis_of(job)
    return sweep is not None and job.axes.results[axis] == sweep.results[axis]


def _other_way_fits(job: Job, position: Position, other: Position) -> bool:
    """Whether this spot and that one change places when the circle was walked the other way."""
    start = began_at(job)
    walked = {p: whereabouts.mirrored(p, start) for p in job.circle.known}
    return other == OPPOSITE[position] == walked[position] and set(walked.values()) == set(walked)
