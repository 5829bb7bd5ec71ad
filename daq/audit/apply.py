"""The fold: apply(shop, event) copies what an event carries into the state. It computes nothing."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import reduce
from typing import Any

from daq.audit import events as e
from daq.audit.codec import UnknownEvent, decode
from daq.audit.parts import Next, Point
from daq.audit.state import Closed, Job, MachineState, Shop
from daq.words import Event, Position, Reading, Stamp

UNDOABLE = (e.FreeRead, e.ReadingTaken, e.CheckDone, e.Parked, e.Answered, e.Moved)
"""Steps that only read or answer; bolts that were turned cannot be un-turned."""

GENESIS = "LedgerBegan"
"""The ledger's own first row; nothing of a shop is in it."""

Change = dict[str, Any]
Trail = tuple[tuple[tuple[int, ...], Job], ...]


def apply(shop: Shop, event: Event) -> Shop:
    """The shop's state after one more committed event.

    Raises:
        UnknownEvent: the event's type or version is not known to this release.
    """
    if event.type == GENESIS:
        return shop
    data = decode(event)
    if isinstance(data, e.GaugeChecked):
        return replace(shop, gauges={**shop.gauges, data.gauge: data})
    before = shop.machine(event.machine)
    after = replace(_advance(before, event, data), seq=event.seq)
    return replace(shop, machines={**shop.machines, event.machine: after})


def fold(events: Iterable[Event], shop: Shop | None = None) -> Shop:
    """The state after all of `events`, from an empty shop or `shop`."""
    return reduce(apply, events, shop or Shop())


def _advance(state: MachineState, event: Event, data: e.Data) -> MachineState:
    if isinstance(data, e.AuditOpened):
        job = Job(
            id=event.audit,
            short=data.short,
            reason=data.reason,
            setup=data.setup,
            step="prepare",
            since=event.stamp,
            unit=data.setup.machine.unit,
        )
        return replace(state, job=job)
    job = _open_job(state, event)
    if isinstance(data, e.Signed | e.Abandoned):
        return replace(state, job=None, last=_closed(job, event, data))
    return replace(state, job=evolve(job, data, event.seq, event.stamp))


def _open_job(state: MachineState, event: Event) -> Job:
    if state.job is None or state.job.id != event.audit:
        raise UnknownEvent(
            f"ledger row {event.seq}: found {event.type} for audit {event.audit}, "
            f"which is not open on {event.machine}"
        )
    return state.job


def _closed(job: Job, event: Event, data: e.Signed | e.Abandoned) -> Closed:
    return Closed(
        id=job.id,
        short=job.short,
        reason=job.reason,
        unit=job.unit or job.setup.machine.unit,
        seq=event.seq,
        signed=data if isinstance(data, e.Signed) else None,
        setup=job.setup,
    )


def evolve(job: Job, data: e.Data, seq: int, stamp: Stamp) -> Job:
    """The open audit after one more event of its own."""
    if isinstance(data, e.Voided):
        before = job.trail[-1][1]
        return replace(before, since=stamp, trail=job.trail[:-1])
    change = _CHANGES[type(data)](job, data)
    after = replace(job, **{"since": stamp, **change})
    return replace(after, trail=_trail(job, data, seq))


def _trail(job: Job, data: e.Data, seq: int) -> Trail:
    """What undo can take back, newest last; one command's events are taken back together.

    A finished sweep stays listed: another one needs a reason, so undo stops there.
    """
    if isinstance(data, e.GaugeFault):
        return job.trail
    if isinstance(data, e.GaugeBack | e.GaugeNoted) and data.next is None:
        return job.trail
    if isinstance(data, e.Pushed) and not data.ok:
        return job.trail
    if not isinstance(data, UNDOABLE):
        return ()
    if isinstance(data, e.CheckDone) and job.trail:
        seqs, before = job.trail[-1]
        return (*job.trail[:-1], ((*seqs, seq), before))
    return (*job.trail, ((seq,), replace(job, trail=())))


def _next(to: Next, say: str = "", code: str = "") -> Change:
    return {"step": to.step, "axis": to.axis, "message": say, "message_code": code if say else ""}


NO_BASE: Change = {"base": None, "stop": None, "lost_face_mm": None, "question": None}


def _points(points: tuple[Point, ...]) -> dict[Position, float]:
    return {p.position: p.pushed_mm for p in points}


def _prepared(job: Job, data: e.Prepared) -> Change:
    return _next(Next("touch-free"))


def _free(job: Job, data: e.FreeRead) -> Change:
    change = {
        **_next(data.next, data.say, "touch"),
        "unit": data.unit,
        "free_pushed_mm": data.pushed_mm,
        "spread_mm": data.spread_mm,
        "known": _points(data.points),
        "resume": None,
    }
    return {**change, "taken": (), "shown": {}} if data.restart else change


def _pushed(job: Job, data: e.Pushed) -> Change:
    return _next(data.next, "" if data.ok else data.say, "touch")


def _touch(job: Job, data: e.TouchWanted) -> Change:
    return {**_next(data.next), "resume": data.resume}


