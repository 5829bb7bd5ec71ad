"""A running service's own doctor: looks the place over when asked to, and after a run cut off."""

import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Any, Final

from daq.doctor.diagnosis import Diagnosis
from daq.doctor.examine import examine
from daq.doctor.patient import Patient, at_work
from daq.service.rise import NotFine, Rise
from daq.service.turns import WAIT_S, Turns
from daq.words import Said, said

SETTLES_S: Final = 4.0
"""After a start gauges are heard, and screens come back, in that time."""

AGAIN: Final = 3
"""So many times it is looked again after a cut while something is not fine: most of what is not at
once is so soon, such as a clock that a time server sets."""

APART_S: Final = 15.0
STOPS_S: Final = 0.5
LATER: Final = ("backup", "units", "versions", "watchdog")
"""What can wait until the work is done is named last."""

LOOK: Final = "look-"
"""What the name of a look's thread begins with."""

Screens = Callable[[], tuple[int, int]]
"""How many screens are open, and how many may be."""


@dataclass(frozen=True, slots=True)
class Examined:
    """The latest that was found, what is not fine first; `n` counts how often it was looked."""

    n: int = 0
    found: tuple[Diagnosis, ...] = ()


class Rounds:
    """Examines on a thread of its own, one at a time; nobody who presses or starts waits for it."""

    def __init__(
        self,
        patient: Patient,
        health: Callable[[], Mapping[str, Any]],
        rise: Rise,
        cut: Said | None,
    ) -> None:
        """Nothing runs before `working`. `health`: what the service knows of itself; `cut`: how
        the run before this one was cut off, which `rise` says with what is found."""
        self._patient = patient
        self._health = health
        self._rise = rise
        self._cut = cut
        self._asked = threading.Event()
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._work, name="doctor", daemon=True)
        self.settles_s, self.apart_s = SETTLES_S, APART_S
        self.screens: Screens = lambda: (0, 0)
        self.turns = Turns()
        self.latest = Examined()

    @property
    def busy(self) -> bool:
        """Whether it looks, or is about to."""
        return self._asked.is_set()

    def ask(self) -> None:
        """Have it look soon; any thread may, as often as it likes."""
        self._asked.set()

    @contextmanager
    def working(self) -> Iterator[None]:
        """It works for the length of the block."""
        if self._cut is not None:
            self._rise.say(self._cut, None)
        self._thread.start()
        try:
            yield
        finally:
            self._ending.set()
            self._asked.set()
            self._thread.join(STOPS_S)

    def _work(self) -> None:
        left = 0 if self._cut is None else 1 + AGAIN
        due = time.monotonic() + self.settles_s
        while not self._ending.is_set():
            self.turns.turn()
            if self._asked.wait(WAIT_S) or (left and time.monotonic() >= due):
                self._look()
                left = self._tell(left - 1) if left else 0
                due = time.monotonic() + self.apart_s
        self.turns.rest()

    def _look(self) -> None:
        self._asked.set()
        self.turns.rest()  # it has an end of its own, which is later than a turn is due
        if not (self._ending.is_set() or _held()):
            running = at_work(self._health(), *self.screens())
            found = examine(replace(self._patient, running=running))
            self.latest = Examined(self.latest.n + 1, found)
        self._asked.clear()

    def _tell(self, left: int) -> int:
        """Say what was found after a cut; how often it is to be looked again."""
        amiss = [each for each in self.latest.found if not each.fine]
        amiss.sort(key=lambda each: each.about in LATER)
        if self._cut is not None and not self._ending.is_set():
            self._rise.say(self._cut, [_not_fine(each) for each in amiss])
        return left if amiss else 0


def _held() -> bool:
    """Whether a look of before is still held by what it looks at: another would be held, too."""
    return any(thread.name.startswith(LOOK) for thread in threading.enumerate())


def _not_fine(each: Diagnosis) -> NotFine:
    about = said("doctor-about", it=each.about)
    return NotFine(about, said("doctor-line", about=about, found=each.found), each.todo)
