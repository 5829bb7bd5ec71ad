"""The fold: apply(shop, event) copies what an event carries into the state. It computes nothing."""

from collections.abc import Iterable, Mapping
from functools import reduce

from daq.audit import events as e
from daq.audit.added import added
from daq.audit.ages import aged
from daq.audit.anytime.fold import COMMON
from daq.audit.changed import changed
from daq.audit.codec import UnknownEvent, decode
from daq.audit.facts import looks_closer
from daq.audit.handover import handed_over
from daq.audit.held.gauge import GaugeSeen
from daq.audit.held.head import HeadSeen
from daq.audit.history import WORDS, Checked, Swept, day_of, done
from daq.audit.known_here import known_here
from daq.audit.of_no_machine import OF_NO_MACHINE, of_no_machine
from daq.audit.paced import paced_by
from daq.audit.parts import AxisResult
from daq.audit.reasons import REASONS
from daq.audit.safe import maybe_loose, told_to_crack
from daq.audit.stages import TOOK
from daq.audit.state import Closed, Job, MachineState, Shop
from daq.audit.stated import Stated
from daq.checks.sweep.by_mark import ByMark
from daq.checks.sweep.spindle import SPINDLE
from daq.words import Both, Event, Reading, Stamp, said

GENESIS = "LedgerBegan"
"""The ledger's own first row; nothing of a shop is in it."""

KEPT_VISITS = 200
"""So many of a gauge's latest visits on a machine say how well it repeats there."""

KEPT_RETURNS = 50
"""So many of its latest sweeps that were read back say how far its number walks meanwhile."""

KEPT_NOTICES = 8
"""A gauge that keeps jumping may be denied so many times in a row."""

_TOOK = {**COMMON, **TOOK}
"""What each event changes in the open audit it belongs to."""

Trail = tuple[tuple[tuple[int, ...], Job], ...]


def apply(shop: Shop, event: Event) -> Shop:
    """The shop's state after one more committed event.

    Raises:
        UnknownEvent: the event's type or version is not known to this release.
    """
    if event.type == GENESIS:
        return shop
    data = decode(event)
    if isinstance(data, OF_NO_MACHINE):
        return of_no_machine(shop, data, event.seq)
    before = shop.machine(event.machine)
    after = known_here(_advance(before, event, data), event, data)
    if not isinstance(data, e.Addendum | e.ReportAmended | e.HandedOver):
        # By these no press meanwhile is stale: nothing to press on a screen moved on.
        after = changed(after, seq=event.seq)
    rings = {**shop.rings, **(_of_rings(data) if isinstance(data, e.Signed) else {})}
    return changed(shop, machines={**shop.machines, event.machine: after}, rings=rings)


def fold(events: Iterable[Event], shop: Shop | None = None) -> Shop:
    """The state after all of `events`, from an empty shop or `shop`."""
    return reduce(apply, events, shop or Shop())


def _advance(state: MachineState, event: Event, data: e.Data) -> MachineState:
    if isinstance(data, e.AuditOpened):
        return changed(state, job=opened(data, event.audit, event.stamp, event.seq))
    if isinstance(data, e.MadeSafe):
        return changed(state, unsafe=None)
    if isinstance(data, e.AnswerKept | e.ReportAmended):
        return state
    if isinstance(data, e.Addendum):
        return added(state, data, event)
    job = _open_job(state, event)
    if isinstance(data, e.Signed | e.Abandoned):
        return _close(state, job, event, data)
    paced = changed(state, pace=paced_by(state.pace, job, data, event.stamp))
    return changed(paced, job=evolve(job, data, event.seq, event.stamp))


def _of_rings(signed: e.Signed) -> Mapping[str, ByMark]:
    """What a signed audit leaves known of rings; one given up teaches nothing."""
    return {key: known for key, known in signed.known.items() if key != SPINDLE}


def opened(data: e.AuditOpened, audit: str, stamp: Stamp, seq: int = 0) -> Job:
    """The audit as it is when nothing was done yet."""
    return Job(
        id=audit,
        short=data.short,
        reason=data.reason,
        setup=data.setup,
        step=data.next.step,
        since=stamp,
        gauge=GaugeSeen(data.setup.machine.unit),
        check=data.check,
        head=HeadSeen().knowing(data.setup.learned),
        opened_at=seq,
    )


