"""Parking for a move: the base, the parked check, the question it may raise."""

import math
from dataclasses import replace
from typing import Literal

from daq.audit.doubt import of_pair
from daq.audit.events import BaseRead, Data, Parked, ReadingTaken
from daq.audit.facts import agreement, axis_of, shown_face
from daq.audit.head import goals, is_blind, park_at, pivot_mm, standing
from daq.audit.input import Input, Refused
from daq.audit.next_move import wanting
from daq.audit.parts import Answer, Next, Question, StopAt
from daq.audit.reading import taken
from daq.audit.state import Job
from daq.audit.way import way
from daq.squaring import adjuster, advice, parked
from daq.squaring.aim import aim
from daq.squaring.response import Standing
from daq.squaring.story import Seen
from daq.squaring.story import parked as stood
from daq.words import OPPOSITE, OTHER, PARKED, Axis, Both, Command, Position, Reading, Shown, said

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


def stop_for(job: Job, position: Position, base_face_mm: float, at: Standing) -> StopAt:
    """The stop-at for one axis from its base and where the head stands.

    When the other axis is still to be moved, it aims for that one's cross-talk. While nobody
    knows where the pivot acts there is none, and a turn by hand is to show it.
    """
    axis = axis_of(job)
    machine, gauge = job.setup.machine, job.setup.gauge
    sense = 1.0 if position == PARKED[axis] else -1.0
    if machine.axis(axis).adjust.kind != "shim" and is_blind(job, axis, at):
        lean = sense * at.lean(axis)
        # The turn that led astray went too far as a rule, whichever way.
        whither: Literal["back", "either"] = "back" if axis in job.loose else "either"
        return StopAt(axis, position, base_face_mm, base_face_mm, lean, lean, by_hand=whither)
    turned = aim(at, goals(job, at), axis, _others(job, axis, at))
    move = advice.advise(
        axis,
        position,
        base_mm=gauge.pushed(base_face_mm),
        t=sense * at.lean(axis),
        wanted=sense * turned,
        radius_mm=machine.sweep_radius,
        pivot_distance_mm=at.answering.pivot_mm(axis),
        pivot_height_mm=at.answering.height_mm(axis),
    )
    return _planned(job, move, base_face_mm, turned - at.lean(axis))


def _planned(job: Job, move: advice.Move, base_face_mm: float, turn: float) -> StopAt:
    """The stop-at with how to come to it and what to look out for.

    `move` is in pushed-in mm; `turn` is how the axis's lean is to change, slope, positive
    when the right or the front goes down.
    """
    gauge, machine = job.setup.gauge, job.setup.machine
    adjust = machine.axis(move.axis).adjust
    ends = (move.base_mm, move.stop_mm)
    come = way(job, move.axis, move.position, ends, move.wanted - move.t)
    shim = None
    if adjust.kind == "shim":
        shim = adjuster.shim(-turn * machine.diameter, machine.diameter, adjust)
    return StopAt(
        axis=move.axis,
        position=move.position,
        base_face_mm=base_face_mm,
        stop_face_mm=gauge.face(move.stop_mm),
        lean=move.t,
        wanted=move.wanted,
        turns=come.turns,
        approach=adjuster.approach(adjust),
        past_mm=come.past_mm,
        shim=shim,
        warnings=come.warnings,
    )


def _others(job: Job, axis: Axis, at: Standing) -> bool:
    """Whether the other axis is to be moved once this one was, which may be what puts it out.

    Not where the other's move alone would then do most of this one's work: an axis that is
    to be moved is moved.
    """
    other = OTHER[axis]
    if other in wanting(job, job.axes.results):
        return True
    here = at.lean(axis)
    alone, joint = (aim(at, goals(job, at), axis, others) - here for others in (False, True))
    follows = at.lean(other) + at.answering.coupling(axis) * alone
    moved = Both(follows, follows).put(axis, here + alone)
    diameter, part_mm = job.setup.machine.diameter, job.sweeps.part_mm
    landed = Both.of(lambda a: of_pair(job, a, moved[a] * diameter - part_mm.get(a, 0.0)))
    return other in wanting(job, landed) and joint * alone > 0.5 * alone * alone


def ready(job: Job) -> Next:
    """Parked and read: loosen, unless the axis is loose already."""
    axis = axis_of(job)
    return Next("move" if axis in job.loose else "loosen", axis)


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """The parked reading, checked against the sweep."""
    position = place(job, given.command)
    event = taken(job, given, position)
    if job.parked is not None and job.parked.lost_face_mm is not None:
        return (_read_again(job, event, job.parked.base, job.parked.lost_face_mm),)
    question = ask(job, position, event.pushed_mm)
    axis = axis_of(job)
    stop = None
    if question is None:
        told = stood(job.head.story, Seen(position, event.pushed_mm))
        at = standing(replace(job, head=replace(job.head, story=told)))
        if at.lean_doubt(axis) * job.setup.machine.diameter > UNSURE_MM:
            return (_check_first(job, position, event),)
        stop = stop_for(job, position, event.reading.mean_mm, at)
    return (
        Parked(
            axis=axis,
            reading=event.reading,
            pushed_mm=event.pushed_mm,
            expected_pushed_mm=job.circle.known[position],
            question=question,
            stop=stop,
            said=event.said,
            next=ready(job) if stop else Next("question", axis),
            visit_mm=_visit(job, position, event.pushed_mm) if stop else None,
        ),
    )


def _check_first(job: Job, position: Position, event: ReadingTaken) -> Parked:
    """After a knock one reading does not tell where the axis stands: its pair is read first."""
    return Parked(
        axis=axis_of(job),
        reading=event.reading,
        pushed_mm=event.pushed_mm,
        expected_pushed_mm=job.circle.known[position],
        question=None,
        stop=None,
        said=said("stand-unsure"),
        next=Next("check", job.axis),
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
    match parked.compare(pushed_mm, position, job.circle.known, agreement(job)):
        case parked.Agrees():
            return None
        case parked.LooksLike(other=other):
            return _looks_like(job, position, other, pushed_mm)
        case parked.LooksLikeNothing():
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
    walked = {p: parked.mirrored(p, start) for p in job.circle.known}
    return other == OPPOSITE[position] == walked[position] and set(walked.values()) == set(walked)


def began_at(job: Job) -> Position:
    """Where the latest sweep began: that spot and its opposite keep their labels."""
    return job.sweeps.done[-1].points[0].position
