"""The ledger and the state it folds to, kept in step: commit first, then apply, then show."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from daq.audit import evidence
from daq.audit.apply import apply, fold
from daq.audit.decide import Input, Refused, decide
from daq.audit.decide.opening import audit_id
from daq.audit.events import encode
from daq.audit.state import Shop
from daq.audit.views import aim, console, wall
from daq.ledger.errors import NotRecorded
from daq.ledger.store import Ledger
from daq.service.clock import Clock
from daq.service.hub import Hub
from daq.words import Ack, Draft, Event, GaugeStatus, Snapshot

PROBE_NS = 2_000_000_000
"""How often the disk's room is looked at, so that a full disk shows before the next take."""


class Book:
    """The only writer. Everything here runs on the desk's thread."""

    def __init__(self, ledger: Ledger, hub: Hub, clock: Clock, engine: str) -> None:
        """Fold the whole ledger and show every machine."""
        self._ledger = ledger
        self._hub = hub
        self._clock = clock
        self._engine = engine
        self._statuses: dict[str, GaugeStatus] = {}
        self._recording: dict[str, Any] = {"ok": True, "say": ""}
        self._probed_ns = 0
        self.shop: Shop = fold(ledger.events())
        self.show_all()

    def earlier(self, command_id: str) -> tuple[int, ...]:
        """The sequence numbers a command led to before, if it was carried out already."""
        return tuple(event.seq for event in self._ledger.by_cause(command_id))

    def since(self, seq: int, machine: str) -> list[Event]:
        """A machine's events after `seq`."""
        return list(self._ledger.events(after=seq, machine=machine))

    def write(self, given: Input) -> Ack:
        """Decide, commit, apply, show: in that order, or not at all."""
        command = given.command
        chunk = evidence.encode(given.samples)
        digest = evidence.digest(chunk) if chunk else ""
        try:
            found = decide(self.shop, replace(given, evidence=digest, engine=self._engine))
        except Refused as refused:
            return Ack(command.id, False, (), "refused", str(refused))
        drafts = [self._draft(given, digest, *encode(data)) for data in found]
        try:
            events = self._ledger.append(drafts, [chunk] if chunk else [])
        except NotRecorded as error:
            self._record(False, f"NOT RECORDED: {error}")
            return Ack(command.id, False, (), "not-recorded", f"Not recorded: {error}")
        for event in events:
            self.shop = apply(self.shop, event)
        self._record(True, "")
        self.show(command.machine)
        return Ack(command.id, True, tuple(e.seq for e in events), "ok")

    def _draft(
        self, given: Input, digest: str, kind: str, version: int, data: Mapping[str, Any]
    ) -> Draft:
        command = given.command
        job = self.shop.machine(command.machine).job
        return Draft(
            type=kind,
            v=version,
            machine=command.machine,
            audit=job.id if job is not None else audit_id(command.id),
            stamp=self._clock.stamp(),
            actor=command.actor,
            cause={
                "id": command.id,
                "kind": command.kind,
                "payload": dict(command.payload),
                "window": [given.first_n, given.last_n],
            },
            data=data,
            evidence=(digest,) if digest else (),
        )

    def beat(self) -> None:
        """Show that the desk turns; every two seconds, whether the disk has room."""
        self._hub.beat()
        now = self._clock.mono_ns()
        if now - self._probed_ns < PROBE_NS:
            return
        self._probed_ns = now
        room = self._ledger.room()
        if not room:
            self._record(False, f"NOT RECORDED from now on: {room.say}")
        elif not self._recording["ok"]:
            self._record(True, "")

    def _record(self, ok: bool, say: str) -> None:
        if self._recording != {"ok": ok, "say": say}:
            self._recording = {"ok": ok, "say": say}
            self.show_all()

    def status(self, status: GaugeStatus) -> None:
        """A gauge's reader said how it is doing."""
        self._statuses[status.gauge] = status
        self._hub.on_status(status)
        self.show_all()

    def show_all(self) -> None:
        """Publish every machine."""
        for machine in self._hub.machines():
            self.show(machine.key)

    def show(self, machine: str) -> None:
        """Publish one machine's snapshot."""
        served = next((m for m in self._hub.machines() if m.key == machine), None)
        if served is None:
            return
        state = self.shop.machine(machine)
        faults = []
        status = self._statuses.get(served.gauge)
        if status is not None and status.code != "ok":
            faults.append({"code": status.code, "say": status.say})
        snapshot = Snapshot(
            machine=machine,
            seq=state.seq,
            head=self._ledger.head,
            pages={"wall": wall(state, served.say), "console": console(state, served.say)},
            faults=tuple(faults),
            recording=dict(self._recording),
        )
        self._hub.publish(snapshot, aim(state))

    def close(self) -> None:
        """Close the ledger."""
        self._ledger.close()
