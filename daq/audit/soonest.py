"""What comes next where time is saved: the step that brings a proved verdict soonest."""

import math
from itertools import pairwise, takewhile
from typing import Final

from daq.audit import next_move
from daq.audit.doubt import of_pair
from daq.audit.facts import as_one, half_zone, middle, points
from daq.audit.head import (
    goals,
    park_from,
    pivot_mm,
    reading_sd,
    scatters,
    sees_mm,
    shift_stats,
    standing,
)
from daq.audit.moved_parts import Foreseen
from daq.audit.next_move import (
    landed,
    leaves_mm,
    reads_mm,
    wanting,
    wants_move,
)
from daq.audit.parts import Next
from daq.audit.reading_order import can_be_set, check_order, may_go_round, saves_time, stands_at
from daq.audit.state import Job
from daq.squaring.aim import cross_doubt
from daq.squaring.equations import OWN, PARAMETERS
from daq.squaring.pace import StepTimes
from daq.squaring.plan import AxisStands, Steps, Ways, ways
from daq.squaring.response import Standing
from daq.squaring.resting import share
from daq.squaring.story import Happened, Seen
from daq.squaring.tightening import scatter_of
from daq.words import AXES, OTHER, POSITIONS, Axis, Both, Figure, Position, said

_QUARTER: Final = 90.0
_TELLS: Final = 1.2
"""An axis in no more doubt than so many times what its pair is off by is known as well as that."""
_LEAVES: Final = 1.5
"""Off by no more than so many times what a turn leaves, another turn is no gain."""


def after_check(job: Job, axis: Axis, at: Standing) -> Next:
    """What follows a pair check of `axis`."""
    return onward(job, at, axis) if saves_time(job) else next_move.after_check(job, axis, at)


def after_work(job: Job, axis: Axis) -> tuple[Next, Foreseen | None]:
    """What follows a turn of `axis`, or its tightening; `job` stands after it.

    Where nothing is read first, where the head must stand besides.
    """
    if not saves_time(job):
        return Next("check", axis), None
    at = standing(job)
    follows = onward(job, at)
    return follows, None if follows.step == "check" else foreseen(job, at)


def onward(job: Job, at: Standing, read: Axis | None = None) -> Next:
    """The next step, the pair of `read` having been read just now.

    What is loose comes first: turned, read, or tightened as it stands. With all tight, an axis
    that is better turned or read before anything is proved is; else the sweep proves both.
    """
    waiting = frozenset(_waiting(job, at))
    found = {axis: _ways(job, axis, at, waiting) for axis in AXES}
    best = {axis: _best(job, axis, each, at, waiting, read) for axis, each in found.items()}
    axes = [axis for axis in AXES if axis in job.loose] or list(AXES)
    todo = [axis for axis in axes if best[axis] != "left"]
    if not todo:
        return _done(job, found, read)
    # What the other's turn may yet spoil is finished after it.
    turned = [axis for axis in todo if best[axis] == "turned"] or todo
    first = job.moves.first or job.setup.machine.first
    axis = max(turned, key=lambda a: (a == first, found[a].left, a == job.axis))
    return Next("park" if best[axis] == "turned" else "check", axis)


def _done(job: Job, found: dict[Axis, Ways], read: Axis | None) -> Next:
    """All that is loose may be tightened, and what is tight proved."""
    loose = sorted(job.loose, key=lambda a: a != job.axis)
    if not loose:
        return Next("final")
    unread = [axis for axis in loose if axis != read]
    if not unread:
        return Next("tighten", loose[0])
    likely = Figure(100.0 * min(found[axis].likely for axis in unread), 0)
    names = job.setup.machine.axis(unread[0]).say
    left_out = said("check-left-out", axis=names, likely=likely)
    return Next("tighten", loose[0], left_out=left_out)


def _best(
    job: Job,
    axis: Axis,
    cost: Ways,
    at: Standing,
    waiting: frozenset[Axis],
    read: Axis | None,
) -> str:
    """What is soonest done with an axis: "left" as it stands, its "pair" read, or "turned"."""
    if not can_be_set(job, axis):
        return "left"
    costs = {"left": cost.left}
    # Bolts that are tight are left alone on an axis that is in; a loose one is brought nearer. Not
    # by a second turn with nothing read between: that would be as good as the first, for ever.
    result = landed(job, axis, at, OTHER[axis] in waiting)
    off_mm = abs(result.error_mm - middle(job, axis))
    nearer = axis in job.loose and off_mm > _LEAVES * leaves_mm(job, axis)
    out = nearer or wants_move(job, axis, result)
    if out and (axis == read or not _just_turned(job, axis)):
        costs["turned"] = cost.turned
    across = job.setup.machine.diameter
    if axis != read and at.lean_doubt(axis) * across > _TELLS * reads_mm(job, axis):
        costs["pair"] = cost.pair
    return min(costs, key=lambda way: costs[way])


