"""How a person brings a number to where it should stop, knowing nothing of the head.

A short try shows how the number answers; then come larger turns that stay
short of the mark, then smaller ones. The last turn is always made the same way
round: whoever went too far, or comes from the wrong side, goes well past and
comes back, so that the adjuster's slack always lies on the same side.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

TRY_MM: Final = 0.02
PAST_MM: Final = 0.03
NEAR_MM: Final = 0.02
CAREFUL: Final = 0.8
"""The part of what is left that is turned while still far away."""

CLOSE_ENOUGH_MM: Final = 0.002
SEEN_MM: Final = 0.004
"""A change of the number that is certainly not flicker."""

TRIES: Final = 60
DEAD_TRIES: Final = 8

Look = Callable[[], float]
"""Returns how far the number still has to go (mm, signed)."""

Turn = Callable[[float], object]
"""Turns the adjuster, by mm of lean across the sweep."""


@dataclass(slots=True)
class _Feel:
    """What the hand has learned: change of the number for each mm turned, and the last turn."""

    gain: float | None = None
    last: float = 0.0
    moved: bool = False
    dead: int = 0

    def learn(self, turned_mm: float, change_mm: float) -> None:
        """Learn from one turn; only one that follows a turn that took hold is free of slack."""
        moved = abs(change_mm) >= SEEN_MM
        if moved and self.moved and turned_mm * self.last > 0.0:
            self.gain = change_mm / turned_mm
        hoped_mm = SEEN_MM if self.gain is None else abs(self.gain * turned_mm)
        self.dead = self.dead + 1 if not moved and hoped_mm >= SEEN_MM else 0
        self.last, self.moved = turned_mm, moved

    def next_turn(self, to_go_mm: float, finish: Literal[1, -1]) -> float:
        """Return the next turn that leads to the mark, ending in the direction `finish`."""
        if self.gain is None:
            return finish * TRY_MM
        wanted = to_go_mm / self.gain
        if wanted * finish <= 0.0:
            return wanted - finish * PAST_MM
        return wanted if abs(to_go_mm) <= NEAR_MM else wanted * CAREFUL


def bring_to_stop(look: Look, turn: Turn, finish: Literal[1, -1]) -> bool:
    """Turn until the number stands within 2 µm of its mark, the last turn in direction `finish`.

    Returns False when the number does not answer, or will not settle. Whatever `look` raises
    when it cannot be read ends the turning.
    """
    feel = _Feel()
    to_go = look()
    for _ in range(TRIES):
        if feel.dead >= DEAD_TRIES:
            return False
        if abs(to_go) <= CLOSE_ENOUGH_MM and feel.last * finish >= 0.0:
            return True
        amount = feel.next_turn(to_go, finish)
        turn(amount)
        before, to_go = to_go, look()
        feel.learn(amount, before - to_go)
    return False
