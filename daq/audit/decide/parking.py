"""Parking for a move: the base, the parked check, the question, and what a zero does."""

from dataclasses import dataclass, replace
from typing import cast

from daq.audit.decide.common import Input, Refused, Take
from daq.audit.decide.sweeping import after_sweep, sweep_next, taken
from daq.audit.events import Answered, BaseRead, Data, Parked, ReadingTaken, SweepDone
from daq.audit.facts import face_text, points, result
from daq.audit.parts import Answer, AxisResult, Next, Question, StopAt
from daq.audit.state import Job
from daq.squaring import advice, parked
from daq.words import OPPOSITE, PARKED, Axis, Command, Position

READ_AGAIN = Answer("read-again", "I have moved it: read again")
SWEEP_AGAIN = Answer("sweep-again", "Not sure: sweep again")
CHECK_AGAIN = Answer("check-again", "Not sure: check this axis again")
OTHER_WAY = Answer("other-way", "Yes, the other way round")
ZEROED = Answer("zeroed", "Yes, only zeroed: carry on")


@dataclass(frozen=True)
class Chosen:
    """The payload of `answer`."""

    key: str


def axis_of(job: Job) -> Axis:
    """The axis being worked on."""
    return cast(Axis, job.axis)


def place(job: Job, command: Command) -> Position:
    """Where the gauge is parked, if the move can be watched from there."""
    axis = axis_of(job)
    best = PARKED[axis]
    position = Input(command).payload(Take).position or best
    if position not in (best, OPPOSITE[best]):
        raise Refused(f"From {position} this move cannot be watched: park at {best}.")
    spec = job.setup.machine.axis(axis)
    near = advice.pivot_from_parked(axis, position, spec.pivot_distance)
    far = advice.pivot_from_parked(axis, OPPOSITE[position], spec.pivot_distance)
    better = advice.sees_too_little(position, job.setup.machine.sweep_radius, near, far)
    if better is not None:
        raise Refused(f"The gauge hardly moves here: park at {better}.")
    return position


def stop_for(job: Job, position: Position, base_face_mm: float, d_mm: float) -> StopAt:
    """The stop-at for one axis from its base and its difference across the sweep."""
    axis = axis_of(job)
    machine = job.setup.machine
    spec = machine.axis(axis)
    sense = 1.0 if position == PARKED[axis] else -1.0
    lean = sense * d_mm / (2 * machine.sweep_radius)
    wanted = sense * spec.wanted_lean
    move = advice.advise(
        axis,
        position,
        base_mm=job.setup.gauge.pushed(base_face_mm),
        t=lean,
        wanted=wanted,
        radius_mm=machine.sweep_radius,
        pivot_distance_mm=spec.pivot_distance,
        pivot_height_mm=spec.pivot_height,
    )
    return StopAt(axis, position, base_face_mm, job.setup.gauge.face(move.stop_mm), lean, wanted)


def ready(job: Job) -> Next:
    """Parked and read: loosen, unless the axis is loose already."""
    axis = axis_of(job)
    return Next("move" if axis in job.loose else "loosen", axis)


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """The parked reading, checked against the sweep."""
    position = place(job, given.command)
    event = taken(job, given, position)
    if job.base is not None and job.lost_face_mm is not None:
        return (_read_again(job, event, job.base.mean_mm - job.lost_face_mm),)
    question = ask(job, position, event.pushed_mm)
    axis = axis_of(job)
    stop = None
    if question is None:
        stop = stop_for(job, position, event.reading.mean_mm, job.results[axis].d_mm)
    return (
        Parked(
            axis=axis,
            reading=event.reading,
            pushed_mm=event.pushed_mm,
            expected_pushed_mm=job.known[position],
            question=question,
            stop=stop,
            say=event.say,
            next=ready(job) if stop else Next("question", axis),
        ),
    )


def _read_again(job: Job, event: ReadingTaken, carried_mm: float) -> BaseRead:
    """After a zero the old base counts from the new zero: nothing else moved in between."""
    position = event.reading.position
    if position is None or job.base is None or position != job.base.position:
        parked_at = job.base.position if job.base is not None else "its spot"
        raise Refused(f"The gauge was parked at {parked_at}: read that spot again.")
    axis = axis_of(job)
    base_face_mm = event.reading.mean_mm + carried_mm
    stop = stop_for(job, position, base_face_mm, job.results[axis].d_mm)
    return BaseRead(axis, event.reading, event.pushed_mm, stop, ready(job))


def agreement(job: Job) -> float:
    """How far a parked reading may differ from the sweep's and still be the same spot, mm."""
    slack = 0.15 * job.slack_mm.get(axis_of(job), 0.0)
    return max(0.010, 5 * job.setup.gauge.resolution, 2 * job.spread_mm) + slack