def _just_turned(job: Job, axis: Axis) -> bool:
    """Whether the axis was turned and no pair was read since."""
    since = list(takewhile(lambda each: not _let_go(each, axis), reversed(job.head.story)))
    turned = len(since) < len(job.head.story)
    return turned and sum(isinstance(each, Seen) for each in since) < len(AXES)


def _let_go(entry: Seen | Happened, axis: Axis) -> bool:
    return isinstance(entry, Happened) and entry.what == "rested" and entry.axis == axis


def _ways(job: Job, axis: Axis, at: Standing, waiting: frozenset[Axis]) -> Ways:
    across, others = job.setup.machine.diameter, OTHER[axis] in waiting
    result = landed(job, axis, at, others)
    off = result.error_mm - middle(job, axis)
    half = half_zone(job, axis)
    zone = half - result.guard_mm if half > result.guard_mm else half
    knows, here = at.answering, share(job.setup.machine.sweep_radius, pivot_mm(job, axis))
    tightens = (
        scatter_of(shift_stats(job, axis)),
        knows.shift_doubt(axis),
        here * knows.late_doubt(axis),
    )
    rests = here * math.hypot(scatters(job)[axis].rest, knows.rest_doubt(axis))
    reads = reads_mm(job, axis)
    crossed = across * cross_doubt(at, goals(job, at), axis) if others else 0.0
    leaves = math.hypot(leaves_mm(job, axis), across * rests)
    pivot = at.answering.pivot_doubt_mm(axis) / max(sees_mm(job, axis), 1.0)
    stands = AxisStands(
        off=off,
        doubt=across * at.lean_doubt(axis),
        parked=across * _parked_doubt(job, axis, at),
        later=math.hypot(across * math.hypot(*tightens), crossed, result.u_mm),
        reads=reads,
        leaves=math.hypot(leaves, reads),
        far=math.hypot(leaves, abs(off) * pivot),
        half=zone,
    )
    return ways(stands, _steps(job, axis))


def _waiting(job: Job, at: Standing) -> list[Axis]:
    """The axes that must be moved by what is known of them now."""
    alone = Both.of(lambda axis: landed(job, axis, at, False))
    return wanting(job, alone)


def _steps(job: Job, axis: Axis) -> Steps:
    """What the ways on take from where the gauge stands."""
    pace, read = job.setup.pace, job.setup.pace.of("read")
    order, here = check_order(job, axis), stands_at(job)
    near = park_from(job, axis, here)
    pair = _round(pace, (here, *order)) + len(order) * read
    turn = pace.of("turn")
    bolts = 0.0 if axis in job.loose else pace.of("crack") + pace.of("tighten")
    base = park_from(job, axis, order[-1])
    # Where it stands there already, what it read just now is the base.
    back = 0.0 if base == order[-1] else _round(pace, (order[-1], base)) + read
    onward = bolts + turn + back
    redone = pace.of("crack") + pace.of("tighten") + turn + pace.swing(_QUARTER) + read
    move = bolts + _round(pace, (here, near)) + read + turn
    return Steps(pair, move, onward, redone + _sweep(job))


def _sweep(job: Job) -> float:
    """How long a sweep takes: a slow turn, or from place to place."""
    pace, places = job.setup.pace, len(job.setup.plan.positions)
    if may_go_round(job):
        return pace.of("round")
    return pace.swing(360.0 - 360.0 / places) + places * pace.of("read")


def _round(pace: StepTimes, places: tuple[Position | None, ...]) -> float:
    """How long the spindle takes from place to place, the shorter way each time."""
    known = [place for place in places if place is not None]
    turns = ((POSITIONS[b] - POSITIONS[a] + 180.0) % 360.0 - 180.0 for a, b in pairwise(known))
    return math.fsum(map(pace.swing, turns))


def _parked_doubt(job: Job, axis: Axis, at: Standing) -> float:
    """The lean's standard uncertainty, slope, once the gauge is read where it is parked for it."""
    own = PARAMETERS + OWN[axis]
    _, weights = at.weights(park_from(job, axis, stands_at(job)))
    shared = at.covariance @ weights
    read = float(weights @ shared) + reading_sd(job) ** 2
    return math.sqrt(max(float(at.covariance[own, own] - shared[own] ** 2 / read), 0.0))


def foreseen(job: Job, at: Standing) -> Foreseen:
    """Where the head must stand, for what is to be read of it next."""
    diameter, adds_mm = job.setup.machine.diameter, job.sweeps.parked_adds_mm
    results = Both.of(lambda a: of_pair(job, a, at.lean(a) * diameter - adds_mm.get(a, 0.0)))
    known = {place: at.reading(place)[0] for place in job.circle.known}
    here = stands_at(job)
    slack = Both.of(lambda a: 3.0 * at.reading(park_from(job, a, here))[1])
    return Foreseen(points(known), results, slack, as_one(job, results))
