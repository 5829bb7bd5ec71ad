"""Results in words: an axis with its limit and its doubt, a lean judged as one."""

from collections.abc import Mapping

from daq.audit.facts import unit_of
from daq.audit.parts import AxisResult, Budget, Whole
from daq.audit.state import Job
from daq.audit.views.figures import length
from daq.screens.axes import axis_view, short
from daq.screens.numbers import say_probability
from daq.words import Axis, Said, said


def axes(
    job: Job,
    results: Mapping[Axis, AxisResult],
    whole: Whole | None = None,
    budgets: Mapping[Axis, Budget] | None = None,
) -> tuple[Said, ...]:
    """Each axis: how far out, which side is low, the limit, its doubt, the word; and both as one.

    A result that has no budget is said with its standard uncertainty.
    """
    each = (
        _axis(job, axis, result, None if budgets is None else budgets[axis])
        for axis, result in results.items()
    )
    return (*each, *_as_one(whole))


def _as_one(whole: Whole | None) -> tuple[Said, ...]:
    """The lean judged as one vector, where the shop judges it so."""
    likely = None if whole is None else say_probability(whole.probability)
    if whole is None or likely is None:
        return ()
    return (said("row-whole", word=short(whole.word), likely=likely),)


def _axis(job: Job, axis: Axis, result: AxisResult, budget: Budget | None) -> Said:
    unit = unit_of(job)
    view = axis_view(job.setup.machine, unit, axis, result, None)
    expanded = budget is not None
    return said(
        "row-axis",
        axis=view.say or "",
        value=view.value or "",
        low=view.low or "",
        limit=view.limit or "",
        doubt=length(budget.expanded_mm if budget else result.u_mm, unit, 1),
        doubted="expanded" if expanded else "standard",
        unit=unit,
        word=short(result.word),
    )
