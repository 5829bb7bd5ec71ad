"""One machine's audits decided in memory: what the service does from a press to its events.

No port, no ledger, no screen: for measurements, for tests, and for whoever wants to see what
the decisions make of a head of their own.
"""

import uuid
from collections.abc import Callable, Mapping, Sequence
from dataclasses import astuple
from typing import Any, Final

from daq.audit import evidence
from daq.audit.addendum import audit_of
from daq.audit.apply import apply
from daq.audit.chosen import offers
from daq.audit.codec import encode
from daq.audit.engine import decide, needs
from daq.audit.events import Data
from daq.audit.input import Input, Refused
from daq.audit.opening import audit_id
from daq.audit.setup import AuditSetup
from daq.audit.state import MachineState, Shop
from daq.screens import Console, console
from daq.units import MM_PER
from daq.words import Ack, Command, Event, Passed, Position, Sample, Stamp

LEDGER: Final = "11111111-2222-4333-8444-555555555555"
NOON_US: Final = 1_780_315_200_000_000
"""2026-06-01 12:00 UTC: when time begins to count."""
TODAY: Final = "2026-06-01"
_START_NS: Final = 1_000_000_000
_BETWEEN_NS: Final = 20_000_000

Numbers = Sequence[float]
"""What the gauge sent one after the other, mm."""


class InMemory:
    """One machine, its audits, and a gauge that sends what it is given.

    Time goes on with each number, and by `wait`. `events` and the samples behind them
    (`chunks`, by digest) are all there is; the same presses make the same ones again. `rows`: so
    many of a ledger come before them.
    """

    def __init__(self, setup: AuditSetup, told: Callable[[Console], Mapping[str, Any]]) -> None:
        """Begin with a machine of which nothing is known but its files; `setup` may be changed.

        `told` makes of a console what its page gets.
        """
        self._told = told
        self.setup = setup
        self.machine = setup.machine_key
        self.shop = Shop()
        self.events: list[Event] = []
        self.chunks: dict[str, bytes] = {}
        self.ns = _START_NS
        self.n = 0
        self.presses = 0
        self.rows = 0
        self.passed: tuple[Passed, ...] = ()
        self.unit = setup.machine.unit

    @property
    def state(self) -> MachineState:
        """Where the machine stands."""
        return self.shop.machine(self.machine)

    @property
    def console(self) -> Mapping[str, Any]:
        """What the console shows."""
        machine = self.setup.machine
        return self._told(console(self.state, machine.name, offers(machine)))

    @property
    def today(self) -> str:
        """The date, UTC."""
        return TODAY

    @property
    def number(self) -> str:
        """What stands on the gauge: the number its file says."""
        return self.setup.gauge.serial_number

    def wait(self, seconds: float) -> None:
        """Let time go by."""
        self.ns += round(1e9 * seconds)

    def pass_by(self, collar: Sequence[tuple[Position, bool, float]]) -> None:
        """The arm passes switches from now on: each place, whether it closes, after how many s."""
        edges = (Passed(place, closed, self.ns + round(1e9 * s)) for place, closed, s in collar)
        self.passed = tuple(edges)

    def press(self, kind: str, payload: Mapping[str, Any], shows: Callable[[], Numbers]) -> Ack:
        """Decide a command; `shows` is asked for the gauge's numbers if the decision needs any."""
        command = self.command(kind, payload)
        before = len(self.events)
        try:
            awaited = needs(self.shop, command).kind != "nothing"
            self.decide(command, shows() if awaited else ())
        except Refused as error:
            return Ack(command.id, False, (), "refused", error.said)
        seqs = tuple(event.seq for event in self.events[before:])
        return Ack(command.id, True, seqs, "ok")

    def command(self, kind: str, payload: Mapping[str, Any]) -> Command:
        """A press; its id follows from what came before."""
        self.presses += 1
        identity = uuid.uuid5(uuid.UUID(LEDGER), f"{self.presses} {kind}")
        return Command(str(identity), self.machine, kind, payload)

    def decide(self, command: Command, numbers: Numbers) -> tuple[Data, ...]:
        """Decide with what the gauge sent, keep what follows, and return it.

        Raises:
            Refused: it makes no sense now; nothing has changed.
        """
        need = needs(self.shop, command)
        arrived = self.ns
        samples = self.samples(numbers)
        window = self.still(samples) if need.kind == "settled" else samples
        chunk = command.brought or evidence.encode(samples)
        given = Input(
            command,
            arrived,
            tuple(samples),
            window[0].n if window else 0,
            window[-1].n if window else 0,
            evidence.digest(chunk) if chunk else "",
            self.today,
            self.setup if command.kind == "open" else None,
            signed=next(iter(self._rows("Signed", command.payload.get("audit"))), 0),
            reports=sum(
                len(self._rows(kind, command.payload.get("audit")))
                for kind in ("Addendum", "ReportAmended")
            ),
            passed=self.passed if need.passed else (),
        )
        found = decide(self.shop, given)
        if chunk:
            self.chunks[given.evidence] = chunk
        for data in found:
            self.keep(data, given)
        return found

    def _rows(self, kind: str, audit: object) -> list[int]:
        """An audit's rows of one type."""
        return [e.seq for e in self.events if e.type == kind and e.audit == audit]

    def still(self, samples: list[Sample]) -> list[Sample]:
        """The samples at the end that all read the same: what the service waits for."""
        last = samples[-1].value_mm if samples else 0.0
        moved = [i for i, sample in enumerate(samples) if sample.value_mm != last]
        return samples[moved[-1] + 1 :] if moved else samples

    def samples(self, numbers: Numbers) -> list[Sample]:
        """What the gauge sent, a fiftieth of a second apart, in its unit."""
        return [self._sample(value_mm) for value_mm in numbers]

    def _sample(self, value_mm: float) -> Sample:
        self.n += 1
        self.ns += _BETWEEN_NS
        digits = 3 if self.unit == "mm" else 4
        text = f"{value_mm / MM_PER[self.unit]:+.{digits}f}"
        raw = f"{text} {self.unit}\r\n".encode()
        key = self.setup.gauge.key
        return Sample(key, "run-1", self.n, self.ns, text, self.unit, value_mm, (), raw)

    def stamp(self) -> Stamp:
        """Now, by a clock that is sure."""
        return Stamp(self.ns, NOON_US + self.ns // 1000, "boot", True)

    def keep(self, data: Data, given: Input) -> None:
        """Keep one event as the ledger would, and let the state follow."""
        kind, version, plain = encode(data)
        command, job = given.command, self.state.job
        cause = {
            "id": command.id,
            "kind": command.kind,
            "payload": dict(command.payload),
            "arrived_ns": given.arrived_ns,
            "window": [given.first_n, given.last_n],
            "passed": [list(astuple(each)) for each in given.passed],
        }
        event = Event(
            LEDGER,
            self.rows + len(self.events) + 1,
            kind,
            version,
            command.machine,
            audit_of(data, job.id if job else audit_id(command.id)),
            self.stamp(),
            command.actor,
            cause,
            plain,
            (given.evidence,) if given.evidence else (),
        )
        self.events.append(event)
        self.shop = apply(self.shop, event)
