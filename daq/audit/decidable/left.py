"""The zone left for "in", and how likely a move ends in it, by the real budget and rule."""

import math
from dataclasses import dataclass, replace
from typing import Final

from daq.audit.decide_parts import Left
from daq.audit.doubt import of_sweep
from daq.audit.facts import half_zone, judged_as_one, middle, narrowest, result
from daq.audit.head import doubt, hand_mm, learned, reading_sd, sees_mm, shift_stats, standing
from daq.audit.parts import AxisResult, Budget
from daq.audit.state import Job
from daq.checks.sweep.reduce import Fit, Spot
from daq.checks.sweep.weights import weights
from daq.metrology.student import normal_cdf
from daq.squaring.response import Answering
from daq.squaring.tightening import scatter_of
from daq.words import AXES, OTHER, Axis, Both

_ROOT_2: Final = math.sqrt(2.0)


@dataclass(frozen=True)
class Case:
    """An audit as it stands after a sweep, or as it would with something changed.

    `spots`: where a full sweep reads, in order, return included; its `return_mm` and `scatter_mm`
    as `of_sweep` has them. `moving`: the axes to be moved, the one moved `first`; `stands`: what
    the sweep made of both, across the circle that it was read on. `aimed_u_mm`: the uncertainty
    that moves are aimed with, where the sweep that proves them has another.
    """

    job: Job
    spots: tuple[Spot, ...]
    fitted: Fit
    return_mm: float
    scatter_mm: float
    stands: Both[AxisResult]
    moving: frozenset[Axis]
    first: Axis | None
    aimed_u_mm: Both[float] | None = None

    @property
    def scale(self) -> float:
        """What a difference on the circle that was read is on this case's."""
        return self.job.setup.machine.sweep_radius / self.fitted.radius_mm

    def d_mm(self, axis: Axis) -> float:
        """The difference that is judged in the end: the goal's, or as an axis not moved stands."""
        if self.stands[axis].word == "in" or (self.moving and axis not in self.moving):
            return self.scale * self.stands[axis].d_mm
        return self.goal_mm(axis) if self.moving else self.scale * self.stands[axis].d_mm

    def goal_mm(self, axis: Axis) -> float:
        """The difference in the middle of the limits."""
        machine = self.job.setup.machine
        return machine.axis(axis).wanted_lean * machine.diameter + middle(self.job, axis)

    def budget(self, axis: Axis) -> Budget:
        """The budget of the sweep that decides."""
        at = Both.of(self.d_mm)
        radius_mm = self.job.setup.machine.sweep_radius
        across = 2.0 * radius_mm
        lean = replace(self.fitted, radius_mm=radius_mm, a=at.side / across, b=-at.nod / across)
        return of_sweep(self.job, self.spots, lean, self.return_mm, self.scatter_mm, axis)


def zones(case: Case, budgets: Both[Budget]) -> Both[float | None]:
    """How far from the middle of its limits each axis may be read and be called in."""
    best = Both.of(
        lambda axis: result(
            case.job, axis, case.goal_mm(axis), budgets[axis].u_mm, budgets[axis].dof
        )
    )
    whole = judged_as_one(case.job, best)
    if whole is not None:
        room_mm = narrowest(case.job) - whole.guard_mm
        return Both(room_mm, room_mm) if whole.word == "in" else Both(None, None)
    return Both.of(
        lambda axis: (
            half_zone(case.job, axis) - best[axis].guard_mm if best[axis].word == "in" else None
        )
    )


def left(case: Case) -> Both[Left]:
    """What is left for "in" on both axes."""
    budgets = Both.of(case.budget)
    zone = zones(case, budgets)
    knows = _answering(case.job)

    def one(axis: Axis) -> Left:
        small_mm = lands_mm(case, axis)
        far_mm = math.hypot(small_mm, _unknown_mm(case, axis, knows))
        return Left(
            zone[axis],
            budgets[axis].expanded_mm,
            small_mm,
            _within(zone[axis], small_mm),
            _within(zone[axis], far_mm),
        )

    return Both.of(one)