def ask(job: Job, position: Position, pushed_mm: float) -> Question | None:
    """The question to ask when the spot does not read as it did, or None."""
    match parked.compare(pushed_mm, position, job.known, agreement(job)):
        case parked.Agrees():
            return None
        case parked.LooksLike(other=other):
            return _looks_like(job, position, other, pushed_mm)
        case parked.Nothing():
            say = f"{_read_now(job, position, pushed_mm)}: zeroed or bumped?"
            return Question("differs", say, (READ_AGAIN, ZEROED, _unsure(job)))


def _read_now(job: Job, position: Position, pushed_mm: float) -> str:
    gauge = job.setup.gauge
    was = face_text(job, gauge.face(job.known[position]), plus=True)
    now = face_text(job, gauge.face(pushed_mm), plus=True)
    return f"This spot read {was}, now {now}"


def _looks_like(job: Job, position: Position, other: Position, pushed_mm: float) -> Question:
    read_now = _read_now(job, position, pushed_mm)
    beside = other == OPPOSITE[position] and _began_at(job) not in (position, other)
    if beside and _fresh_from_sweep(job):
        say = f"{read_now}: went round the other way?"
        return Question("other-way", say, (OTHER_WAY, READ_AGAIN, _unsure(job)))
    say = f"{read_now}, as {other} did: is the gauge at {other}?"
    return Question("other-spot", say, (READ_AGAIN, _unsure(job)))


def _unsure(job: Job) -> Answer:
    """What to do in doubt: a full sweep, or with bolts loose a pair check of this axis."""
    return CHECK_AGAIN if job.loose else SWEEP_AGAIN


def _fresh_from_sweep(job: Job) -> bool:
    """Whether this axis still stands as the sweep read it, so that its labels can be exchanged."""
    sweep, axis = job.latest, axis_of(job)
    return sweep is not None and job.results[axis] == (sweep.side if axis == "side" else sweep.nod)


def _began_at(job: Job) -> Position:
    """Where the latest sweep began: that spot and its opposite keep their labels."""
    return job.sweeps[-1].points[0].position


def answer(job: Job, given: Input) -> tuple[Data, ...]:
    """What follows from the answer to the question on the screen."""
    key = given.payload(Chosen).key
    question = job.question
    if question is None or job.base is None:
        raise Refused("Nothing was asked.")
    if key not in [a.key for a in question.answers]:
        allowed = ", ".join(a.key for a in question.answers)
        raise Refused(f"answer: found {key!r}; allowed: {allowed}")
    same = Answered(
        question=question.code,
        key=key,
        why="",
        sweep=None,
        free_pushed_mm=job.free_pushed_mm,
        points=points(dict(job.known)),
        side=job.results["side"],
        nod=job.results["nod"],
        stop=None,
        next=Next("park", job.axis),
    )
    if key == "sweep-again":
        return (replace(same, why=question.say, next=sweep_next(job)),)
    if key == "check-again":
        return (replace(same, next=Next("check", job.axis)),)
    if key == "other-way":
        return (_other_way(job, same),)
    if key == "zeroed":
        return (_zero_admitted(job, same),)
    return (same,)


def _other_way(job: Job, same: Answered) -> Answered:
    """The spots beside the first exchange their readings; that axis's difference changes sign."""
    axis = axis_of(job)
    flipped = result(job, axis, -job.results[axis].d_mm)
    known = points(parked.relabel(job.known, _began_at(job)))
    sweep = _relabelled(job.sweeps[-1], axis, flipped, _began_at(job))
    changed = replace(same, points=known, sweep=sweep)
    changed = replace(changed, side=flipped) if axis == "side" else replace(changed, nod=flipped)
    follows = after_sweep(job, changed.side, changed.nod)
    if follows != Next("park", axis):
        return replace(changed, next=follows)
    return _carry_on(job, changed, flipped)


def _relabelled(sweep: SweepDone, axis: Axis, flipped: AxisResult, start: Position) -> SweepDone:
    swept = parked.relabel({p.position: p.pushed_mm for p in sweep.points}, start)
    put_right = replace(sweep, points=points(swept))
    if axis == "side":
        return replace(put_right, side=flipped, side_slope=-sweep.side_slope)
    return replace(put_right, nod=flipped, nod_slope=-sweep.nod_slope)


def _zero_admitted(job: Job, same: Answered) -> Answered:
    """Every remembered value shifts by what this spot shifted; differences stand."""
    base = job.base
    if base is None or base.position is None:
        raise Refused("There is no parked reading: park and read.")
    shift = job.setup.gauge.pushed(base.mean_mm) - job.known[base.position]
    known = {p: m + shift for p, m in job.known.items()}
    free = None if job.free_pushed_mm is None else job.free_pushed_mm + shift
    changed = replace(same, points=points(known), free_pushed_mm=free)
    return _carry_on(job, changed, job.results[axis_of(job)])


def _carry_on(job: Job, changed: Answered, at: AxisResult) -> Answered:
    base = job.base
    if base is None or base.position is None:
        raise Refused("There is no parked reading: park and read.")
    stop = stop_for(job, base.position, base.mean_mm, at.d_mm)
    return replace(changed, stop=stop, next=ready(job))
