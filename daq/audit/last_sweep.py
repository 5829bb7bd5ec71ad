"""The last signed sweep as a check compares with it: what it says, and what is not as it was."""

import math
from collections.abc import Mapping
from typing import Final, Literal

from daq.audit.events import SweepDone
from daq.audit.gauge_setup import repeats
from daq.audit.good_enough import check_since
from daq.audit.history import Swept
from daq.audit.input import Refused
from daq.audit.parts import AxisResult, Budget, Term
from daq.audit.reasons import REASONS, Reason
from daq.audit.setup import AuditSetup
from daq.audit.state import MachineState
from daq.checks.last import LastSweep, Today
from daq.checks.sweep.terms import ON_THE_TABLE, Seat, SweepFacts, terms
from daq.words import Both, Position

_SAME: Final = ("term-scale", "term-parallel", "term-certificate", "term-since")
"""What the same gauge is off by today as it was then, so that it is in no difference of both."""
_FORM: Final = "term-flatness"
_VISITS: Final = "term-repeatability"
_DIGIT: Final = ("term-resolution", "term-friction", "term-local")
_OPPOSITE: Final = (0.0, 180.0)


def last_sweep(state: MachineState, setup: AuditSetup, reason: Reason) -> LastSweep:
    """What a head is to stand as, and how well the same gauge tells it.

    Raises:
        Refused: there is no signed sweep, the head may have moved since, or it was read otherwise.
    """
    swept = state.swept
    if swept is None:
        raise Refused("enough-no-sweep")
    check_since(REASONS[reason].stirs or swept.since)
    other = _otherwise(swept, setup)
    if other:
        raise Refused("read-otherwise", what=other)
    budgets, sweep = swept.sweep.budgets, swept.sweep
    if budgets is None:
        raise Refused("enough-no-sweep")
    pair = _pair(setup)
    on_table = swept.seat in ON_THE_TABLE
    levels: dict[Position, float] = {p.position: p.pushed_mm for p in sweep.points}
    return LastSweep(
        audit=swept.short,
        day=swept.day,
        diameter_mm=swept.diameter_mm,
        seat=swept.seat,
        read=tuple(levels),
        d_mm=sweep.results.map(lambda each: each.d_mm),
        visits_mm=budgets.map(lambda each: _of(each, _VISITS)),
        then_mm=budgets.map(lambda each: _then(each, swept.seat)),
        limit_mm=sweep.results.map(_half_zone),
        room_mm=sweep.results.map(lambda each: min(_rooms(each))),
        toward=sweep.results.map(_toward),
        levels_mm=levels if on_table else {},
        return_mm=_walked_u(sweep),
        pair_mm=pair[_VISITS].u_mm,
        pair_dof=pair[_VISITS].dof,
        digit_mm=math.hypot(*(pair[code].u_mm for code in _DIGIT)),
        today=_today(setup, swept, pair),
    )


def _otherwise(swept: Swept, setup: AuditSetup) -> Literal["", "gauge", "radius", "seat", "ram"]:
    """What of this machine or its gauge is other than when the head was swept."""
    machine = setup.machine
    if swept.serial_number != setup.gauge.serial_number:
        return "gauge"
    if swept.diameter_mm != machine.diameter:
        return "radius"
    if swept.seat != machine.seat:
        return "seat"
    return "ram" if swept.ram_angle != machine.ram_angle else ""


def _walked_u(sweep: SweepDone) -> float:
    """In how much doubt the last sweep is by what it walked: not read back, as budgeted then."""
    if sweep.returned or sweep.budgets is None:
        return abs(sweep.return_error_mm) / 2.0 / math.sqrt(3.0)
    return max(_of(each, "term-return") for each in sweep.budgets.values())


def _of(budget: Budget, *codes: str) -> float:
    """What these terms of one axis come to."""
    return math.hypot(*(term.u_mm for term in budget.terms if term.code in codes))


def _then(budget: Budget, seat: Seat) -> float:
    """What one axis was off by that is not the same today, but for how well spots repeat."""
    same = {*same_again(seat), _VISITS}
    return _of(budget, *({term.code for term in budget.terms} - same))


def same_again(seat: Seat) -> tuple[str, ...]:
    """The codes of what a sweep of the same circle by the same gauge is off by both times alike.

    The table is formed today as it was then; a ring is put down another way round.
    """
    return (*_SAME, _FORM) if seat in ON_THE_TABLE else _SAME


def _rooms(result: AxisResult) -> tuple[float, float]:
    """How far an axis may go down, and up, before it is out; nothing where it is out."""
    low, high = result.low_mm or 0.0, result.high_mm or 0.0
    return max(0.0, result.error_mm - low), max(0.0, high - result.error_mm)


def _half_zone(result: AxisResult) -> float:
    return 0.5 * ((result.high_mm or 0.0) - (result.low_mm or 0.0))


def _toward(result: AxisResult) -> float:
    down, up = _rooms(result)
    return 1.0 if up <= down else -1.0


def _pair(setup: AuditSetup) -> Mapping[str, Term]:
    """What the difference of two opposite readings is off by, by its term's code."""
    machine, gauge, doubts = setup.machine, setup.gauge, setup.machine.uncertainty
    digit_mm = gauge.resolution
    visits = repeats(gauge, doubts, setup.visits)
    facts = SweepFacts(
        radius_mm=machine.sweep_radius,
        azimuths_deg=_OPPOSITE,
        orders=(),
        d_mm=Both(0.0, 0.0),
        sd_mm=visits.sd_mm,
        sd_dof=visits.dof,
        resolution_mm=digit_mm,
        max_error_mm=gauge.max_error,
        seat=machine.seat,
        papers=gauge.papers(setup.day),
    )
    return {term.code: term for term in terms(facts, doubts, "side")}


def _today(setup: AuditSetup, swept: Swept, pair: Mapping[str, Term]) -> Today:
    """What is put down, clamped and set anew today; what drifts unseen from spot to spot.

    That is as much as a step of the sweep drifted, and a count at least.
    """
    machine, sits = setup.machine, pair.get("term-seating")
    block, sits_mm = machine.seat == "block", 0.0 if sits is None else sits.u_mm
    wedge = pair.get("term-wedge")
    step_mm = abs(swept.sweep.return_error_mm) / len(swept.sweep.points)
    return Today(
        axial_mm=pair["term-axial"].u_mm,
        wedge_mm=0.0 if wedge is None else wedge.u_mm,
        seating_mm=0.0 if block else sits_mm,
        form_mm=0.0 if machine.seat in ON_THE_TABLE else pair[_FORM].u_mm,
        placed_mm=sits_mm if block else 0.0,
        radius=machine.uncertainty.radius / machine.sweep_radius / math.sqrt(3.0),
        drift_mm=max(step_mm, setup.gauge.resolution) / math.sqrt(3.0),
    )
