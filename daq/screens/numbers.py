"""The numbers behind a verdict: the budget term by term, and what the lean does to the work."""

import math
from dataclasses import replace
from typing import Literal

from daq.audit.events import SweepDone
from daq.audit.facts import unit_of
from daq.audit.measurand import condition
from daq.audit.parts import AxisResponse, AxisResult, Budget, Effect, Rule, Term, Whole
from daq.audit.rounds import Measure
from daq.audit.state import Job
from daq.audit.views.decides import every
from daq.audit.views.figures import WIDE, length, rounded_up, same_place, with_unit
from daq.audit.views.shapes import AxisNumbers, Numbers, TermView
from daq.screens.axes import short
from daq.units import FINE, MM_PER
from daq.words import AXES, Axis, Figure, Said, Shown, Unit, said

_SIZE_DECIMALS: dict[Unit, int] = {"mm": 1, "in": 3}


def numbers(job: Job) -> Numbers | None:
    """What the verdict of the latest sweep, or of another check's round, rests on; None before."""
    if job.check is not None:
        return _of_round(job)
    sweep = job.sweeps.as_left or job.sweeps.latest
    if sweep is None:
        return None
    unit, age = unit_of(job), _age(job, sweep)
    of = said("from-sweep", n=sweep.number)
    return Numbers(
        say=said("from-sweep-aged", n=sweep.number, age=age) if age else of,
        age=age,
        rule=_rule(job, job.setup.machine.verdict.together),
        condition=condition(job),
        axes=tuple(_axis(job, sweep, axis) for axis in AXES),
        work=tuple(_effect(effect, unit) for effect in sweep.effects) or (said("no-work"),),
        head=tuple(say_answers(job, axis, known, unit) for axis, known in job.head.answers.items())
        or (said("head-unknown"),),
        decides=() if sweep.decidable is None else every(job, sweep.decidable),
    )


def _of_round(job: Job) -> Numbers | None:
    came, unit = job.round, unit_of(job)
    if came is None:
        return None
    return Numbers(
        say=said("from-round", n=came.number),
        age=None,
        rule=_rule(job, "figures") if came.results[0].sees_mm is None else said("few-alarms"),
        condition=condition(job),
        axes=tuple(_measured(result, unit) for result in came.results),
        work=(),
        head=(),
    )


def _measured(result: Measure, unit: Unit) -> AxisNumbers:
    value = length(result.value_mm, unit)
    if result.over_mm is not None:
        value = said("figure-over", figure=value, over=length(result.over_mm, unit, WIDE))
    row = _judged("", result.name, value, result, result.budget, unit)
    if result.sees_mm is not None:
        row = replace(row, guard=None, guard_say=None, word=None)
    return replace(row, toward=_toward(result))


def _toward(result: Measure) -> Said | None:
    """Where a vector points, and how surely."""
    by_deg = result.toward_doubt_deg
    if result.toward_deg is None or by_deg is None:
        return None
    if by_deg >= 180.0:
        return said("toward-untold")
    return said("highest-within", angle=Figure(result.toward_deg, 0), by=Figure(by_deg, 0))


def _age(job: Job, sweep: SweepDone) -> Said | None:
    """Whether that sweep is of the head before it was worked on."""
    if not job.sweeps.disturbed:
        return None
    if sweep.purpose == "as-found":
        return said("head-as-found")
    return said("age", age="before-move")


def _rule(job: Job, together: str) -> Said:
    return say_rule(job.setup.machine.verdict, together)


def say_rule(rule: Rule, together: str) -> Said:
    """The rule of a verdict in a sentence; `together`: what it is applied to."""
    of = said("rule-of", together=together)
    if rule.name == "simple":
        return said("rule-simple", of=of)
    return said("rule-guarded", sure=_percent(rule.coverage), of=of)


def _axis(job: Job, sweep: SweepDone, axis: Axis) -> AxisNumbers:
    result, budget = sweep.results[axis], sweep.budgets[axis] if sweep.budgets else None
    unit, say = unit_of(job), job.setup.machine.axis(axis).say
    limits = (result.low_mm or 0.0, result.high_mm or 0.0)
    expanded = None if budget is None else budget.expanded_mm
    digits = same_place(result.error_mm, limits, unit, expanded)
    error = with_unit(Shown(result.error_mm, unit, digits, plus=True))
    row = _judged(axis, say, error, sweep.whole or result, budget, unit)
    if budget is not None:
        row = replace(row, expanded=rounded_up(budget.expanded_mm, unit, digits))
    return replace(row, u=length(result.u_mm, unit, 1))


def _judged(
    axis: Axis | Literal[""],
    say: Said | str,
    error: Said,
    judged: AxisResult | Whole | Measure,
    budget: Budget | None,
    unit: Unit,
) -> AxisNumbers:
    ruling = judged.ruling
    return AxisNumbers(
        axis=axis,
        say=say,
        error=error,
        u=None if budget is None else length(budget.u_mm, unit, 1),
        guard=None if judged.word is None else length(judged.guard_mm, unit, 1),
        guard_say=judged.basis,
        probability=say_probability(judged.probability),
        word=None if judged.word is None else short(judged.word),
        good_enough=judged.good_enough,
        expanded=None if budget is None else length(budget.expanded_mm, unit, 1),
        k=None if budget is None else Figure(budget.k, 2),
        dof=None if budget is None else _freedom(budget.dof),
        coverage=None if budget is None else _percent(budget.coverage),
        risk=None if ruling is None else ruling.risk,
        assumes=None if ruling is None else ruling.assumes,
        terms=() if budget is None else _terms(budget, unit),
    )


def _terms(budget: Budget, unit: Unit) -> tuple[TermView, ...]:
    """The biggest first, last those that cancel."""
    by_size = sorted(budget.terms, key=lambda term: (term.cancels, -term.u_mm))
    return tuple(_term(term, unit) for term in by_size)


def _term(term: Term, unit: Unit) -> TermView:
    value = said("cancels") if term.cancels else length(term.u_mm, unit, 1)
    dof = None if term.dof is None else Figure(term.dof, 0)
    return TermView(term.name.code, term.name, value, dof, term.note, term.cancels)


def _freedom(dof: float | None) -> Said | Figure:
    # Whole ones, cut, as k is taken for (JCGM 100, G.4.1).
    return said("many") if dof is None else Figure(math.floor(dof + 1e-9), 0)


def _percent(share: float) -> Said:
    """A stated probability, with as many decimals as it has, two at the most."""
    percent = 100.0 * share
    digits = next(d for d in range(3) if round(percent, d) == round(percent, 2))
    return said("percent", of=Figure(percent, digits))


def say_probability(probability: float | None) -> Said | None:
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


def say_answers(job: Job, axis: Axis, known: AxisResponse, unit: Unit) -> Said:
    """What is known of how one axis of this head answers."""
    return said(
        "head-answers",
        axis=job.setup.machine.axis(axis).say,
        pivot=length(known.pivot_mm, unit, -2),
        doubt=length(2.0 * known.pivot_doubt_mm, unit, -2),
        cross=Figure(100.0 * known.coupling, 1, plus=True),
        cross_doubt=Figure(200.0 * known.coupling_doubt, 1),
    )
