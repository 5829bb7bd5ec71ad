"""What the service does between a press and its events, without port, ledger and screens."""

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from daq.audit.apply import apply
from daq.audit.codec import encode
from daq.audit.decide import Input, decide, wants
from daq.audit.decide.opening import audit_id
from daq.audit.events import Data
from daq.audit.setup import AuditSetup
from daq.audit.state import MachineState, Shop
from daq.audit.views import console
from daq.says import language
from daq.words import Command, Event, Sample, Stamp

from .shop import MACHINE, MM_AN_INCH

TODAY = "2026-06-01"
NOON_US = 1_780_315_200_000_000
LEDGER = "11111111-2222-4333-8444-555555555555"
SAMPLES = 3
_BETWEEN_NS = 20_000_000
_PRESS_NS = 8_000_000_000
"""From press to press: about as long as a swing takes."""


@dataclass(slots=True)
class Service:
    """One machine's audits, one after another; `shop` is what the house remembers of them."""

    files: AuditSetup
    shop: Shop = field(default_factory=Shop)
    ns: int = 1_000_000_000
    n: int = 0
    seq: int = 0

    def again(self, files: AuditSetup) -> "Service":
        """The same house with files that changed: what it remembers stays."""
        return replace(self, files=files)

    @property
    def machine(self) -> MachineState:
        """Where the machine stands."""
        return self.shop.machine(MACHINE)

    @property
    def view(self) -> Mapping[str, Any]:
        """What the console shows."""
        return language().told(console(self.machine, "Mill"))

    def wants(self, command: Command) -> str:
        """Which samples the decision needs: nothing, settled or history."""
        return wants(self.shop, command).kind

    def command(self, kind: str, payload: Mapping[str, Any]) -> Command:
        """A press; its id follows from what came before, so that a run can be repeated."""
        identity = str(uuid.uuid5(uuid.UUID(LEDGER), f"{self.seq} {kind}"))
        return Command(identity, MACHINE, kind, payload)

    def decide(self, command: Command, face_mm: tuple[float, ...]) -> tuple[Data, ...]:
        """Decide with what the gauge showed, and commit what follows."""
        self.ns += _PRESS_NS
        arrived = self.ns
        samples = tuple(self._sample(value) for value in face_mm)
        given = Input(
            command=command,
            arrived_ns=arrived,
            samples=samples,
            first_n=samples[0].n if samples else 0,
            last_n=samples[-1].n if samples else 0,
            today=TODAY,
            setup=self.machine.started(self.files) if command.kind == "open" else None,
        )
        found = decide(self.shop, given)
        for data in found:
            self._commit(data, command)
        return found

    def _sample(self, face_mm: float) -> Sample:
        self.n += 1
        self.ns += _BETWEEN_NS
        unit = self.files.machine.unit
        text = f"{face_mm:+.3f}" if unit == "mm" else f"{face_mm / MM_AN_INCH:+.4f}"
        return Sample("arm", "run-1", self.n, self.ns, text, unit, face_mm, (), text.encode())

    def _commit(self, data: Data, command: Command) -> None:
        kind, version, plain = encode(data)
        job = self.machine.job
        self.seq += 1
        event = Event(
            LEDGER,
            self.seq,
            kind,
            version,
            MACHINE,
            job.id if job else audit_id(command.id),
            Stamp(self.ns, NOON_US + self.ns // 1000, "boot", True),
            command.actor,
            {"id": command.id, "kind": command.kind, "payload": dict(command.payload)},
            plain,
            (),
        )
        self.shop = apply(self.shop, event)
