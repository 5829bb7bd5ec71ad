"""The numbers behind a verdict: the budget term by term, and what the lean does to the work."""

from typing import Any

from daq.audit.events import SweepDone
from daq.audit.facts import judged_as_one, unit_of
from daq.audit.state import Job
from daq.audit.views.axes import SHORT
from daq.checks.sweep.effects import effects, say
from daq.metrology.budget import Budget, Term
from daq.metrology.rule import judge
from daq.units import FINE, show
from daq.words import AXES, Axis, Said, said

Plain = dict[str, Any]


def numbers(job: Job) -> Plain | None:
    """What the latest sweep's verdict rests on, every text ready to be shown; None before it."""
    sweep = job.as_left or job.latest
    if sweep is None:
        return None
    return {
        "sweep": sweep.number,
        "age": _age(job, sweep),
        "rule": _rule(job),
        "condition": job.setup.machine.uncertainty.condition,
        "axes": [_axis(job, sweep, axis) for axis in AXES],
        "work": _work(job, sweep),
        "head": list(_head(job)),
    }


def _age(job: Job, sweep: SweepDone) -> str:
    """Whether that sweep is of the head before it was worked on."""
    if not job.disturbed:
        return ""
    return "the head as found" if sweep.purpose == "as-found" else "before the move"


def _rule(job: Job) -> str:
    rule = job.setup.machine.verdict
    names = {
        "each": "each axis by itself",
        "jointly": "both axes together",
        "vector": "the length of the lean",
    }
    if rule.name == "simple":
        return f"Simple: the number itself against its limit, {names[rule.together]}."
    return f"Guarded: {100 * rule.coverage:.4g} % sure, {names[rule.together]}."


def _axis(job: Job, sweep: SweepDone, axis: Axis) -> Plain:
    result = sweep.side if axis == "side" else sweep.nod
    budget = sweep.side_budget if axis == "side" else sweep.nod_budget
    machine = job.setup.machine
    whole = judged_as_one(job, sweep.side, sweep.nod)
    judged = whole or judge(
        result.error_mm, result.u_mm, result.dof, machine.limits(axis), machine.verdict
    )
    return {
        "axis": axis,
        "say": machine.axis(axis).say,
        "error": _length(job, result.error_mm, plus=True),
        "u": _length(job, result.u_mm, 1),
        "guard": _length(job, whole.guard_mm if whole else result.guard_mm, 1),
        "guard_say": judged.basis,
        "probability": _percent(whole.probability if whole else result.probability),
        "word": SHORT[whole.word if whole else result.word],
        "good_enough": whole.good_enough if whole else result.good_enough,
        **(_budget(job, budget) if budget is not None else {"terms": []}),
    }


def _budget(job: Job, budget: Budget) -> Plain:
    many = "many" if budget.dof is None else f"{budget.dof:.1f}"
    return {
        "expanded": _length(job, budget.expanded_mm, 1),
        "k": f"{budget.k:.2f}",
        "dof": many,
        "coverage": f"{100 * budget.coverage:.4g} %",
        "terms": [_term(job, term) for term in budget.terms],
    }


def _term(job: Job, term: Term) -> Plain:
    value = "cancels" if term.cancels else _length(job, term.u_mm, 1)
    dof = "" if term.dof is None else f"{term.dof:.0f}"
    return {"key": term.code, "say": term.name, "value": value, "dof": dof, "note": term.note}


def _percent(probability: float | None) -> str:
    """The probability of conforming; never rounded up to certainty."""
    if probability is None:
        return ""
    percent = 100.0 * probability
    if percent > 99.9:
        return "over 99.9 %"
    return "under 0.1 %" if percent < 0.1 else f"{percent:.1f} %"


def _work(job: Job, sweep: SweepDone) -> list[Said]:
    machine = job.setup.machine
    side, nod = (result.d_mm / machine.diameter for result in (sweep.side, sweep.nod))
    return [
        said(
            "effect-exactly",
            effect=say(effect, unit_of(job)),
            exact=_length(job, effect.exact_mm, 2),
            textbook=_length(job, effect.textbook_mm, 2),
        )
        for effect in effects(side, nod, machine.work)
    ]


def _head(job: Job) -> list[str]:
    """What is known of how this head answers."""
    known = job.learned
    if known is None:
        return ["Nothing is known yet of how this head answers but what its file says."]
    lines = []
    for axis in AXES:
        answering = known.answering
        pivot = _length(job, answering.pivot_mm(axis), -2)
        doubt = _length(job, 2.0 * answering.pivot_doubt_mm(axis), -2)
        cross = 100.0 * answering.coupling(axis)
        cross_doubt = 200.0 * answering.coupling_doubt(axis)
        lines.append(
            f"{job.setup.machine.axis(axis).say}: the pivot acts {pivot} from the spindle, give "
            f"or take {doubt}; the other axis follows by {cross:+.1f} %, give or take "
            f"{cross_doubt:.1f}."
        )
    return lines


def _length(job: Job, mm: float, finer: int = 0, *, plus: bool = False) -> str:
    """A length with its unit; `finer` by so many decimals than a head is set to."""
    unit = unit_of(job)
    return f"{show(mm, unit, FINE[unit] + finer, plus=plus)} {unit}"
