"""The numbers behind a verdict: the budget term by term, and what the lean does to the work."""

from typing import Literal

from daq.audit.events import SweepDone
from daq.audit.facts import unit_of
from daq.audit.parts import Answers, Effect, Term
from daq.audit.state import Job
from daq.audit.views.figures import length
from daq.audit.views.shapes import AxisNumbers, Numbers, TermView
from daq.screens.axes import short
from daq.units import FINE, MM_PER
from daq.words import AXES, Axis, Figure, Said, Shown, said

Unit = Literal["mm", "in"]

_SIZE_DECIMALS: dict[Unit, int] = {"mm": 1, "in": 3}


def numbers(job: Job) -> Numbers | None:
    """What the latest sweep's verdict rests on; None before it."""
    sweep = job.as_left or job.latest
    if sweep is None:
        return None
    machine, unit = job.setup.machine, unit_of(job)
    return Numbers(
        sweep=sweep.number,
        age=_age(job, sweep),
        rule=_rule(job),
        condition=machine.uncertainty.condition,
        axes=tuple(_axis(job, sweep, axis) for axis in AXES),
        work=tuple(_effect(effect, unit) for effect in sweep.effects),
        head=tuple(_head(job, axis, job.head[axis], unit) for axis in AXES if axis in job.head)
        or (said("head-unknown"),),
    )


def _age(job: Job, sweep: SweepDone) -> Said | None:
    """Whether that sweep is of the head before it was worked on."""
    if not job.disturbed:
        return None
    if sweep.purpose == "as-found":
        return said("head-as-found")
    return said("age", age="before-move")


def _rule(job: Job) -> Said:
    rule = job.setup.machine.verdict
    of = said("rule-of", together=rule.together)
    if rule.name == "simple":
        return said("rule-simple", of=of)
    return said("rule-guarded", sure=_percent(rule.coverage), of=of)


def _axis(job: Job, sweep: SweepDone, axis: Axis) -> AxisNumbers:
    result, budget = sweep.results[axis], sweep.budgets[axis] if sweep.budgets else None
    unit, judged = unit_of(job), sweep.whole or result
    return AxisNumbers(
        axis=axis,
        say=job.setup.machine.axis(axis).say,
        error=length(result.error_mm, unit, plus=True),
        u=length(result.u_mm, unit, 1),
        guard=length(judged.guard_mm, unit, 1),
        guard_say=judged.basis,
        probability=_probability(judged.probability),
        word=short(judged.word),
        good_enough=judged.good_enough,
        expanded=None if budget is None else length(budget.expanded_mm, unit, 1),
        k=None if budget is None else Figure(budget.k, 2),
        dof=None if budget is None else _freedom(budget.dof),
        coverage=None if budget is None else _percent(budget.coverage),
        terms=() if budget is None else tuple(_term(term, unit) for term in budget.terms),
    )


def _term(term: Term, unit: Unit) -> TermView:
    value = said("cancels") if term.cancels else length(term.u_mm, unit, 1)
    dof = None if term.dof is None else Figure(term.dof, 0)
    return TermView(term.name.code, term.name, value, dof, term.note, term.cancels)


def _freedom(dof: float | None) -> Said | Figure:
    return said("many") if dof is None else Figure(dof, 1)


def _percent(share: float) -> Said:
    """A stated probability, with as many decimals as it has, two at the most."""
    percent = 100.0 * share
    digits = next(d for d in range(3) if round(percent, d) == round(percent, 2))
    return said("percent", of=Figure(percent, digits))


def _probability(probability: float | None) -> Said | None:
    """The probability of conforming; never rounded up to certainty."""
    if probability is None:
        return None
    percent = 100.0 * probability
    if percent > 99.9:
        return said("nearly-certain")
    return said("hardly-ever") if percent < 0.1 else said("percent", of=Figure(percent, 1))


def _effect(effect: Effect, unit: Unit) -> Said:
    """What a lean does to the work in a sentence, and both ways it was worked out."""
    return said(
        "effect-exactly",
        effect=say_effect(effect, unit),
        exact=length(effect.exact_mm, unit, 2),
        textbook=length(effect.textbook_mm, unit, 2),
    )


def say_effect(effect: Effect, unit: Unit) -> Said:
    """What a lean does to the work in a sentence, in the unit asked for."""
    least_mm = 10.0 ** -FINE[unit] * MM_PER[unit]
    if effect.exact_mm < 0.5 * least_mm:
        amount = said("effect-below", least=Shown(least_mm, unit, FINE[unit]), unit=unit)
    else:
        amount = said("effect-amount", mm=Shown(effect.exact_mm, unit, FINE[unit]), unit=unit)
    size, *others = (Shown(mm, unit, _SIZE_DECIMALS[unit]) for mm in effect.sizes_mm)
    feed = effect.feed
    if effect.key == "dish":
        (cutter,) = others
        return said("effect-dish", strip=size, cutter=cutter, feed=feed, by=amount, unit=unit)
    if effect.key == "step":
        return said("effect-step", apart=size, feed=feed, by=amount, unit=unit)
    if effect.key == "hole":
        return said("effect-hole", deep=size, toward=effect.toward, by=amount, unit=unit)
    return said("effect-bore", bore=size, by=amount, unit=unit)


def _head(job: Job, axis: Axis, known: Answers, unit: Unit) -> Said:
    """What is known of how one axis of this head answers."""
    return said(
        "head-answers",
        axis=job.setup.machine.axis(axis).say,
        pivot=length(known.pivot_mm, unit, -2),
        doubt=length(2.0 * known.pivot_doubt_mm, unit, -2),
        cross=Figure(100.0 * known.coupling, 1, plus=True),
        cross_doubt=Figure(200.0 * known.coupling_doubt, 1),
    )
