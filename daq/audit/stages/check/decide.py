"""The pair check: what it says of its axis, whether it fits what was done, what it teaches."""

from dataclasses import replace

from daq.audit.doubt import of_pair
from daq.audit.events import CheckDone, Data
from daq.audit.facts import (
    as_one,
    axis_of,
    certain,
    differences,
    half_zone,
    points,
)
from daq.audit.fallen import fallen
from daq.audit.guess import comes_again, guessed, went_back
from daq.audit.head import is_blind, reading_sd, standing
from daq.audit.input import Input, Refused
from daq.audit.lesson import teach
from daq.audit.move_events import Strange
from daq.audit.parts import AxisResult, Next
from daq.audit.questions import Question
from daq.audit.reading import taken
from daq.audit.reading_order import left_to_check
from daq.audit.soonest import after_check
from daq.audit.stages.check.asks import question
from daq.audit.stages.check.believed import believed
from daq.audit.stages.check.seems import seems, shift
from daq.audit.state import Job
from daq.squaring import recognise
from daq.squaring.learned import ANYWHERE_MM
from daq.squaring.recognise import TurnSeen, is_strange, surprise
from daq.squaring.response import Standing
from daq.squaring.story import (
    Seen,
    Story,
    is_doubted,
    is_read,
    last_worked,
    split,
)
from daq.squaring.surmise import Guess
from daq.words import OTHER, PARKED, Axis, Both, Command, Position, Reading

_SAME = 4.0
"""Two pairs differ by no more than so many standard deviations if nothing came between."""
_TIGHTENING_MM = 0.03
"""What tightening may well do to a difference (common practice, no source)."""
_LIFTED_MM = 0.1
"""Tightening lifts or drops a head by less than this (common practice, no source)."""
_CAME_AGAIN = 0.5
"""Tightening did the same once more if it differs by no more than this part of it."""


def place(job: Job, command: Command) -> Position:
    """Where a pair check's take says the gauge is, if that is still wanted."""
    left = left_to_check(job)
    position = Input(command).position
    if position not in left:
        raise Refused("place-not-wanted", position=position or "none", next=left[0])
    return position


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """A reading of the pair check; the second one judges the axis."""
    event = taken(job, given, place(job, given.command))
    if len(left_to_check(job)) > 1:
        return (event,)
    return event, *judged(job, (*job.reads.taken, event.reading))


def judged(job: Job, readings: tuple[Reading, ...], settled: str = "") -> tuple[Data, ...]:
    """What follows from the readings of a pair check, its last one included.

    `settled`: what was answered when it was asked what had happened.
    """
    axis = axis_of(job)
    pair = tuple(Seen(certain(r.position), job.setup.gauge.pushed(r.mean_mm)) for r in readings)
    before, since = split(job.head.story, len(job.reads.taken))
    since = (*since, *pair[len(job.reads.taken) :])
    read = {entry.position: entry.pushed_mm for entry in pair}
    adds_mm = job.sweeps.parked_adds_mm.get(axis, 0.0)
    d_mm = differences({**job.circle.known, **read})[axis] - adds_mm
    parts = before, since
    odd = _odd(job, axis, parts, pair, d_mm)
    if odd == "again":
        return (_read_again(job, axis, d_mm),)
    guesses = guessed(job, *parts, axis, _turn(job, axis, before, pair)) if odd else ()
    asks = None if settled or not odd else question(job, guesses)
    if asks is not None:
        return (_asked(job, axis, guesses, asks),)
    used = comes_again(job, guesses)
    if used is not None:
        job = replace(job, head=job.head.taking(used))
        odd = _odd(job, axis, parts, pair, d_mm)
    odd = went_back(odd, guesses)
    told = _told(job, axis, (*before, *since), odd, len(pair))
    at = standing(told)
    known = {p: read.get(p, at.reading(p)[0]) for p in job.circle.known}
    results = _results(job, axis, d_mm, at)
    tight = axis not in job.loose
    done = CheckDone(
        axis=axis,
        points=points(known),
        results=results,
        shift_mm=None if odd else shift(job, axis, d_mm),
        before_tightening_mm=None if tight else d_mm,
        slack_mm=Both.of(lambda a: 0.0 if a == axis else 3.0 * at.reading(PARKED[a])[1]),
        next=_follows(job, axis, odd, at),
        strange=odd,
        said=seems(job, axis, odd, d_mm, used) or fallen(job, axis, (*before, *since)),
        whole=as_one(job, results),
        guesses=guesses,
        used=used,
    )
    return (done,) if odd else (done, *teach(job, at, done))