def _open_job(state: MachineState, event: Event) -> Job:
    if state.job is None or state.job.id != event.audit:
        row, on = str(event.seq), event.machine
        raise UnknownEvent(
            said("row-not-open", row=row, type=event.type, audit=event.audit, machine=on)
        )
    return state.job


def _close(
    state: MachineState, job: Job, event: Event, data: e.Signed | e.Abandoned
) -> MachineState:
    """What stays of an audit; practice leaves nothing but that a moved ram voids what was known.

    Of a check that is none of the head stays when it was signed, and as what.
    """
    swept = _swept(state, job, event, data)
    closed = changed(
        state, job=None, last=_closed(job, event, data), swept=swept, stated=_stirred(state, job)
    )
    if isinstance(data, e.Abandoned):
        closed = changed(closed, unsafe=data.unsafe)
    if not REASONS[job.reason].kept:
        return changed(closed, learned=None, rise=None) if job.head.ram_moved else closed
    if job.check is not None:
        return changed(closed, checked=_checked(state, job, event, data))
    gauge = job.setup.gauge.key
    visits = (*state.visits.get(gauge, ()), *job.gauge.visits)[-KEPT_VISITS:]
    # Void as the audit was opened, or since the ram was moved, it is known by a new reversal only.
    rise = None if job.setup.rise is None or job.head.ram_moved else state.rise
    visited = {**state.visits, gauge: visits}
    walked = [each.return_error_mm for each in job.sweeps.done if each.usable and each.returned]
    returns = {**state.returns, gauge: (*state.returns.get(gauge, ()), *walked)[-KEPT_RETURNS:]}
    closed = changed(closed, learned=job.head.learned, visits=visited, returns=returns, rise=rise)
    if isinstance(data, e.Abandoned):
        return closed
    closed = changed(closed, rise=data.known.get(SPINDLE, rise))
    entry = done(job.id, job.short, event.seq, event.stamp, job.reason, job.setup, data)
    return changed(
        closed,
        history=state.history.then(entry),
        stated=data.stated,
        reliability=state.reliability.then(data.borne_out),
    )


def _swept(
    state: MachineState, job: Job, event: Event, data: e.Signed | e.Abandoned
) -> Swept | None:
    """The head's last signed sweep; and after an audit without one, what may have moved it."""
    if isinstance(data, e.Signed) and data.as_left is not None:
        return _left(job, event, data, data.as_left)
    why = REASONS[job.reason]
    doubted = why.kept and looks_closer(job)
    since = why.stirs or ("moved" if _disturbed(job) else "doubted" if doubted else None)
    if state.swept is None or since is None:
        return state.swept
    return changed(state.swept, since=since)


def _disturbed(job: Job) -> bool:
    """Whether the head may stand otherwise than any signed sweep before this audit read it."""
    cracked = job.sweeps.disturbed or job.sweeps.loosened
    return cracked or job.head.ram_moved or bool(job.loose or maybe_loose(job))


def _stirred(state: MachineState, job: Job) -> Stated | None:
    """What was stated, after an audit that holds nothing against it but may have moved the head."""
    by = REASONS[job.reason].known or ("bolts" if _disturbed(job) else None)
    return None if state.stated is None else state.stated.stirred(by)


def _left(job: Job, event: Event, data: e.Signed, as_left: Both[AxisResult]) -> Swept:
    machine = job.setup.machine
    number = next(each.number for each in data.sweeps if each.as_left)
    return Swept(
        audit=job.id,
        short=job.short,
        seq=event.seq,
        day=day_of(event.stamp),
        diameter_mm=machine.diameter,
        as_left=as_left,
        rule=machine.verdict,
        sweep=next(each for each in job.sweeps.done if each.number == number),
        serial_number=job.setup.gauge.serial_number,
        seat=machine.seat,
        ram_angle=machine.ram_angle,
    )


