"""How near a stop-at must be met, and what the number tells of the lean on the way to it."""

import math
from dataclasses import replace

from daq.audit.doubt import of_pair
from daq.audit.facts import half_zone, middle
from daq.audit.head import doubt, rest_stats, shift_stats
from daq.audit.next_move import reads_mm
from daq.audit.parts import StopAt
from daq.audit.state import Job
from daq.audit.stop_parts import Leaning
from daq.squaring import advice
from daq.squaring.band import band
from daq.squaring.equations import FIRST, OWN, PARAMETERS
from daq.squaring.response import Standing
from daq.squaring.resting import RESTS, share
from daq.squaring.tightening import scatter_of
from daq.words import PARKED, Axis


def within_mm(job: Job, axis: Axis) -> float:
    """How far from its goal an axis may be and is still called in, mm across the sweep.

    Half of what its limits leave, less what the shop's rule keeps away from them; 0 where the
    rule leaves nothing.
    """
    machine = job.setup.machine
    goal_mm = machine.axis(axis).wanted_lean * machine.diameter + middle(job, axis)
    return max(half_zone(job, axis) - of_pair(job, axis, goal_mm).guard_mm, 0.0)


def near_enough(job: Job, stop: StopAt, at: Standing, move: advice.Move) -> StopAt:
    """The stop-at with its band and with what the number tells of the lean.

    `at`: the standing it was made from.
    """
    axis, gauge, machine = stop.axis, job.setup.gauge, job.setup.machine
    diameter = machine.diameter
    rests = math.hypot(
        at.answering.rest_doubt(axis),
        at.answering.late_doubt(axis),
        scatter_of(rest_stats(job, axis), RESTS),
    )
    rests *= share(machine.sweep_radius, at.answering.pivot_mm(axis))
    found = band(
        within_mm(job, axis),
        (
            at.lean_doubt(axis) * diameter,
            scatter_of(shift_stats(job, axis)) * diameter,
            at.answering.shift_doubt(axis) * diameter,
            rests * diameter,
        ),
        abs(move.sensitivity_mm) / (diameter * gauge.cosine),
        gauge.resolution,
        job.gauge.free_sd_mm,
    )
    leaning = _leaning(job, stop, at, move)
    return replace(stop, band_mm=found.half_mm, finer=found.finer, leaning=leaning)


def _leaning(job: Job, stop: StopAt, at: Standing, move: advice.Move) -> Leaning | None:
    """What the parked number tells of the axis's lean as it is turned.

    A turn that changes the reading by m changes the lean by δ = m / S, S = R + p less what the
    pivot's height bends of it at the stop-at (see `daq.squaring.advice`). The lean is then in as
    much doubt as before the turn, and by the pivot's: with q = δ / S its variance is
    V(t) − 2 q V(t, p) + q² V(p), and that of two readings of one visit and of the lift beside the
    pivot over S² (first order, JCGM 100, 5.2). What a pair of readings is off by comes to it; what
    the head does when the hand leaves does not: the number shows it.
    """
    axis, gauge, machine = stop.axis, job.setup.gauge, job.setup.machine
    sense = 1.0 if stop.position == PARKED[axis] else -1.0
    bend = stop.wanted / math.hypot(1.0, stop.wanted)
    sees = move.sensitivity_mm - at.answering.height_mm(axis) * bend
    if abs(sees) < gauge.resolution:
        return None
    per_mm = sense * (gauge.pushed(1.0) - gauge.pushed(0.0)) / sees
    lean, pivot = PARAMETERS + OWN[axis], FIRST[axis]
    of_lean, of_both, of_pivot = at.covariance[[lean, lean, pivot], [lean, pivot, pivot]].tolist()
    reads = doubt(job)
    own = (2.0 * reads.count_mm**2 + reads.lift_mm**2) / sees**2
    q, q_per_mm = (stop.wanted - stop.lean) / sees, sense * per_mm / sees
    least = max(of_lean - of_both**2 / of_pivot + own, 0.0)
    ends_mm = (sense * stop.wanted - machine.axis(axis).wanted_lean) * machine.diameter
    return Leaning(
        at_stop_mm=ends_mm - job.sweeps.parked_adds_mm.get(axis, 0.0),
        per_mm=per_mm * machine.diameter,
        surest_mm=(of_both / of_pivot - q) / q_per_mm,
        least_mm=math.hypot(math.sqrt(least) * machine.diameter, reads_mm(job, axis)),
        grows=math.sqrt(of_pivot) * abs(q_per_mm) * machine.diameter,
    )
