"""The stop-at of one axis: the reading at which to stop turning, and what comes of it then."""

import math
from dataclasses import replace
from typing import Literal

from daq.audit.doubt import of_pair
from daq.audit.facts import axis_of, middle
from daq.audit.head import goals, goes_on, is_blind, shift_stats
from daq.audit.next_move import wanting
from daq.audit.parts import Because, Next, Share, Shim, StopAt
from daq.audit.state import Job
from daq.audit.stop_band import near_enough
from daq.audit.way import last_way, way
from daq.squaring import adjuster, advice, shims
from daq.squaring.aim import aim
from daq.squaring.because import share
from daq.squaring.response import Standing
from daq.squaring.tightening import scatter_of
from daq.words import OTHER, PARKED, Axis, Both, Position


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
    lands = aim(at, goals(job, at, axis), axis, _others(job, axis, at))
    shim = _shim(job, axis, at.lean(axis) - lands)
    # No nearer than a shim that there is.
    left = 0.0 if shim is None else shim.leaves_mm / machine.diameter
    turned = _stops(job, axis, at, lands) if shim is None else lands + left
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
    planned = _planned(job, move, base_face_mm, None if shim is None else _judged(job, axis, shim))
    planned = replace(planned, because=_because(job, at, planned, lands))
    return planned if planned.shim else near_enough(job, planned, at, move)


def _because(job: Job, at: Standing, planned: StopAt, lands: float) -> Because:
    """What this stop-at, or this shim, is made of; `lands`: the lean that it is to come to."""
    axis, machine, gauge = planned.axis, job.setup.machine, job.setup.gauge
    goal, diameter = goals(job, at, axis)[axis], machine.diameter
    sense = 1.0 if planned.position == PARKED[axis] else -1.0
    pivot_mm = advice.pivot_from_parked(axis, planned.position, at.answering.pivot_mm(axis))
    shim, spacing = planned.shim, machine.axis(axis).adjust.bolt_spacing
    if shim is not None and spacing is not None:
        sees, bend_mm = spacing / diameter, 0.0
        per = math.copysign(sees, (at.lean(axis) - lands) * sense)
    else:
        sees = advice.sensitivity(machine.sweep_radius, pivot_mm) / diameter
        bend_mm = advice.bend_mm(planned.lean, planned.wanted, at.answering.height_mm(axis))
        per = -sees * gauge.face(1.0)

    def makes(lean: float) -> Share:
        return share(sense * lean * diameter, per)

    doubt = math.hypot(at.answering.shift_doubt(axis), scatter_of(shift_stats(job, axis)))
    # From where the turn ends, or the shim there is, it is so far to where it is to come to.
    after = makes(lands - sense * planned.wanted)
    return Because(
        sees=sees,
        pivot_mm=pivot_mm,
        pivot_doubt_mm=at.answering.pivot_doubt_mm(axis),
        lean=makes(at.lean(axis) - goal.wanted),
        # What the other axis's move will add is what is left out of this one's.
        cross=makes(goal.before_tight - lands),
        tightening=makes(goal.shift),
        tightening_doubt_mm=doubt * diameter,
        rest=after if shim is None else None,
        bend_mm=gauge.face(bend_mm),
        shelf=after if shim is not None and shim.stack else None,
    )


def _stops(job: Job, axis: Axis, at: Standing, lands: float) -> float:
    """The lean to stop at so that the axis comes to rest where it is to land.

    It is turned the way it is to go, even where it would go further by itself: never the other.
    """
    here = at.lean(axis)
    on, way = goes_on(job, at, axis), last_way(job, axis, lands - here)
    stops = lands - way * on
    return here if (stops - here) * (lands - here) < 0.0 and way * (lands - here) > 0.0 else stops


def _shim(job: Job, axis: Axis, lean: float) -> Shim | None:
    """What takes out so much lean where shims set the axis; else none."""
    machine = job.setup.machine
    adjust = machine.axis(axis).adjust
    if adjust.kind != "shim":
        return None
    return shims.shim(lean * machine.diameter, machine.diameter, adjust)


def _judged(job: Job, axis: Axis, shim: Shim) -> Shim:
    """The same with what it leaves as the axis's error, and what that would be called."""
    machine = job.setup.machine
    if not machine.axis(axis).adjust.shelf:
        return shim
    error_mm = middle(job, axis) + shim.leaves_mm
    wanted_mm = machine.axis(axis).wanted_lean * machine.diameter
    word = of_pair(job, axis, wanted_mm + error_mm).word
    return replace(shim, leaves_mm=error_mm, word=word)


def _planned(job: Job, move: advice.Move, base_face_mm: float, shim: Shim | None) -> StopAt:
    """The stop-at with how to come to it and what to look out for; `move` in pushed-in mm."""
    gauge, machine = job.setup.gauge, job.setup.machine
    adjust = machine.axis(move.axis).adjust
    ends = (move.base_mm, move.stop_mm)
    come = way(job, move.axis, move.position, ends, move.wanted - move.t)
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
    diameter, parked_adds_mm = job.setup.machine.diameter, job.sweeps.parked_adds_mm
    landed = Both.of(lambda a: of_pair(job, a, moved[a] * diameter - parked_adds_mm.get(a, 0.0)))
    return other in wanting(job, landed) and joint * alone > 0.5 * alone * alone


def ready(job: Job) -> Next:
    """Parked and read: loosen, unless the axis is loose already; for a shim the joint is opened."""
    axis = axis_of(job)
    if job.setup.machine.axis(axis).adjust.kind == "shim":
        return Next("shim-open", axis)
    return Next("move" if axis in job.loose else "loosen", axis)
