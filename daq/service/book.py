"""The ledger and the state it folds to, kept in step: commit first, then apply, then show."""

from collections.abc import Mapping
from dataclasses import replace
from functools import reduce
from typing import Any

from daq.audit import evidence
from daq.audit.apply import apply, evolve
from daq.audit.codec import encode
from daq.audit.decide import Input, Refused, decide
from daq.audit.decide.opening import audit_id
from daq.audit.recompute import day_of
from daq.audit.state import MachineState, Shop
from daq.audit.views import Pages, aim, console, wall
from daq.audit.views.told import told
from daq.gauges.config import GaugeConfig
from daq.ledger.errors import NotRecorded
from daq.ledger.store import Ledger
from daq.says import language
from daq.service import fitness
from daq.service.clock import Clock
from daq.service.hub import Hub
from daq.words import Ack, Command, Draft, GaugeStatus, Snapshot, Stamp

PROBE_NS = 2_000_000_000
"""How often the disk is looked at, so that a full one shows before the next take."""

BARE_BYTES = 2 * 1024 * 1024
"""What one command with the most evidence a gauge's ring can hold may take on the disk."""

TOLD = 5
"""How many of the changes since a screen was drawn are named."""

COUNTED = 100
"""How many are counted: a screen so far behind is not brought up to date by reading a list."""


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
        self._doubted = False
        self._probed_ns = 0
        self._today = fitness.day(clock.stamp())
        self._presumed: dict[str, Input] = {}
        self.shop = shop
        self.show_all()

    def earlier(self, command: Command) -> Ack | None:
        """The answer a command was given before, if its id led to events already.

        Raises:
            LedgerError: the record cannot be asked; then nothing may be acknowledged.
        """
        try:
            self._ledger.require_in_place()
        except NotRecorded as error:
            self._doubt(f"NOT RECORDED: {error}")
            raise
        events = self._ledger.by_cause(command.id)
        if not events:
            return None
        first = events[0]
        same = (first.machine, first.cause["kind"], first.cause["payload"])
        if same != (command.machine, command.kind, dict(command.payload)):
            why = f"Command id {command.id} was used before, for something else."
            return Ack(command.id, False, (), "refused", why)
        return Ack(command.id, True, tuple(event.seq for event in events), "ok")

    def changed(self, seq: int, machine: str) -> tuple[str, ...]:
        """What came of a machine after `seq`, in words: the last few, and how many before them.

        It costs the same however long ago that was: the desk has others to answer.
        """
        last = tuple(
            language().words(told(event)) for event in self._ledger.latest(machine, seq, TOLD)
        )
        more = self._ledger.count(machine, seq, COUNTED) - len(last)
        if not more:
            return last
        many = f"{more} or more" if more + len(last) == COUNTED else str(more)
        return (f"{many} step{'s' * (more > 1)} before the last {len(last)}", *last)

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
            return Ack(command.id, False, (), "refused", language().words(refused.said))
        cause = self._cause(given, missed)
        drafts = [self._draft(command, stamp, cause, digest, *encode(data)) for data in found]
        try:
            events = self._ledger.append(drafts, [chunk] if chunk else [])
        except NotRecorded as error:
            self._doubt(f"NOT RECORDED: {error}")
            return Ack(command.id, False, (), "not-recorded", f"Not recorded: {error}")
        except (RecursionError, TypeError, ValueError) as error:  # such as half a character
            return Ack(command.id, False, (), "refused", f"This cannot be written down: {error}")
        self._presumed.pop(command.machine, None)
        for event in events:
            self.shop = apply(self.shop, event)
        self._doubted = False
        self._look_at_disk()
        self.show(command.machine)
        return Ack(command.id, True, tuple(e.seq for e in events), "ok")

    def presume(self, given: Input) -> None:
        """Show a machine as it will stand after this input, until a write comes through."""
        self._presumed[given.command.machine] = given
        self.show(given.command.machine)

    def _shown(self, machine: str) -> MachineState:
        state = self.shop.machine(machine)
        given = self._presumed.get(machine)
        if given is None or state.job is None:
            return state
        try:
            found = decide(self.shop, given)
        except Refused:
            return state
        stamp = self._clock.stamp()
        job = reduce(lambda job, data: evolve(job, data, state.seq, stamp), found, state.job)
        return replace(state, job=job)

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
        state = self.shop.machine(command.machine)
        audit = state.job.id if state.job is not None else audit_id(command.id)
        if command.kind == "made-safe" and state.last is not None:
            audit = state.last.id
        return Draft(
            type=kind,
            v=version,
            machine=command.machine,
            audit=audit,
            stamp=stamp,
            actor=command.actor,
            cause=cause,
            data=data,
            evidence=(digest,) if digest else (),
        )

    def beat(self) -> None:
        """Show that the desk turns; every two seconds, how the disk is doing."""
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
        """Say what is wrong with the disk. What was once in doubt only a commit makes good:
        a disk that fails has room, too."""
        self._probed_ns = self._clock.mono_ns()
        bare, room = self._ledger.room(BARE_BYTES), self._ledger.room()
        if not bare:
            self._doubt(f"NOT RECORDED from now on: {bare.say}")
            return
        try:
            self._ledger.require_in_place()
            if self._doubted:
                self._ledger.probe()
        except NotRecorded as error:
            self._doubt(f"NOT RECORDED: {error}")
            return
        self._doubted = False
        self._record(bool(room), "" if room else f"The disk is nearly full: {room.say}")

    def _doubt(self, say: str) -> None:
        self._doubted = True
        self._record(False, say)

    def _record(self, ok: bool, say: str) -> None:
        if self._recording != {"ok": ok, "say": say}:
            self._recording = {"ok": ok, "say": say}
            self.show_all()

    def status(self, status: GaugeStatus) -> None:
        """A gauge's reader said how it is doing."""
        self._statuses[status.gauge] = status
        self.show_all()

    def stands_still(self, status: GaugeStatus) -> None:
        """A reader stands still, or goes on again: it cannot tell the hub of that itself."""
        self._hub.on_status(status)

    def show_all(self) -> None:
        """Publish every machine."""
        for machine in self._hub.machines():
            self.show(machine.key)

    def show(self, machine: str) -> None:
        """Publish one machine's snapshot."""
        served = next((m for m in self._hub.machines() if m.key == machine), None)
        if served is None:
            return
        state = self._shown(machine)
        gauge = state.job.setup.gauge.key if state.job is not None else served.gauge
        faults = self._faults(gauge)
        if state.job is not None and state.job.setup.second_gauge is not None:
            second = self._faults(state.job.setup.second_gauge.key)
            faults += tuple({**fault, "kind": "warning"} for fault in second)
        words = language()
        snapshot = Snapshot(
            machine=machine,
            seq=state.seq,
            head=self._ledger.head,
            pages=words.told(Pages(wall(state, served.say), console(state, served.say))),
            faults=faults,
            recording=dict(self._recording),
        )
        self._hub.publish(snapshot, aim(state), gauge)

    def _faults(self, gauge: str) -> tuple[Mapping[str, Any], ...]:
        status = self._statuses.get(gauge)
        if gauge not in self._readable:
            say = f"The gauge {gauge!r} is in no file of this shop: nothing reads it."
            return ({"code": "no-file", "say": say},)
        check = self.shop.gauges.get(gauge)
        known = fitness.warnings(self._readable[gauge], check, *self._today)
        if status is None:
            return known
        known = (*known, *(fitness.warning("gauge", say) for say in status.warnings))
        if status.code == "ok":
            return known
        run, n = self._hub.lost(gauge) or ("", 0)
        return ({"code": status.code, "say": status.say, "run": run, "n": n}, *known)

    def close(self) -> None:
        """Close the ledger."""
        self._ledger.close()