def _follows(job: Job, axis: Axis, odd: Strange, at: Standing) -> Next:
    """What is next; the other axis where it was turned instead, or is lost before a proof."""
    follows = after_check(job, axis, at)
    lost = follows.step == "final" and _is_lost(job, OTHER[axis], at)
    return Next("check", OTHER[axis]) if lost or odd == "wrong-adjuster" else follows


def _is_lost(job: Job, axis: Axis, at: Standing) -> bool:
    """Whether nobody knows where an axis stands: something came between since it was read."""
    return at.lean_doubt(axis) * job.setup.machine.diameter > half_zone(job, axis)


def _asked(job: Job, axis: Axis, guesses: tuple[Guess, ...], asks: Question) -> CheckDone:
    """Nothing is made of this pair before it is answered what happened."""
    return replace(
        _as_it_was(job, axis),
        strange="asked",
        next=Next("surmise", axis),
        guesses=guesses,
        question=asks,
    )


def _told(job: Job, axis: Axis, story: Story, odd: Strange, readings: int) -> Job:
    """The audit with the check's readings, as far as they can be believed."""
    if not odd:
        return _seen(job, story)
    if odd == "backwards":
        return _seen(job, story, frozenset({axis}))
    head = replace(
        job.head,
        story=believed(job, axis, odd, story, readings),
        backwards=job.head.backwards - ({axis} if axis in job.loose else set()),
        unsure=job.head.unsure | {axis} if odd == "astray" else job.head.unsure,
    )
    return replace(job, head=head)


def _seen(job: Job, story: Story, backwards: frozenset[Axis] = frozenset()) -> Job:
    """The audit with another story, more axes taken for answering backwards."""
    head = replace(job.head, story=story, backwards=job.head.backwards | backwards)
    return replace(job, head=head)


def _odd(
    job: Job, axis: Axis, story: tuple[Story, Story], pair: tuple[Seen, ...], d_mm: float
) -> Strange:
    """What must have happened when the pair does not fit what was done before it; "" if it does.

    `story`: up to the pair, and from its first reading on.
    """
    expected = standing(_seen(job, story[0]))
    if axis in job.loose and is_blind(job, axis, expected):
        # Turned by hand, it could do anything: this pair is what tells.
        return ""
    if not is_strange(surprise(expected, pair, reading_sd(job))):
        return ""
    if axis in job.loose:
        # What a turn did was read once already: this came after that.
        return "bumped" if is_read(story[0]) else _odd_turn(job, axis, story, pair)
    shift_mm = shift(job, axis, d_mm)
    if last_worked(story[0]) != axis or shift_mm is None:
        # Only the other axis was worked on: what that may do to this one is allowed for.
        return "bumped"
    off = [entry.pushed_mm - expected.reading(entry.position)[0] for entry in pair]
    if abs(shift_mm) < _TIGHTENING_MM and abs(sum(off)) / len(off) < _LIFTED_MM:
        return ""
    return _odd_shift(job, axis, shift_mm)


