"""What the screens show of each machine, drawn anew when something of it changed."""

from collections.abc import Mapping
from dataclasses import fields, replace
from functools import reduce
from typing import Any

from daq.audit.aim import aim
from daq.audit.apply import evolve
from daq.audit.engine import decide
from daq.audit.facts import shown_face
from daq.audit.input import Input, Refused
from daq.audit.state import MachineState, Shop
from daq.audit.views.shapes import Console
from daq.gauges.config import GaugeConfig
from daq.screens import WallView, console
from daq.service import fitness
from daq.service.clock import Clock
from daq.service.committed import Committed
from daq.service.hub import Hub
from daq.service.people import People
from daq.service.proof import Proven
from daq.words import GaugeStatus, Said, Snapshot, said

DATED = ("idle", "signed", "unsafe", "sign")
"""Where something is due, or a date is about to be signed."""

_OF_WALL = tuple(each.name for each in fields(WallView))


class Screens:
    """Follows the ledger; is told besides how gauges and calendar are doing, on one thread."""

    def __init__(
        self,
        hub: Hub,
        shop: Shop,
        head: str,
        clock: Clock,
        readable: Mapping[str, GaugeConfig],
        proof: Proven,
        people: People,
    ) -> None:
        """Show every machine; `shop` is what the ledger's events fold to, `head` its last hash.

        `readable`: the gauges that have a reader. `proof`: what is known of the record.
        `people`: whom it names.
        """
        self._people = people
        self._proof = proof
        self._proving: Said | None = None
        self.date_say: Said | None = None
        """What people are to know of the clock, before the next turn."""
        self._dated: Said | None = None
        self._hub = hub
        self._shop = shop
        self._head = head
        self._clock = clock
        self._readable = readable
        self._statuses: dict[str, GaugeStatus] = {}
        self._presumed: dict[str, Input] = {}
        self._today = fitness.day(clock.stamp())
        self._show_all()

    def committed(self, what: Committed) -> None:
        """Show what it touched."""
        self._shop, self._head = what.after, what.head
        for machine in what.machines:
            self._presumed.pop(machine, None)
            self._show(machine)
            self._hub.tell(machine, "taken", self._taken(what, machine))
        if "" in what.machines:  # a gauge's check, or the clock's: it may bear on any audit
            self._show_all()

    def _taken(self, what: Committed, machine: str) -> Said | None:
        """What was read by a press of this machine, as its gauge's face showed it."""
        job = self._shop.machine(machine).job
        read = [event.data.get("reading") for event in what.events if event.machine == machine]
        faces = [each["mean_mm"] for each in read if isinstance(each, Mapping)]
        return said("was-taken", value=shown_face(job, faces[-1])) if faces and job else None

    def presume(self, given: Input) -> None:
        """Show a machine as it will stand after this input, until a commit touches it."""
        self._presumed[given.command.machine] = given
        self._show(given.command.machine)

    def status(self, status: GaugeStatus) -> None:
        """A gauge's reader said how it is doing."""
        self._statuses[status.gauge] = status
        for machine in self._hub.machines():
            if status.gauge in self._gauges(machine.key, machine.gauge):
                self._show(machine.key)

    def stands_still(self, status: GaugeStatus) -> None:
        """A reader stands still, or goes on again: it cannot tell the hub of that itself."""
        self._hub.on_status(status)
        self.status(status)

    def turn(self) -> None:
        """Whoever decides turns; gauges fall due overnight, and the record is proven."""
        self._hub.beat()
        now = (fitness.day(self._clock.stamp()), self._proof.say, self.date_say)
        if now != (self._today, self._proving, self._dated):
            self._today, self._proving, self._dated = now
            self._show_all()

    def _show_all(self) -> None:
        for machine in self._hub.machines():
            self._show(machine.key)

    def _gauges(self, machine: str, own: str) -> tuple[str, ...]:
        """The gauges of its open audit, or the one in its file: the first is shown live."""
        job = self._shop.machine(machine).job
        return (own,) if job is None else tuple(gauge.key for gauge in job.setup.gauges)

    def _show(self, machine: str) -> None:
        served = next((m for m in self._hub.machines() if m.key == machine), None)
        if served is None:
            return
        state = self._state(machine)
        shut = served.amiss if state.job is None else None
        gauge, *second = self._gauges(machine, served.gauge)
        faults = self._faults(gauge) if shut is None else ({"code": "file-amiss", "say": shut},)
        for other in second:
            faults += tuple({**fault, "kind": "warning"} for fault in self._faults(other))
        if self._proving:
            faults += (fitness.warning("record", self._proving),)
        drawn = self._dated_foot(console(state, served.say, served.offers))
        if shut is not None and state.unsafe is None:
            drawn = replace(drawn, actions=())
        # The console shows what the wall does, and more: it is made once.
        page = WallView(**{each: getattr(drawn, each) for each in _OF_WALL})
        pages = {"wall": page, "console": drawn}
        recording = self._hub.recording
        snapshot = Snapshot(machine, state.seq, self._head, pages, faults, recording)
        self._hub.people = self._people.names
        self._hub.publish(snapshot, aim(state), gauge)

    def _dated_foot(self, drawn: Console) -> Console:
        """With what there is to say of the clock, where a date matters or it has just been set."""
        if self._dated is None:
            return drawn
        if self._dated.code == "clock-unsure" and drawn.step not in DATED:
            return drawn
        return replace(drawn, cautions=(*drawn.cautions, self._dated))

    def _state(self, machine: str) -> MachineState:
        state = self._shop.machine(machine)
        given = self._presumed.get(machine)
        if given is None or state.job is None:
            return state
        try:
            found = decide(self._shop, given)
        except Refused:
            return state
        stamp = self._clock.stamp()
        job = reduce(lambda job, data: evolve(job, data, state.seq, stamp), found, state.job)
        return replace(state, job=job)

    def _faults(self, gauge: str) -> tuple[Mapping[str, Any], ...]:
        status = self._statuses.get(gauge)
        if gauge not in self._readable:
            return ({"code": "no-file", "say": said("gauge-in-no-file", gauge=gauge)},)
        check = self._shop.gauges.get(gauge)
        known = fitness.warnings(self._readable[gauge], check, *self._today)
        if status is None:
            return known
        known = (*known, *(fitness.warning("gauge", say) for say in status.warnings))
        if status.code == "ok":
            return known
        run, n = self._hub.lost(gauge) or ("", 0)
        return ({"code": status.code, "say": status.say or "", "run": run, "n": n}, *known)
