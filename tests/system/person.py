"""Someone at the machine who holds the gauge's number in the hand and presses the console."""

from daq.words import Position
from tests.system.client import Answer, Client
from tests.system.ttygauge import TtyGauge

PUSHED_MM = 0.8


class Person:
    """Works one gauge and one daemon; every press must be carried out unless it is `asked`."""

    def __init__(self, client: Client, gauge: TtyGauge) -> None:
        self.client = client
        self.gauge = gauge

    def start(self, reason: str = "scheduled", free_mm: float = 0.1) -> None:
        """Open an audit, prepare, try the contact: ready for the sweep."""
        self.client.do("open", {"reason": reason})
        self.prepare(free_mm)

    def prepare(self, free_mm: float = 0.1) -> None:
        """Read the card and try the contact."""
        self.gauge.move_to(free_mm)
        self.client.do("prepared", {"serial_number": "P-0417"})
        self.client.do("take")
        self.push(free_mm)

    def push(self, free_mm: float = 0.1) -> None:
        """Push the contact in and let it go."""
        self.gauge.move_to(free_mm + PUSHED_MM)
        self.client.until_live(lambda live: live.value_mm > free_mm + PUSHED_MM / 2)
        self.gauge.move_to(free_mm)
        self.client.do("pushed")

    def take(self, position: Position, value_mm: float) -> None:
        """Swing to a position where the gauge reads this, and take the reading."""
        self.gauge.move_to(value_mm)
        self.client.do("take", {"position": position})

    def asked(self, position: Position, value_mm: float) -> Answer:
        """The same where the answer may be a refusal."""
        self.gauge.move_to(value_mm)
        return self.client.post("take", {"position": position})

    def press(self, kind: str, value_mm: float) -> None:
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
