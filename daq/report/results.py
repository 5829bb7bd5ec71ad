"""What was found and what was left, how sure that is, and every sweep it came from."""

from collections.abc import Iterator

from daq.audit.events import Signed, SweepDone
from daq.audit.parts import Budget
from daq.audit.rounds import Round
from daq.audit.setup import AxisSetup
from daq.audit.state import Job
from daq.records.record import AuditRecord
from daq.report.data import BudgetPart, FoundAndLeft, SweepPart, TermPart
from daq.report.figures import Figures
from daq.report.told import Told
from daq.screens.numbers import say_rule as say_rule
from daq.words import AXES, said


def found_and_left(record: AuditRecord) -> tuple[SweepDone | None, SweepDone | None]:
    """Return the sweeps that show how the head was found, and how it is left.

    Those that a signature names; of an audit without one those that stand so far.
    """
    sweeps, signed = record.job.sweeps, record.signed
    if signed is None:
        left = sweeps.as_left if sweeps.loosened or sweeps.as_found is None else sweeps.as_found
        return sweeps.as_found, left
    named = {each.number: each for each in sweeps.done}
    found = [each.number for each in signed.sweeps if each.as_found]
    left_at = [each.number for each in signed.sweeps if each.as_left]
    return (
        named[found[0]] if found else None,
        named[left_at[0]] if left_at else None,
    )


def pairs(record: AuditRecord, figures: Figures) -> tuple[FoundAndLeft, ...]:
    """Return each thing that was measured, as found beside as left."""
    job = record.job
    if job.check is not None:
        return _of_round(_round(record), figures)
    found, left = found_and_left(record)
    digits = figures.digits(found, left)
    return tuple(
        FoundAndLeft(
            key=axis,
            name=job.setup.machine.axis(axis).say,
            tolerance=_tolerance(job.setup.machine.axis(axis), figures),
            as_found=None if found is None else figures.axis(found, axis, digits[axis]),
            as_left=None if left is None else figures.axis(left, axis, digits[axis]),
        )
        for axis in AXES
    )


def _round(record: AuditRecord) -> Round | None:
    signed = record.signed
    return signed.round if signed is not None else record.job.round


def _of_round(came: Round | None, figures: Figures) -> tuple[FoundAndLeft, ...]:
    told = figures.told
    return tuple(
        FoundAndLeft(
            key="",
            name=told.words(each.name),
            tolerance=_of_limit(each.limit_mm, each.over_mm, figures),
            as_found=None,
            as_left=figures.measure(each),
        )
        for each in (came.results if came is not None else ())
    )


def _of_limit(limit_mm: float | None, over_mm: float | None, figures: Figures) -> str:
    if limit_mm is None:
        return figures.told.words(said("paper-no-limit"))
    if over_mm is None:
        return figures.length(limit_mm)
    return figures.told.words(
        said("paper-over", limit=figures.length(limit_mm), over=figures.wide(over_mm))
    )


def _tolerance(axis: AxisSetup, figures: Figures) -> str:
    """What the machine's file allows, over the length it is given for, and how it is called."""
    limit, over = figures.length(axis.limit), figures.wide(axis.over)
    return figures.told.words(
        said("paper-tolerance", limit=limit, over=over, named=axis.tolerance or "none")
    )


def sweeps(record: AuditRecord, figures: Figures) -> tuple[SweepPart, ...]:
    """Return every full sweep, or round of another check, with the reason it was taken again."""
    if record.job.check is not None:
        return tuple(_rounds(record, figures))
    return tuple(_sweeps(record, figures))


def _sweeps(record: AuditRecord, figures: Figures) -> Iterator[SweepPart]:
    found, left = found_and_left(record)
    told = figures.told
    for row, sweep in record.sweeps:
        digits = figures.digits(sweep)
        shown = (figures.axis(sweep, axis, digits[axis]) for axis in AXES)
        yield SweepPart(
            number=sweep.number,
            row=row.seq,
            purpose=sweep.purpose,
            why=told.words(sweep.why),
            usable=sweep.usable,
            as_found=found is not None and row.voided_by is None and sweep.number == found.number,
            as_left=left is not None and row.voided_by is None and sweep.number == left.number,
            taken_back_by=row.voided_by,
            words=tuple(sweep.results[axis].word for axis in AXES),
            return_error_mm=sweep.return_error_mm if sweep.returned else None,
            findings=tuple(told.words(each.said) for each in sweep.findings),
            results=tuple(f"{each.shown_value} ± {each.shown_expanded}" for each in shown),
        )


def _rounds(record: AuditRecord, figures: Figures) -> Iterator[SweepPart]:
    told = figures.told
    last = _round(record)
    for row in record.rows:
        came = getattr(row.data, "round", None)
        if not isinstance(came, Round) or isinstance(row.data, Signed):
            continue
        shown = (figures.measure(each) for each in came.results)
        yield SweepPart(
            number=came.number,
            row=row.seq,
            purpose=None,
            why=told.words(came.why),
            usable=came.usable,
            as_found=False,
            as_left=last is not None and row.voided_by is None and came.number == last.number,
            taken_back_by=row.voided_by,
            words=tuple(each.word for each in came.results if each.word is not None),
            return_error_mm=None,
            findings=tuple(told.words(each.said) for each in came.findings),
            results=tuple(f"{each.shown_value} ± {each.shown_expanded}" for each in shown),
        )


def budgets(record: AuditRecord, told: Told) -> tuple[BudgetPart, ...]:
    """Return the uncertainty of each result, term by term: as found and as left."""
    return tuple(_budgets(record, record.job, told))


def _budgets(record: AuditRecord, job: Job, told: Told) -> Iterator[BudgetPart]:
    if job.check is not None:
        came = _round(record)
        for each in came.results if came is not None else ():
            yield _budget(told.words(each.name), came.number if came else 0, each.budget, told)
        return
    found, left = found_and_left(record)
    done: set[int] = set()
    for sweep in (found, left):
        if sweep is None or sweep.budgets is None or sweep.number in done:
            continue
        done.add(sweep.number)
        for axis in AXES:
            name = job.setup.machine.axis(axis).say
            yield _budget(name, sweep.number, sweep.budgets[axis], told)


def _budget(of: str, sweep: int, budget: Budget, told: Told) -> BudgetPart:
    by_size = sorted(budget.terms, key=lambda term: (term.cancels, -term.u_mm))
    terms = tuple(
        TermPart(told.words(t.name), told.words(t.note), t.u_mm, t.dof, t.cancels) for t in by_size
    )
    return BudgetPart(
        of, sweep, terms, budget.u_mm, budget.dof, budget.k, budget.expanded_mm, budget.coverage
    )