def _reading(job: Job, data: e.ReadingTaken) -> Change:
    taken: tuple[Reading, ...] = (*job.taken, data.reading)
    shown = dict(job.shown) if job.step == "check" or job.taken else {}
    position = data.reading.position
    if position is not None:
        shown[position] = data.pushed_mm
    code = "preload" if data.say else ""
    return {"taken": taken, "shown": shown, "message": data.say, "message_code": code}


def _sweep(job: Job, data: e.SweepDone) -> Change:
    said = sorted(data.findings, key=lambda finding: not finding.blocking)[:1]
    say, code = (said[0].say, said[0].code) if said else ("", "")
    change = {
        **_next(data.next, say, code),
        **NO_BASE,
        "taken": (),
        "sweeps": (*job.sweeps, data),
    }
    if not data.usable:
        return {**change, "shown": {}}
    return {
        **change,
        "known": _points(data.points),
        "results": {"side": data.side, "nod": data.nod},
        "again_why": "",
        "slack_mm": {},
        "disturbed": False,
    }


def _parked(job: Job, data: e.Parked) -> Change:
    return {
        **_next(data.next, data.say, "preload"),
        "base": data.reading,
        "stop": data.stop,
        "question": data.question,
        "shown": {**job.shown, data.reading.position: data.pushed_mm},
    }


def _answered(job: Job, data: e.Answered) -> Change:
    return {
        **_next(data.next),
        "question": None,
        "sweeps": (*job.sweeps[:-1], data.sweep) if data.sweep is not None else job.sweeps,
        "free_pushed_mm": data.free_pushed_mm,
        "again_why": data.why,
        "known": _points(data.points),
        "shown": _points(data.points),
        "results": {"side": data.side, "nod": data.nod},
        "stop": data.stop,
        "base": job.base if data.stop is not None else None,
        "taken": (),
    }


def _zeroed(job: Job, data: e.Zeroed) -> Change:
    change = {
        **_next(data.next, data.say, "zeroed"),
        **NO_BASE,
        "base": job.base if data.lost_face_mm is not None else None,
        "lost_face_mm": data.lost_face_mm,
        "known": _points(data.points),
        "free_pushed_mm": data.free_pushed_mm,
        "resume": data.resume,
    }
    return {**change, "taken": (), "shown": {}} if data.restart else change


def _base(job: Job, data: e.BaseRead) -> Change:
    return {**_next(data.next), "base": data.reading, "stop": data.stop, "lost_face_mm": None}


def _loosened(job: Job, data: e.Loosened) -> Change:
    loose = job.loose | {data.axis}
    return {**_next(data.next), "loose": loose, "disturbed": True, "loosened": True}


def _moved(job: Job, data: e.Moved) -> Change:
    change = {**_next(data.next), **NO_BASE, "taken": (), "before_tightening": {}}
    return {**change, "moves": job.moves + 1}


def _check(job: Job, data: e.CheckDone) -> Change:
    before = data.before_tightening_mm
    return {
        **_next(data.next),
        "taken": (),
        "known": _points(data.points),
        "results": {"side": data.side, "nod": data.nod},
        "before_tightening": {} if before is None else {data.axis: before},
        "slack_mm": {"side": data.side_slack_mm, "nod": data.nod_slack_mm},
    }


def _tightened(job: Job, data: e.Tightened) -> Change:
    return {**_next(data.next), **NO_BASE, "loose": job.loose - {data.axis}, "taken": ()}


def _again(job: Job, data: e.SweepWanted) -> Change:
    return {**_next(data.next), **NO_BASE, "again_why": data.why, "taken": (), "shown": {}}


def _stop_here(job: Job, data: e.StopHere) -> Change:
    return {**_next(data.next), **NO_BASE, "finishing": True, "taken": ()}


def _cleared(job: Job, data: e.Cleared) -> Change:
    return _next(Next("sign"))


def _fault(job: Job, data: e.GaugeFault) -> Change:
    return {"since": job.since}


def _back(job: Job, data: e.GaugeBack) -> Change:
    if data.next is None:
        return {"since": job.since}
    return {**_next(data.next, data.say, "away"), **NO_BASE, "taken": ()}


def _noted(job: Job, data: e.GaugeNoted) -> Change:
    said = {"since": job.since, "message": data.say, "message_code": data.code}
    if data.unit is not None:
        said["unit"] = data.unit
    if data.next is None:
        return said
    return {**_next(data.next, data.say, data.code), **NO_BASE, "taken": ()}


_CHANGES: dict[type[e.Data], Callable[[Job, Any], Change]] = {
    e.Prepared: _prepared,
    e.FreeRead: _free,
    e.Pushed: _pushed,
    e.ReadingTaken: _reading,
    e.SweepDone: _sweep,
    e.Parked: _parked,
    e.Answered: _answered,
    e.Zeroed: _zeroed,
    e.BaseRead: _base,
    e.Loosened: _loosened,
    e.Moved: _moved,
    e.CheckDone: _check,
    e.Tightened: _tightened,
    e.SweepWanted: _again,
    e.Cleared: _cleared,
    e.GaugeFault: _fault,
    e.GaugeBack: _back,
    e.GaugeNoted: _noted,
    e.TouchWanted: _touch,
    e.StopHere: _stop_here,
}