def _turn(job: Job, axis: Axis, before: Story, pair: tuple[Seen, ...]) -> TurnSeen | None:
    """What the turn that this pair follows was to do, and did; None: it follows none."""
    if axis not in job.loose or is_read(before):
        return None
    was_mm = job.axes.results[axis].d_mm + job.sweeps.parked_adds_mm.get(axis, 0.0)
    read = differences({**job.circle.known, **{entry.position: entry.pushed_mm for entry in pair}})
    expected = standing(_seen(job, before))
    return TurnSeen(
        expected_mm=expected.lean(axis) * job.setup.machine.diameter - was_mm,
        found_mm=read[axis] - was_mm,
    )


def _odd_turn(job: Job, axis: Axis, story: tuple[Story, Story], pair: tuple[Seen, ...]) -> Strange:
    turn = certain(_turn(job, axis, story[0], pair))
    odd = recognise.strange(turn)
    if odd == "backwards":
        # Taken for answering backwards once already, it does not fit that either.
        if axis not in job.head.backwards | job.head.unsure and _explained(job, axis, story):
            return "backwards"
        odd = "bumped"
    # A shim's thickness depends on no pivot; what creep makes of a turn tells nothing of it.
    if job.setup.machine.axis(axis).adjust.kind == "shim" or not recognise.is_wide(turn):
        return odd
    strays = odd == "bumped" and not recognise.came_nearer(turn)
    return "astray" if strays or is_doubted(story[0]) else odd


def _explained(job: Job, axis: Axis, story: tuple[Story, Story]) -> bool:
    """Whether a pivot on the other side explains everything, this pair included."""
    unsure = standing(_seen(job, sum(story, ()), frozenset({axis})))
    near = abs(unsure.answering.pivot_mm(axis)) <= ANYWHERE_MM
    return near and not is_strange(unsure.misfit)


def _odd_shift(job: Job, axis: Axis, shift_mm: float) -> Strange:
    """Whether tightening did what it never did, or something else happened meanwhile.

    What it did once already it may do again. Else the pair is read once more: a number that
    jumped between its readings shows. What then still stands is tightening's own if each bolt
    was watched.
    """
    earlier = [each.shift_mm for each in job.tightening.shifts if each.axis == axis]
    doubted = [job.tightening.doubted_mm[axis]] if axis in job.tightening.doubted_mm else []
    if any(abs(shift_mm - mm) <= _CAME_AGAIN * abs(mm) for mm in (*earlier, *doubted)):
        return ""
    once_mm = job.tightening.reread_mm
    noise_mm = _SAME * 2.0 * reading_sd(job)
    if once_mm is None or abs(shift_mm - once_mm) > noise_mm:
        return "again"
    return "" if job.bolts.steps else "bumped"


def _read_again(job: Job, axis: Axis, d_mm: float) -> CheckDone:
    """Nothing is made of this pair but that it is to be read once more."""
    return replace(
        _as_it_was(job, axis),
        strange="again",
        said=seems(job, axis, "again", d_mm),
        doubted_mm=shift(job, axis, d_mm),
    )


def _as_it_was(job: Job, axis: Axis) -> CheckDone:
    """A pair check of which nothing is made."""
    return CheckDone(
        axis=axis,
        points=points(dict(job.circle.known)),
        results=Both.of(job.axes.results.__getitem__),
        shift_mm=None,
        before_tightening_mm=job.tightening.before.get(axis),
        slack_mm=Both.of(lambda a: job.head.slack_mm.get(a, 0.0)),
        next=Next("check", axis),
        whole=job.axes.whole,
    )


def _results(job: Job, axis: Axis, d_mm: float, at: Standing) -> Both[AxisResult]:
    """The axis as its pair reads; the other as it must stand now."""
    diameter, parked_adds_mm = job.setup.machine.diameter, job.sweeps.parked_adds_mm
    stands = Both.of(lambda a: at.lean(a) * diameter - parked_adds_mm.get(a, 0.0)).put(axis, d_mm)
    return Both.of(lambda a: of_pair(job, a, stands[a]))
