"""The ledger and the state it folds to, kept in step: commit first, then apply, then show."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from daq.audit import evidence
from daq.audit.apply import apply
from daq.audit.codec import encode
from daq.audit.decide import Input, Refused, decide
from daq.audit.decide.opening import audit_id
from daq.audit.recompute import day_of
from daq.audit.state import Shop
from daq.audit.views import aim, console, wall
from daq.gauges.config import GaugeConfig
from daq.ledger.errors import NotRecorded
from daq.ledger.store import Ledger
from daq.service import fitness
from daq.service.clock import Clock
from daq.service.hub import Hub
from daq.words import Ack, Command, Draft, Event, GaugeStatus, Snapshot, Stamp

PROBE_NS = 2_000_000_000
"""How often the disk's room is looked at, so that a full disk shows before the next take."""

BARE_BYTES = 2 * 1024 * 1024
"""What one command with the most evidence a gauge's ring can hold may take on the disk."""


class Book:
    """The only writer. Everything here runs on the desk's thread."""

    def __init__(
        self,
        ledger: Ledger,
        shop: Shop,
        hub: Hub,
        clock: Clock,
        engine: str,
        readable: Mapping[str, GaugeConfig],
    ) -> None:
        """Show every machine; `shop` is what the ledger's events fold to.

        `readable`: the gauges that have a reader.
        """
        self._readable = readable
        self._ledger = ledger
        self._hub = hub
        self._clock = clock
        self._engine = engine
        self._statuses: dict[str, GaugeStatus] = {}
        self._recording: dict[str, Any] = {"ok": True, "say": ""}
        self._probed_ns = 0
        self._today = fitness.day(clock.stamp())
        self.shop = shop
        self.show_all()

    def earlier(self, command: Command) -> Ack | None:
        """The answer a command was given before, if its id led to events already."""
        events = self._ledger.by_cause(command.id)
        if not events:
            return None
        first = events[0]
        same = (first.machine, first.cause["kind"], first.cause["payload"])
        if same != (command.machine, command.kind, dict(command.payload)):
            why = f"Command id {command.id} was used before, for something else."
            return Ack(command.id, False, (), "refused", why)
        return Ack(command.id, True, tuple(event.seq for event in events), "ok")

    def since(self, seq: int, machine: str) -> list[Event]:
        """A machine's events after `seq`."""
        return list(self._ledger.events(after=seq, machine=machine))

    def write(self, given: Input, missed: bool) -> Ack:
        """Decide, commit, apply, show: in that order, or not at all.

        `missed`: samples that belong to the evidence are no longer there.
        """
        command = given.command
        chunk = evidence.encode(given.samples)
        digest = evidence.digest(chunk) if chunk else ""
        stamp = self._clock.stamp()
        try:
            found = decide(self.shop, replace(given, evidence=digest, today=day_of(stamp)))
        except Refused as refused:
            return Ack(command.id, False, (), "refused", str(refused))
        cause = self._cause(given, missed)
        drafts = [self._draft(command, stamp, cause, digest, *encode(data)) for data in found]
        try:
            events = self._ledger.append(drafts, [chunk] if chunk else [])
        except NotRecorded as error:
            self._record(False, f"NOT RECORDED: {error}")
            return Ack(command.id, False, (), "not-recorded", f"Not recorded: {error}")
        except (RecursionError, TypeError, ValueError) as error:  # such as half a character
            return Ack(command.id, False, (), "refused", f"This cannot be written down: {error}")
        for event in events:
            self.shop = apply(self.shop, event)
        self._look_at_disk()
        self.show(command.machine)
        return Ack(command.id, True, tuple(e.seq for e in events), "ok")

    def _cause(self, given: Input, missed: bool) -> Mapping[str, Any]:
        """The whole input, so that the decision can be made again from the record."""
        return {
            "id": given.command.id,
            "kind": given.command.kind,
            "payload": dict(given.command.payload),
            "arrived_ns": given.arrived_ns,
            "window": [given.first_n, given.last_n],
            "second_window": list(given.second_n) if given.second_n else None,
            "missed": missed,
            "engine": self._engine,
        }

    def _draft(
        self,
        command: Command,
        stamp: Stamp,
        cause: Mapping[str, Any],
        digest: str,
        kind: str,
        version: int,
        data: Mapping[str, Any],
    ) -> Draft:
        job = self.shop.machine(command.machine).job
        return Draft(
            type=kind,
            v=version,
            machine=command.machine,
            audit=job.id if job is not None else audit_id(command.id),
            stamp=stamp,
            actor=command.actor,
            cause=cause,
            data=data,
            evidence=(digest,) if digest else (),
        )

    def beat(self) -> None:
        """Show that the desk turns; every two seconds, whether the disk has room."""
        self._hub.beat()
        now = self._clock.mono_ns()
        if now - self._probed_ns < PROBE_NS:
            return
        self._look_at_disk()
        today = fitness.day(self._clock.stamp())
        if today != self._today:  # a calibration may have run out overnight
            self._today = today
            self.show_all()

    def _look_at_disk(self) -> None:
        self._probed_ns = self._clock.mono_ns()
        bare, room = self._ledger.room(BARE_BYTES), self._ledger.room()
        if not bare:
            self._record(False, f"NOT RECORDED from now on: {bare.say}")
        elif not room:
            self._record(False, f"The disk is nearly full: {room.say}")
        else:
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
        gauge = state.job.setup.gauge.key if state.job is not None else served.gauge
        faults = self._faults(gauge)
        if state.job is not None and state.job.setup.second_gauge is not None:
            second = self._faults(state.job.setup.second_gauge.key)
            faults += tuple({**fault, "kind": "warning"} for fault in second)
        snapshot = Snapshot(
            machine=machine,
            seq=state.seq,
            head=self._ledger.head,
            pages={"wall": wall(state, served.say), "console": console(state, served.say)},
            faults=faults,
            recording=dict(self._recording),
        )
        self._hub.publish(snapshot, aim(state), gauge)

    def _faults(self, gauge: str) -> tuple[Mapping[str, str], ...]:
        status = self._statuses.get(gauge)
        if gauge not in self._readable:
            say = f"The gauge {gauge!r} is in no file of this shop: nothing reads it."
            return ({"code": "no-file", "say": say},)
        check = self.shop.gauges.get(gauge)
        known = fitness.warnings(self._readable[gauge], check, *self._today)
        if status is None:
            return known
        known = (*known, *(fitness.warning("gauge", say) for say in status.warnings))
        return known if status.code == "ok" else ({"code": status.code, "say": status.say}, *known)

    def close(self) -> None:
        """Close the ledger."""
        self._ledger.close()
