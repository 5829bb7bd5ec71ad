"""How a thread works for long behind the service: it rests as long as it works."""

import threading
import time
from typing import Final

from daq.service.turns import Turns

SLICE_S: Final = 0.01
"""After so long it rests for as long: who decides and who shows come first."""


class Rests:
    """One thread's pace; `ending` wakes it."""

    def __init__(self, turns: Turns, ending: threading.Event) -> None:
        """Nothing runs yet."""
        self._turns = turns
        self._ending = ending
        self._slice_ends = 0.0

    def begin(self, at_once_s: float = SLICE_S) -> None:
        """Go on for so long before the first rest."""
        self._slice_ends = time.monotonic() + at_once_s
        self._turns.turn()

    def turn(self) -> bool:
        """Rest if it is time to; whether the end has come."""
        self._turns.turn()
        over = time.monotonic() - self._slice_ends
        if over >= 0.0:
            self._ending.wait(SLICE_S + over)
            self._slice_ends = time.monotonic() + SLICE_S
        return self._ending.is_set()