def lands_mm(case: Case, axis: Axis) -> float:
    """How far off a full sweep reads an axis after a small move: one standard deviation, mm.

    The hand's stop, the counts between which it is made, what tightening does each time, and the
    scatter of two sweeps: the one it starts from, and the one that proves it. Ring and spindle
    add the same to both, so they are not in it, unless the second takes them out.
    """
    job, machine = case.job, case.job.setup.machine
    seen = machine.diameter / max(sees_mm(job, axis), 0.5 * machine.sweep_radius)
    stop_mm = seen * math.hypot(hand_mm(job, axis), _ROOT_2 * doubt(job).count_mm)
    tight_mm = machine.diameter * scatter_of(shift_stats(job, axis))
    return math.hypot(stop_mm, tight_mm, _swept_mm(case, axis))


def _swept_mm(case: Case, axis: Axis) -> float:
    azimuths = tuple(spot.azimuth_deg for spot in case.spots)
    orders = tuple(spot.order for spot in case.spots)
    once_mm = weights(azimuths, orders, axis).by_visit() * reading_sd(case.job)
    if case.aimed_u_mm is None:
        return _ROOT_2 * once_mm
    # Proved by the mean of two sweeps, of which the second shows what lay in the first.
    lay = case.aimed_u_mm[axis] ** 2 - case.budget(axis).u_mm ** 2 - 0.5 * once_mm**2
    return math.sqrt(1.5 * once_mm**2 + max(lay, 0.0))


def _answering(job: Job) -> Answering:
    return standing(job).answering if job.head.story else learned(job).answering


def _unknown_mm(case: Case, axis: Axis, knows: Answering) -> float:
    """What one move from here is off by since the head is not known better, mm across the sweep.

    Where the pivot acts, what tightening does on average, and for the axis moved first what the
    other's move does to it.
    """
    machine, other = case.job.setup.machine, OTHER[axis]
    off = Both.of(lambda a: case.scale * (case.stands[a].error_mm) - middle(case.job, a))
    pivot_mm = abs(off[axis]) * knows.pivot_doubt_mm(axis) / max(sees_mm(case.job, axis), 1.0)
    crossed = axis == case.first and other in case.moving
    cross_mm = abs(off[other]) * knows.coupling_doubt(other) if crossed else 0.0
    return math.hypot(pivot_mm, cross_mm, machine.diameter * knows.shift_doubt(axis))


def _within(zone_mm: float | None, sd_mm: float, off_mm: float = 0.0) -> float:
    """How likely a normal number so far off, of that scatter, lies within the zone."""
    if zone_mm is None:
        return 0.0
    if not sd_mm:
        return float(abs(off_mm) <= zone_mm)
    return normal_cdf((zone_mm - off_mm) / sd_mm) - normal_cdf((-zone_mm - off_mm) / sd_mm)


def chance(case: Case, found: Both[Left]) -> float:
    """How likely all is called in: after small moves, or where none is made as the head stands."""
    if case.job.setup.machine.verdict.together == "vector":
        return _chance_of_vector(case, found)
    return math.prod(_chance(case, axis, found[axis]) for axis in AXES)


def _chance(case: Case, axis: Axis, found: Left) -> float:
    stands = case.stands[axis]
    if stands.word == "in":
        return 1.0
    if axis in case.moving:
        return found.small
    return _as_it_stands(case, axis, found, stands.error_mm * case.scale - middle(case.job, axis))


def _as_it_stands(case: Case, axis: Axis, found: Left, off_mm: float) -> float:
    """How likely a better reading of a head that is not moved comes out in.

    What is true lies about what was read by its u; a better reading lies about it by the better
    one, so the two differ by the root of what u² loses (normal, nothing known beforehand).
    """
    was, now = case.scale * case.stands[axis].u_mm, case.budget(axis).u_mm
    return _within(found.zone_mm, math.sqrt(max(was * was - now * now, 0.0)), off_mm)


def _chance_of_vector(case: Case, found: Both[Left]) -> float:
    zone_mm = found.side.zone_mm
    if zone_mm is None:
        return 0.0
    if case.moving:
        sd_mm = max(each.lands_mm for each in found.values())
        return -math.expm1(-0.5 * (zone_mm / sd_mm) ** 2)
    off_mm = math.hypot(
        *(case.stands[axis].error_mm * case.scale - middle(case.job, axis) for axis in AXES)
    )
    worse: Axis = max(AXES, key=lambda axis: case.stands[axis].u_mm)
    return _as_it_stands(case, worse, found[worse], off_mm)
