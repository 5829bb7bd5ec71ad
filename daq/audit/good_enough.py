"""Good enough for this job: a drawing's callout against the last sweep, with no bolt touched."""

from dataclasses import dataclass

from daq.audit.answers import Callout, GoodEnough
from daq.audit.closing_events import AnswerKept
from daq.audit.events import Data
from daq.audit.input import Input, Refused
from daq.audit.parts import AxisResult
from daq.audit.reasons import REASONS
from daq.audit.safe import maybe_loose
from daq.audit.state import MachineState, Shop
from daq.checks.sweep.callouts import Leans, enough
from daq.metrology.rule import Rule
from daq.metrology.student import t_quantile, whole_dof
from daq.words import Both


@dataclass(frozen=True)
class _Rests:
    """The sweep an answer rests on; `day`: when it was signed, "" for one of the open audit."""

    audit: str
    short: str
    day: str
    diameter_mm: float
    results: Both[AxisResult]
    rule: Rule


def answer(state: MachineState, callout: Callout) -> GoodEnough:
    """What the head by itself does over this callout, by the sweep's own rule.

    Raises:
        Refused: there is no sweep, or the head may stand otherwise since.
    """
    rests = _rests(state)
    over = rests.diameter_mm
    side, nod = rests.results.values()
    dofs = [each.dof for each in (side, nod) if each.dof is not None]
    dof = min(dofs, default=None)
    leans = Leans(side.d_mm / over, nod.d_mm / over, side.u_mm / over, nod.u_mm / over, dof)
    found = enough(callout.one, leans, rests.rule)
    k = t_quantile(0.5 + 0.5 * rests.rule.coverage, whole_dof(dof))
    return GoodEnough(
        callout=callout,
        does_mm=found.does_mm,
        doubt_mm=k * found.u_mm,
        guard_mm=found.guard_mm,
        word=found.word,
        good_enough=found.good_enough,
        audit=rests.audit,
        short=rests.short,
        day=rests.day,
    )


def _rests(state: MachineState) -> _Rests:
    """The open audit's sweep, while the head stands as it read it, or the last signed one."""
    if state.unsafe is not None:
        raise Refused("enough-unsafe")
    job = state.job
    if job is not None and job.check is None:
        latest = job.sweeps.latest
        if latest is not None and not (job.sweeps.disturbed or job.loose or maybe_loose(job)):
            machine = job.setup.machine
            results = latest.results
            return _Rests(job.id, job.short, "", machine.diameter, results, machine.verdict)
        if job.sweeps.disturbed or job.loose or maybe_loose(job):
            raise Refused("enough-moved")
    swept = state.swept
    if swept is None:
        raise Refused("enough-no-sweep")
    since = REASONS[job.reason].stirs if job is not None else ""
    check_since(since or swept.since)
    return _Rests(swept.audit, swept.short, swept.day, swept.diameter_mm, swept.as_left, swept.rule)


def check_since(since: str) -> None:
    """Refuse to rest on the last signed sweep where that may have moved the head after it."""
    if since == "crash":
        raise Refused("enough-crash")
    if since == "doubted":
        raise Refused("enough-doubted")
    if since:
        raise Refused("enough-moved")


@dataclass(frozen=True)
class Keep:
    """The payload of `keep-answer`: the callout, and the audit of the sweep that was shown."""

    callout: Callout
    audit: str


def keep_answer(shop: Shop, given: Input) -> tuple[Data, ...]:
    """The answer a person was shown, kept; refused where another sweep came since."""
    keep = given.payload(Keep)
    found = answer(shop.machine(given.command.machine), keep.callout)
    if found.audit != keep.audit:
        raise Refused("enough-other-sweep", audit=found.short)
    return (AnswerKept(found),)
