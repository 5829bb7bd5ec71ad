"""What the arm passed of each machine's collar lately: kept until a sweep is made of it."""

from collections import deque
from typing import Final

from daq.words import Passed

MOST: Final = 128
"""Edges kept of a machine: three times round and back past four switches."""


class Collars:
    """The newest edges of every collar. Safe to use from several threads."""

    def __init__(self) -> None:
        """Nothing has been passed."""
        self._of: dict[str, deque[Passed]] = {}

    def note(self, machine: str, passed: Passed) -> None:
        """One switch closed or opened."""
        self._of.setdefault(machine, deque(maxlen=MOST)).append(passed)

    def since(self, machine: str, since_ns: int) -> tuple[Passed, ...]:
        """What a machine's arm passed since a moment, monotonic."""
        kept = tuple(self._of.get(machine, ()))
        return tuple(each for each in kept if each.at_ns >= since_ns)
