"""How far a sweep or a pair check of an open audit may be off, term by term."""

import math
from collections.abc import Sequence
from dataclasses import replace

from daq.audit.facts import result
from daq.audit.head import repeatability
from daq.audit.held.table import TABLE, TableReady
from daq.audit.laid import known
from daq.audit.parts import Added, AxisResult
from daq.audit.reading_order import check_order
from daq.audit.state import Job
from daq.checks.sweep.reduce import Fit, Spot
from daq.checks.sweep.slow_turn.fit import SlowTurn
from daq.checks.sweep.steady import BENT, walked
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.budget import Budget, Term, combine
from daq.words import POSITIONS, Axis, Both, said

PAIR_S = 19.0
"""From one reading of a pair to the other: half a turn, a reading (common practice, no source)."""
_TAKEN_OUT = {"ring": "term-wedge", "arm": "term-axial"}
"""The term that a sweep with this turned half round takes out."""


def of_sweep(
    job: Job,
    read: Sequence[Spot],
    fitted: Fit,
    return_mm: float,
    scatter_mm: float,
    axis: Axis,
    slow: SlowTurn | None = None,
) -> Budget:
    """The budget of one axis's difference in a full sweep.

    `read` as taken, `fitted` from it, `return_mm` its return error, or what it may have walked
    unseen where it was not read back; `scatter_mm` the least standard deviation of the samples
    within a reading. `slow`: what a slow turn showed, where nothing was read standing still.
    """
    machine, returned = job.setup.machine, read[0].azimuth_deg == read[-1].azimuth_deg
    facts = _facts(
        job,
        tuple(p.azimuth_deg for p in read),
        tuple(p.order for p in read) if returned else (),
        fitted.d_mm,
        _walked(job, return_mm) if returned else return_mm,
        scatter_mm,
        machine.second_radius if job.setup.second_gauge else None,
    )
    facts = replace(facts, slow=slow)
    return combine(_known(job, terms(facts, machine.uncertainty, axis)), machine.verdict.coverage)


def of_pair(job: Job, axis: Axis, d_mm: float) -> AxisResult:
    """One axis judged by a pair check that read this difference.

    Without a back, the check of nod reads three places; it is then as good as their fit. Nothing
    takes a steady drift out of it: how far that walks between its readings may be all wrong.
    """
    walks_mm = PAIR_S * (job.sweeps.steady_mm_s or 0.0) / BENT
    azimuths = tuple(POSITIONS[place] for place in check_order(job, axis))
    facts = _facts(job, azimuths, (), Both(0.0, 0.0).put(axis, d_mm), walks_mm, 0.0, None)
    machine = job.setup.machine
    every = _known(job, terms(facts, machine.uncertainty, axis))
    budget = combine(every, machine.verdict.coverage)
    return result(job, axis, d_mm, budget.u_mm, budget.dof)


def _known(job: Job, every: tuple[Term, ...]) -> tuple[Term, ...]:
    """The terms without those that are known of something turned half round.

    What an earlier audit taught of it is taken out too; how well it did stays.
    """
    parts = [each for each in known(job) if each.of != job.reads.turned]
    learned = {_TAKEN_OUT[each.of]: each for each in parts if each.learned}
    kinds = {each.of for each in parts if not each.learned} | {job.reads.turned}
    out = {_TAKEN_OUT[kind] for kind in kinds if kind}
    if job.setup.second_gauge is not None:
        # The bar's sweep showed how the spindle rises and falls; the parked gauge leaves it out.
        out.add("term-axial")
    return tuple(
        replace(term, u_mm=0.0, dof=None, cancels=True)
        if term.code in out
        else _learned(term, learned[term.code])
        if term.code in learned
        else term
        for term in every
    )


def _learned(term: Term, part: Added) -> Term:
    note = said("note-learned", of=part.of, audit=part.learned)
    return replace(term, u_mm=part.u_mm, dof=part.dof, note=note)


def _facts(
    job: Job,
    azimuths_deg: tuple[float, ...],
    orders: tuple[float, ...],
    d_mm: Both[float],
    return_mm: float,
    scatter_mm: float,
    second_radius_mm: float | None,
) -> SweepFacts:
    machine, gauge, repeats = job.setup.machine, job.setup.gauge, repeatability(job)
    table = job.own.get(TABLE)
    # Each part left out is half the difference of two sweeps: half of one sweep's variance.
    turned = [each for each in job.sweeps.added if not each.learned]
    others = [each for each in turned if each.of != job.reads.turned]
    sd_mm = repeats.sd_mm * math.sqrt(1.0 + (1.0 if job.reads.turned else 0.5) * len(others))
    return SweepFacts(
        radius_mm=machine.sweep_radius,
        azimuths_deg=azimuths_deg,
        orders=orders,
        d_mm=d_mm,
        sd_mm=sd_mm,
        sd_dof=repeats.dof,
        resolution_mm=gauge.resolution,
        max_error_mm=gauge.max_error,
        return_error_mm=return_mm,
        scatter_mm=scatter_mm,
        seat=machine.seat,
        turned=job.reads.turned if orders else "",
        second_radius_mm=second_radius_mm,
        friction=job.gauge.friction,
        papers=gauge.papers(job.setup.day),
        seen=repeats.seen,
        apart_k=table.apart_k if isinstance(table, TableReady) else None,
    )


def _walked(job: Job, return_mm: float) -> float:
    """What a sweep's readings drifted, or two sweeps' with something turned between, mm."""
    gauges = 1.0 if job.setup.second_gauge is None else 2.0
    sd_mm = math.sqrt(gauges) * repeatability(job).sd_mm
    before = job.sweeps.latest
    if not job.reads.turned or before is None:
        return walked(return_mm, sd_mm)
    both = walked(return_mm, sd_mm), walked(before.return_error_mm, sd_mm)
    # A steady drift bends both alike.
    return 0.5 * (sum(both) if job.sweeps.steady_mm_s else math.hypot(*both))
