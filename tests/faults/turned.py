"""A gauge with all its buttons, on a real port, whose contact a hand moves."""

import threading
import time
from pathlib import Path

from tests.patience import PATIENCE_S
from tests.rigs.shelf import on_tty
from tests.system.person import Person

FRAME_S = 0.02
MOVE_S = 8 * FRAME_S
MOST_MM_S = 60.0
"""No hand moves a contact faster, so that no move looks like a button."""

FREE_MM = -0.35
"""What this gauge reads in the air until one of its buttons is pressed."""


class Turned:
    """The shelf's plain gauge, which speaks as the practice gauge's file describes it."""

    def __init__(self, link: Path) -> None:
        self.gauge = on_tty("text-plain", link)
        self._at_mm = 0.0

    def __enter__(self) -> "Turned":
        self.gauge.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.gauge.stop()

    def move_to(self, value_mm: float) -> None:
        """Move the contact steadily to where the gauge reads this; returns when it was sent."""
        start_mm, end_mm = self._at_mm, value_mm + self.gauge.zero_mm
        takes_s = max(MOVE_S, abs(end_mm - start_mm) / MOST_MM_S)
        begun = time.monotonic()

        def along() -> float:
            share = min(1.0, (time.monotonic() - begun) / takes_s)
            return start_mm + share * (end_mm - start_mm)

        self.gauge.follow(along)
        time.sleep(takes_s)
        self._at_mm = end_mm
        self.stand(1)

    def stand(self, frames: int) -> None:
        """Stay here; returns when so many frames of it were sent."""
        at_mm, asked = self._at_mm, threading.Semaphore(0)

        def there() -> float:
            asked.release()
            return at_mm

        self.gauge.follow(there)
        for _ in range(frames + 1):  # one more is asked for once those before it were sent
            assert asked.acquire(timeout=PATIENCE_S)


def ready(person: Person) -> None:
    """An audit up to its sweep."""
    person.start(free_mm=FREE_MM)


def turning(person: Person) -> None:
    """An audit up to the turning of the nod adjuster; the gauge reads 1.180, the bolts are loose.

    D_nod +0.080 with the head's pivot 180 mm behind the spindle.
    """
    ready(person)
    person.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    person.take("front", 1.200)
    person.done("loosened", 1.180)
    assert person.client.console()["step"] == "move"