def _checked(
    state: MachineState, job: Job, event: Event, data: e.Signed | e.Abandoned
) -> Mapping[str, Checked]:
    """The latest signature of each check that is none of the head."""
    if job.check is None or isinstance(data, e.Abandoned):
        return state.checked
    word, stamp = WORDS[data.verdict], event.stamp
    last = Checked(job.id, job.short, event.seq, stamp.utc_trusted, day_of(stamp), word)
    return {**state.checked, job.check.kind: last}


def _closed(job: Job, event: Event, data: e.Signed | e.Abandoned) -> Closed:
    return Closed(
        id=job.id,
        short=job.short,
        reason=job.reason,
        unit=job.gauge.unit,
        seq=event.seq,
        signed=data if isinstance(data, e.Signed) else None,
        setup=job.setup,
        check=job.check,
    )


def evolve(job: Job, data: e.Data, seq: int, stamp: Stamp) -> Job:
    """The open audit after one more event of its own."""
    if isinstance(data, e.Voided):
        return _restored(job, data, stamp)
    if isinstance(data, e.HandedOver):
        return handed_over(job, data, stamp)
    by_itself = _passes(data) or isinstance(data, e.GaugeNoted)
    after = _counted(_TOOK[type(data)].change(job, data), data)
    after = aged(job, changed(after, since=job.since if by_itself else stamp), data)
    return changed(
        after,
        told=told_to_crack(job, after, data),
        trail=_trail(job, data, seq),
        noticed=_noticed(job, data, seq, stamp),
    )


def _counted(job: Job, data: e.Data) -> Job:
    """One more reading taken, and one more of those that flickered."""
    reading = getattr(data, "reading", None)
    return changed(job, gauge=job.gauge.counting(reading)) if isinstance(reading, Reading) else job


def _restored(job: Job, data: e.Voided, stamp: Stamp) -> Job:
    """The audit as it was before what is taken back."""
    if job.noticed and job.noticed[-1][0] == data.voids:
        before = changed(job.noticed[-1][1], noticed=job.noticed[:-1])
    else:
        before = changed(job.trail[-1][1], trail=job.trail[:-1])
    # Taking a press back takes no arm out of the spindle, tightens nothing and calls nobody back.
    told = before.told | job.told
    return changed(before, since=stamp, arm_in=job.arm_in, told=told, handed=job.handed)


def _noticed(job: Job, data: e.Data, seq: int, stamp: Stamp) -> Trail:
    """What the service noticed by itself and a person may deny, newest last.

    What happens to the gauge meanwhile happens whichever is true.
    """
    if _passes(data):
        return tuple((seqs, evolve(job, data, seq, stamp)) for seqs, job in job.noticed)
    if not isinstance(data, e.Zeroed | e.GaugeNoted):
        return ()
    if job.zero_asked is not None and job.noticed:
        seqs, before = job.noticed[-1]
        return (*job.noticed[:-1], ((*seqs, seq), before))
    return (*job.noticed, ((seq,), changed(job, noticed=())))[-KEPT_NOTICES:]


def _passes(data: e.Data) -> bool:
    """Whether something happened to the gauge that leaves the audit where it is."""
    told = isinstance(data, e.GaugeNoted | e.GaugeBack) and data.next is None
    return told or isinstance(data, e.GaugeFault)


def _trail(job: Job, data: e.Data, seq: int) -> Trail:
    """What undo can take back, newest last; one command's events are taken back together.

    A finished sweep stays listed: another one needs a reason, so undo stops there.
    """
    if isinstance(data, e.GaugeFault):
        return job.trail
    if isinstance(data, e.GaugeNoted) and data.next is None:
        return job.trail
    if isinstance(data, e.Pushed) and not data.ok:
        return job.trail
    if isinstance(data, e.ResponseUpdated) and not job.trail:
        return ()
    if isinstance(data, e.CheckDone | e.ResponseUpdated) and job.trail:
        seqs, before = job.trail[-1]
        return (*job.trail[:-1], ((*seqs, seq), before))
    if not _TOOK[type(data)].undoable:
        return ()
    return (*job.trail, ((seq,), changed(job, trail=())))
