"""One whole audit, press by press through the product's decisions, as the ledger would keep it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from heads import population
from heads.cells import PLAIN
from heads.mill import Mill
from heads.rider import Rider
from heads.service import NOON_US, TODAY, Service
from heads.shop import Files, setup
from past import Past

from daq.audit import evidence
from daq.audit.apply import apply
from daq.audit.codec import encode
from daq.audit.decide import Input, decide, wants
from daq.audit.decide.opening import audit_id
from daq.audit.events import Data
from daq.words import Command, Event, Stamp

MACHINE = "practice-mill"
"""The audit is put under a machine that the shipped files have."""

WINDOW = 25
"""Samples of a settled reading at 50 Hz."""

PRESS_NS = 8_000_000_000
"""From press to press."""

TURNING = 6000
"""Samples since the last step where a hand turns something, at 50 Hz: two moves of two minutes, as
eight of half a minute would leave."""


@dataclass(slots=True)
class Recorded(Service):
    """Keeps what it commits; `window` and `turning`: how many samples a decision is given."""

    window: int = WINDOW
    turning: int = TURNING
    events: list[Event] = field(default_factory=list)
    chunks: dict[str, bytes] = field(default_factory=dict)

    def decide(self, command: Command, face_mm: tuple[float, ...]) -> tuple[Data, ...]:
        """Decide, as the service does, and keep events and evidence."""
        want = wants(self.shop, command)
        long = want.kind == "history" or want.whole
        self.ns += PRESS_NS
        arrived = self.ns
        each = max(1, (self.turning if long else self.window) // max(1, len(face_mm)))
        samples = tuple(self._sample(value) for value in face_mm for _ in range(each))
        chunk = evidence.encode(samples)
        digest = evidence.digest(chunk) if chunk else ""
        given = Input(
            command=command,
            arrived_ns=arrived,
            samples=samples,
            first_n=samples[-min(self.window, len(samples))].n if samples else 0,
            last_n=samples[-1].n if samples else 0,
            evidence=digest,
            today=TODAY,
            setup=self.files if command.kind == "open" else None,
        )
        found = decide(self.shop, given)
        if chunk:
            self.chunks[digest] = chunk
        for data in found:
            self._keep(data, given)
        return found

    def _keep(self, data: Data, given: Input) -> None:
        kind, version, plain = encode(data)
        command, job = given.command, self.machine.job
        self.seq += 1
        event = Event(
            "",
            self.seq,
            kind,
            version,
            command.machine,
            job.id if job else audit_id(command.id),
            Stamp(self.ns, NOON_US + self.ns // 1000, "boot", True),
            "console",
            _cause(given),
            plain,
            (given.evidence,) if given.evidence else (),
        )
        self.shop = apply(self.shop, event)
        self.events.append(event)


def _cause(given: Input) -> Mapping[str, Any]:
    return {
        "id": given.command.id,
        "kind": given.command.kind,
        "payload": dict(given.command.payload),
        "arrived_ns": given.arrived_ns,
        "window": [given.first_n, given.last_n],
        "second_window": None,
        "missed": False,
        "engine": "0.0.0",
    }


def one_audit(window: int = WINDOW, turning: int = TURNING) -> Past:
    """A first audit of a head, signed."""
    visit = population.visit(1, 3, 0)
    service = Recorded(setup(Files(limit_mm=0.01), visit.radius_mm), window=window, turning=turning)
    outcome = Rider(Mill(population.head(1, 3), PLAIN, visit), service).ride()
    if outcome.lost:
        raise RuntimeError(outcome.lost)
    events = [replace(event, machine=MACHINE) for event in service.events]
    return Past(events, service.chunks)
