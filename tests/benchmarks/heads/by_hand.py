"""The same heads squared without the product: sweep, turn the worst axis, sweep again.

Halving: turn until the parked reading has changed by half of the difference. That is right
where the pivot is at the spindle, and falls short wherever it is behind it.

Guessing: turn by a part of the difference between a quarter and three quarters, another one
each time. A half is right on the one axis and too little on the other by as much as nobody
measured, so hands that have learned that halves do not do it try less and more of it
(common practice, no source).
"""

from collections.abc import Callable, Mapping
from random import Random
from typing import Final

from daq.words import PARKED, Axis

from .mill import Mill

MOST_MOVES = 200
GUESSED: Final = (0.25, 0.75)

Part = Callable[[], float]


def halving() -> Part:
    """Always half of the difference."""
    return lambda: 0.5


def guessing(seed: str) -> Part:
    """Some part of the difference."""
    rng = Random(f"guess {seed}")
    return lambda: rng.uniform(*GUESSED)


def moves(mill: Mill, limit_mm: float, part: Part) -> int:
    """How many turns it takes until a sweep shows both differences inside."""
    for done in range(MOST_MOVES):
        found = _sweep(mill)
        axis = max(found, key=lambda each: abs(found[each]))
        if abs(found[axis]) <= limit_mm:
            return done
        place = PARKED[axis]
        mill.turn(axis, place, mill.indication(place) - part() * found[axis])
        mill.let_go(axis, place)
    return MOST_MOVES


def _sweep(mill: Mill) -> Mapping[Axis, float]:
    read = {place: mill.indication(place) for place in ("front", "right", "back", "left")}
    return {"side": read["right"] - read["left"], "nod": read["front"] - read["back"]}
