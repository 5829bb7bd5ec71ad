"""A person at a daemon, over HTTP, with a gauge on a pseudo-terminal.

Where there is a head its gauge shows what the head makes it, and a machinist can obey here.
Without one the number is held in the hand, and the console pressed whatever it says.
"""

import datetime
import time
from collections.abc import Mapping
from typing import Any

from daq.virtual import Workplace
from daq.words import Ack, Axis, Position
from tests.audit.rigid import NUDGE_MM, RigidHead
from tests.system.client import Answer, Client
from tests.system.ttygauge import TtyGauge

FREE_MM = 0.1
NUMBER = "P-0417"
PUSHED_MM = 0.8


class Person(Workplace):
    """Works one gauge and one daemon; every press must be carried out unless it is `asked`."""

    def __init__(self, client: Client, gauge: TtyGauge, head: RigidHead | None = None) -> None:
        self.client = client
        self.gauge = gauge
        self.head = head
        self.place: Position | None = None

    def look(self) -> Mapping[str, Any]:
        return self.client.console()

    def press(self, kind: str, payload: Mapping[str, Any]) -> Ack:
        self._show()
        return self.client.press(kind, payload)

    def today(self) -> datetime.date:
        return datetime.datetime.now(tz=datetime.UTC).date()

    def wait(self, seconds: float) -> None:
        time.sleep(seconds)

    def number(self) -> str:
        return NUMBER

    def read(self) -> float:
        return float(self.client.live().text)

    def lift(self) -> None:
        self.place = None
        self.gauge.move_to(FREE_MM)

    def push(self, free_mm: float = FREE_MM) -> None:
        """Push the contact in and let it go."""
        self.place = None
        self.gauge.move_to(free_mm + PUSHED_MM)
        self.client.until_live(lambda live: live.value_mm > free_mm + PUSHED_MM / 2)
        self.gauge.move_to(free_mm)

    def swing(self, position: Position) -> None:
        self.place = position

    def turn_round(self, what: str) -> None:
        raise NotImplementedError(what)

    def crack(self, axis: Axis) -> None:
        """The head does not drop."""

    def turn(self, axis: Axis, reads: float) -> None:
        self.head.turn(axis, self.place, reads)

    def nudge(self, axis: Axis, *, back: bool) -> None:
        self.head.shift(axis, -NUDGE_MM if back else NUDGE_MM)

    def pull(self, axis: Axis, bolt: str = "") -> None:
        """Bolts do not move the head."""

    def _show(self) -> None:
        if self.head is not None and self.place is not None:
            self.gauge.move_to(self.head.at(self.place))

    def start(self, reason: str = "scheduled", free_mm: float = FREE_MM, **card: object) -> None:
        """Open an audit, prepare, try the contact: ready for the sweep."""
        self.client.opened(reason)
        self.prepare(free_mm, **card)

    def prepare(self, free_mm: float = FREE_MM, **card: object) -> None:
        """Read the card, say on it what is to be said, and try the contact."""
        self.gauge.move_to(free_mm)
        self.client.do("prepared", {"serial_number": NUMBER, **card})
        self.touch(free_mm)

    def touch(self, free_mm: float = FREE_MM) -> None:
        """Let the contact hang free and take the reading, then push it."""
        self.gauge.move_to(free_mm)
        self.client.do("take")
        self.pushed(free_mm)

    def pushed(self, free_mm: float = FREE_MM) -> None:
        """Push the contact in and let it go, and say so."""
        self.push(free_mm)
        self.client.do("pushed")

    def take(self, position: Position, value_mm: float) -> None:
        """Swing to a position where the gauge reads this, and take the reading."""
        self.gauge.move_to(value_mm)
        self.client.do("take", {"position": position})

    def asked(self, position: Position, value_mm: float) -> Answer:
        """The same where the answer may be a refusal."""
        self.gauge.move_to(value_mm)
        return self.client.post("take", {"position": position})

    def done(self, kind: str, value_mm: float) -> None:
        """Do something that leaves the gauge at this reading, and say so."""
        self.gauge.move_to(value_mm)
        self.client.do(kind)

    def sweep(self, front: float, right: float, back: float, left: float) -> None:
        """All four positions and back to the front."""
        self.take("front", front)
        self.take("right", right)
        self.take("back", back)
        self.take("left", left)
        self.take("front", front)


def refused(client: Client, kind: str, payload: dict[str, object] | None = None) -> str:
    """The reason a command is refused for."""
    answer = client.post(kind, payload)
    assert (answer.status, answer.body["code"]) == (422, "refused"), answer
    return answer.body["reason"]
