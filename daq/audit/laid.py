"""What bears a mark and turns: the ring on the table, the spindle that holds the arm.

What is known of either lies in every sweep besides the lean and is left out of it; a reversal
teaches it. What a ring is known to be belongs to the shop, what the spindle does to its machine.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import sqrt

from daq.audit.facts import unit_of
from daq.audit.history import day_of
from daq.audit.parts import Added, Flaw
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.checks.sweep.by_mark import ByMark, Taught, joined, of_difference, own_parts
from daq.checks.sweep.rings import Laid, NamedRing
from daq.checks.sweep.spindle import ACROSS, SPINDLE, Clamped
from daq.metrology.budget import Budget
from daq.units import FINE
from daq.words import Both, Said, Shown, said


def grown(
    rings: tuple[NamedRing, ...], known: Mapping[str, ByMark], over_mm: float, today: str
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
    there = {each.of for each in job.sweeps.added}
    carried = (_of_ring(job), _of_spindle(job))
    return (
        *job.sweeps.added,
        *(each for each in carried if each is not None and each.of not in there),
    )


def _of_ring(job: Job) -> Added | None:
    laid, machine = job.sweeps.laid, job.setup.machine
    if laid is None or laid.ring.wedge is None:
        return None
    wedge = laid.ring.wedge
    # A ring set down again lies no truer than it seats, however often it was turned.
    d_mm, u_mm = wedge.across(laid.mark_deg, machine.diameter)
    u_mm = max(u_mm, machine.uncertainty.seating / sqrt(3.0))
    return Added("ring", d_mm, wedge.audit, u_mm, wedge.dof)


def _of_spindle(job: Job) -> Added | None:
    clamped = job.sweeps.clamped
    if clamped is None or clamped.rise is None:
        return None
    rise = clamped.rise
    d_mm, u_mm = rise.across(clamped.mark_deg, ACROSS)
    return Added("arm", d_mm, rise.audit, u_mm, rise.dof)


@dataclass(frozen=True, slots=True)
class Reversal:
    """What a sweep with something turned teaches of it.

    `differs`: what it would teach, were that not against what was known; `told`: what is said
    of that.
    """

    taught: Taught | None = None
    differs: Taught | None = None
    told: tuple[Flaw, ...] = ()


def reversal(job: Job, added: tuple[Added, ...], budgets: Both[Budget]) -> Reversal:
    """What the sweep just read teaches of what was turned for it, if its mark was said.

    What contradicts what was known is a person's to explain. A sweep counts in one pair only:
    one more turned directly after it teaches nothing.
    """
    it, before = _turned(job), job.sweeps.latest
    if it is None or before is None or before.turned == job.reads.turned:
        return Reversal()
    if not REASONS[job.reason].kept:
        return Reversal()
    key = it.ring.key if isinstance(it, Laid) else SPINDLE
    was = it.ring.wedge if isinstance(it, Laid) else it.rise
    own = _read(job, it, added, budgets)
    if was is not None and was.is_against(own):
        told = Flaw(_against(job, it, was, own), blocking=False)
        return Reversal(differs=Taught(key, own, own), told=(told,))
    earlier = job.sweeps.taught.get(key)
    alone = joined(earlier.own if earlier is not None else None, own)
    return Reversal(Taught(key, alone, joined(was, own)))


def _turned(job: Job) -> Laid | Clamped | None:
    """What was turned for the sweep under way, as it was before, if its mark was said."""
    return {"": None, "ring": job.sweeps.laid, "arm": job.sweeps.clamped}[job.reads.turned]


def _across(job: Job, it: Laid | Clamped) -> float:
    """How much each unit of it is across the sweep, mm."""
    return job.setup.machine.diameter if isinstance(it, Laid) else ACROSS


def _read(job: Job, it: Laid | Clamped, added: tuple[Added, ...], budgets: Both[Budget]) -> ByMark:
    """What the two sweeps tell of it, and no other one."""
    over, turned = _across(job, it), job.reads.turned
    (part,) = (each for each in added if each.of == turned)
    parts = own_parts(part.d_mm.map(lambda mm: mm / over), it.turned().mark_deg)
    worse = of_difference(turned, budgets, job.setup.machine.verdict.coverage)
    read = ByMark(*parts, worse.u_mm / over, worse.dof, 1, job.short, day_of(job.since))
    return replace(read, u=read.u_by_eye)


def _against(job: Job, it: Laid | Clamped, was: ByMark, own: ByMark) -> Said:
    """What is said of what is not as it was known to be."""
    of, unit = job.reads.turned, unit_of(job)
    what = it.ring.say if isinstance(it, Laid) else ""
    mark = it.ring.mark if isinstance(it, Laid) else job.setup.machine.spindle_mark
    if not was.half_round().is_against(own):
        return said("differs-other-way", of=of, what=what, mark=mark, audit=was.audit)
    apart = Shown(was.apart(own) * _across(job, it), unit, FINE[unit])
    return said("differs", of=of, what=what, apart=apart, unit=unit, audit=was.audit)


def from_now_on(job: Job) -> Mapping[str, ByMark]:
    """What is known of each ring turned in this audit, and of the spindle, as it is signed.

    Another audit may have taught the same ring meanwhile: its share is kept.
    """
    return {key: joined(_before(job, key), each.own) for key, each in job.sweeps.taught.items()}


def _before(job: Job, key: str) -> ByMark | None:
    setup = job.setup
    if key == SPINDLE:
        return setup.rise and setup.rise.grown(setup.machine.uncertainty.spindle_changes, setup.day)
    rings = grown(setup.rings, job.meanwhile.rings, setup.machine.diameter, setup.day)
    return next(ring.wedge for ring in rings if ring.key == key)
