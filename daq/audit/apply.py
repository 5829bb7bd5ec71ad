"""The fold: apply(shop, event) copies what an event carries into the state. It computes nothing."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import reduce
from typing import Any

from daq.audit import events as e
from daq.audit.parts import Next, Point
from daq.audit.state import Closed, Job, MachineState, Shop
from daq.words import Event, Position, Reading, Stamp

UNDOABLE = (e.FreeRead, e.ReadingTaken, e.SweepDone, e.CheckDone, e.Parked, e.Answered, e.Moved)
"""Steps that only read or answer; bolts that were turned cannot be un-turned."""

Change = dict[str, Any]


def apply(shop: Shop, event: Event) -> Shop:
    """The shop's state after one more committed event.

    Raises:
        UnknownEvent: the event's type or version is not known to this release.
    """
    if not event.machine:
        return shop
    data = e.decode(event)
    before = shop.machine(event.machine)
    after = replace(_advance(before, event, data), seq=event.seq)
    return Shop({**shop.machines, event.machine: after})


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
    return replace(state, job=evolve(job, data, event.seq, event.stamp, _cause(event)))


def _open_job(state: MachineState, event: Event) -> Job:
    if state.job is None or state.job.id != event.audit:
        raise e.UnknownEvent(
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


def _cause(event: Event) -> str:
    return str(event.cause.get("id", ""))


def evolve(job: Job, data: e.Data, seq: int, stamp: Stamp, cause: str) -> Job:
    """The open audit after one more event of its own."""
    if isinstance(data, e.Voided):
        before = job.trail[-1][1]
        return replace(before, since=stamp, trail=job.trail[:-1])
    change = _CHANGES[type(data)](job, data)
    after = replace(job, **{"since": stamp, **change})
    return replace(after, trail=_trail(job, data, seq, cause))


def _trail(job: Job, data: e.Data, seq: int, cause: str) -> tuple[Any, ...]:
    """What undo can take back, newest last; one command's events are taken back together."""
    if isinstance(data, e.GaugeFault | e.GaugeBack):
        return job.trail
    if not isinstance(data, UNDOABLE):
        return ()
    if isinstance(data, e.SweepDone | e.CheckDone) and job.trail:
        seqs, before = job.trail[-1]
        return (*job.trail[:-1], ((*seqs, seq), before))
    return (*job.trail, ((seq,), replace(job, trail=())))


def _next(to: Next) -> Change:
    return {"step": to.step, "axis": to.axis, "message": "", "message_code": ""}


def _points(points: tuple[Point, ...]) -> dict[Position, float]:
    return {p.position: p.pushed_mm for p in points}


def _prepared(job: Job, data: e.Prepared) -> Change:
    return _next(Next("touch-free"))


def _free(job: Job, data: e.FreeRead) -> Change:
    return {
        **_next(Next("touch-push")),
        "unit": data.unit,
        "free_pushed_mm": data.pushed_mm,
        "spread_mm": data.spread_mm,
    }


def _pushed(job: Job, data: e.Pushed) -> Change:
    if data.ok:
        return _next(Next("as-found"))
    return {"message": data.say, "message_code": "touch"}


def _reading(job: Job, data: e.ReadingTaken) -> Change:
    taken: tuple[Reading, ...] = (*job.taken, data.reading)
    code = "preload" if data.say else ""
    shown = dict(job.shown) if job.step == "check" or job.taken else {}
    position = data.reading.position
    if position is not None:
        shown[position] = data.pushed_mm
    return {"taken": taken, "shown": shown, "message": data.say, "message_code": code}


def _sweep(job: Job, data: e.SweepDone) -> Change:
    if not data.usable:
        blocking = next(f for f in data.findings if f.blocking)
        return {
            **_next(data.next),
            "taken": (),
            "shown": {},
            "sweeps": (*job.sweeps, data),
            "message": blocking.say,
            "message_code": blocking.code,
        }
    notes = [f for f in data.findings if not f.blocking]
    return {
        **_next(data.next),
        "taken": (),
        "known": _points(data.points),
        "results": {"side": data.side, "nod": data.nod},
        "sweeps": (*job.sweeps, data),
        "again_why": "",
        "slack_mm": {},
        "message": notes[0].say if notes else "",
        "message_code": notes[0].code if notes else "",
    }


def _parked(job: Job, data: e.Parked) -> Change:
    return {
        **_next(data.next),
        "base": data.reading,
        "stop": data.stop,
        "question": data.question,
        "shown": {**job.shown, data.reading.position: data.pushed_mm},
    }


def _answered(job: Job, data: e.Answered) -> Change:
    sweeps = job.sweeps
    if data.key == "other-way":
        relabelled = replace(sweeps[-1], points=data.points, side=data.side, nod=data.nod)
        sweeps = (*sweeps[:-1], relabelled)
    return {
        **_next(data.next),
        "question": None,
        "sweeps": sweeps,
        "known": _points(data.points),
        "shown": _points(data.points),
        "results": {"side": data.side, "nod": data.nod},
        "stop": data.stop,
        "base": job.base if data.stop is not None else None,
        "taken": (),
    }


def _zeroed(job: Job, data: e.Zeroed) -> Change:
    return {
        **_next(data.next),
        "message": data.say,
        "message_code": "zeroed",
        "known": _points(data.points),
        "shown": _points(data.points) if job.known else {},
        "taken": (),
        "stop": None,
        "question": None,
        "free_pushed_mm": data.free_pushed_mm,
        "lost_face_mm": _lost(job, data),
    }


def _lost(job: Job, data: e.Zeroed) -> float | None:
    """The value a stop-at is carried over from; the first of several zeros in a row counts."""
    if job.base is None or job.question is not None:
        return None
    return data.before_face_mm if job.lost_face_mm is None else job.lost_face_mm


def _base(job: Job, data: e.BaseRead) -> Change:
    return {
        **_next(data.next),
        "base": data.reading,
        "stop": data.stop,
        "lost_face_mm": None,
    }


def _loosened(job: Job, data: e.Loosened) -> Change:
    return {**_next(data.next), "loose": job.loose | {data.axis}}


def _moved(job: Job, data: e.Moved) -> Change:
    return {**_next(data.next), "moves": job.moves + 1, "stop": None, "base": None, "taken": ()}


def _check(job: Job, data: e.CheckDone) -> Change:
    loose = data.axis in job.loose
    result = data.side if data.axis == "side" else data.nod
    return {
        **_next(data.next),
        "taken": (),
        "known": _points(data.points),
        "results": {"side": data.side, "nod": data.nod},
        "before_tightening": {data.axis: result.d_mm} if loose else {},
        "slack_mm": {"side": data.side_slack_mm, "nod": data.nod_slack_mm},
    }


def _tightened(job: Job, data: e.Tightened) -> Change:
    return {**_next(data.next), "loose": job.loose - {data.axis}, "taken": ()}


def _again(job: Job, data: e.SweepWanted) -> Change:
    return {**_next(data.next), "again_why": data.why, "taken": (), "shown": {}, "cleared": False}


def _cleared(job: Job, data: e.Cleared) -> Change:
    return {**_next(Next("sign")), "cleared": True}


def _fault(job: Job, data: e.GaugeFault) -> Change:
    return {"since": job.since}


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
    e.GaugeBack: _fault,
}
