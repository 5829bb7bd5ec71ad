"""Someone who obeys the console over HTTP, on a head of exact geometry seen by a scripted gauge."""

from typing import Any

from daq.words import Axis, Position
from tests.audit.rigid import RigidHead
from tests.system.client import Client
from tests.system.person import Person
from tests.system.ttygauge import TtyGauge

FREE_MM = 0.1


class Obeying:
    """Does the one next thing; the gauge's number is always what the head makes it."""

    def __init__(self, client: Client, gauge: TtyGauge, head: RigidHead) -> None:
        self.client = client
        self.gauge = gauge
        self.head = head
        self.place: Position = "front"

    def start(self, **card: object) -> "Obeying":
        """Open an audit, say on the card what is to be said, and try the contact."""
        self.gauge.move_to(FREE_MM)
        self.client.do("open", {"reason": "scheduled"})
        self.client.do("prepared", {"serial_number": "P-0417", **card})
        self.client.do("take")
        Person(self.client, self.gauge).push(FREE_MM)
        return self

    def until(self, *steps: str) -> dict[str, Any]:
        """Obey until one of these steps; returns the console then."""
        for _ in range(60):
            console = self.client.console()
            if console["step"] in steps:
                return console
            self.step(console)
        raise AssertionError(f"never {steps}: {self.client.console()['title']}")

    def step(self, console: dict[str, Any] | None = None) -> None:
        """Do and press what the console says first."""
        console = console or self.client.console()
        action, do = console["actions"][0], console["do"]
        if do["kind"] == "swing":
            self.place = do["position"]
        if do["kind"] == "turn":
            self.turn(do["axis"], float(do["stop_at_text"]))
        self.gauge.move_to(self.head.at(self.place))
        self.client.do(action["kind"], action["payload"])

    def turn(self, axis: Axis, stop_mm: float) -> None:
        """Turn that axis's adjuster until the gauge reads what it should."""
        self.head.turn(axis, self.place, stop_mm)


def refused(client: Client, kind: str, payload: dict[str, object] | None = None) -> str:
    """The reason a command is refused for."""
    answer = client.post(kind, payload)
    assert (answer.status, answer.body["code"]) == (422, "refused"), answer
    return answer.body["reason"]
