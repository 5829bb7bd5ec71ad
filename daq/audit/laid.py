"""The named ring on the table: what is known of its wedge, and what a reversal teaches of it."""

from collections.abc import Mapping
from dataclasses import replace
from math import sqrt

from daq.audit.facts import unit_of
from daq.audit.history import day_of
from daq.audit.parts import Added, Flaw
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.checks.sweep.rings import NamedRing, Wedge, in_ring
from daq.metrology.budget import Budget, combine
from daq.units import FINE
from daq.words import Both, Shown, said

_BOTH_TIMES = "term-axial"
"""What both sweeps of a turned ring hold alike is not in their difference."""


def grown(
    rings: tuple[NamedRing, ...], known: Mapping[str, Wedge], over_mm: float, today: str
) -> tuple[NamedRing, ...]:
    """The shop's rings with what is known of each today; `over_mm`: across the sweep."""
    return tuple(
        replace(ring, wedge=known[ring.key].grown(ring.changes / over_mm, today))
        if ring.key in known
        else replace(ring, wedge=None)
        for ring in rings
    )


def known(job: Job) -> tuple[Added, ...]:
    """What is known to lie in the readings besides the lean before they are taken."""
    added, laid = job.sweeps.added, job.sweeps.laid
    if laid is None or laid.ring.wedge is None or any(each.of == "ring" for each in added):
        return added
    machine, wedge = job.setup.machine, laid.ring.wedge
    over = machine.diameter
    # A ring set down again lies no truer than it seats, however often it was turned.
    u_mm = max(over * wedge.u, machine.uncertainty.seating / sqrt(3.0))
    d_mm = wedge.toward(laid.mark).map(lambda slope: over * slope)
    return (*added, Added("ring", d_mm, wedge.audit, u_mm, wedge.dof))


def taught(
    job: Job, added: tuple[Added, ...], budgets: Both[Budget]
) -> tuple[Wedge | None, tuple[Flaw, ...]]:
    """What is known of the ring after a sweep with it turned, and what is to be said of that.

    None: it teaches nothing. What contradicts what was known starts it anew, but where the mark
    seems to point the other way nobody knows which was misread: then nothing is learned.
    """
    laid = job.sweeps.laid
    if laid is None or job.reads.turned != "ring" or not REASONS[job.reason].kept:
        return None, ()
    over = job.setup.machine.diameter
    (part,) = (each for each in added if each.of == "ring")
    ahead, aside = in_ring(part.d_mm.map(lambda mm: mm / over), laid.turned().mark)
    rule = job.setup.machine.verdict
    alone = [
        combine([t for t in each.terms if t.code != _BOTH_TIMES], rule.coverage)
        for each in budgets.values()
    ]
    worse = max(alone, key=lambda each: each.u_mm)
    now = Wedge(ahead, aside, worse.u_mm / over, worse.dof, 1, job.short, day_of(job.since))
    before = laid.ring.wedge
    if before is None:
        return now, ()
    if not before.is_against(now):
        return before.after(now), ()
    ring, mark = laid.ring.say, laid.ring.mark
    if not before.half_round().is_against(now):
        return None, (Flaw(said("ring-other-way", ring=ring, mark=mark), blocking=False),)
    unit = unit_of(job)
    apart = abs(complex(before.ahead - ahead, before.aside - aside)) * over
    told = said(
        "ring-contradicts",
        ring=ring,
        mark=mark,
        apart=Shown(apart, unit, FINE[unit]),
        unit=unit,
        audit=before.audit,
    )
    return now, (Flaw(told, blocking=False),)
