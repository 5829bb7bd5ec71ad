"""In which order a gauge is shown the known lengths."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Direction = Literal["up", "down"]

MOST_REPEATS = 100


@dataclass(frozen=True, slots=True)
class Step:
    """One length to put under the contact. `up`: the contact comes to it by being pushed in."""

    nominal_mm: float
    direction: Direction
    round: int


def steps(lengths_mm: Sequence[float], *, down: bool, repeats: int) -> tuple[Step, ...]:
    """Return the way through the lengths: up, with `down` back again, all of it `repeats` times.

    On the way back the longest length is left out: the contact stands on it already.

    Raises:
        ValueError: in plain words, when nothing can be learned from these.
    """
    ordered = sorted(set(lengths_mm))
    if len(ordered) < 2:
        raise ValueError(f"found {len(ordered)} length; allowed: two or more unlike ones")
    if ordered[0] < 0.0:
        raise ValueError(f"found the length {ordered[0]:g} mm; allowed: 0 mm and more")
    if not 1 <= repeats <= MOST_REPEATS:
        raise ValueError(f"found {repeats} repeats; allowed: 1 to {MOST_REPEATS}")
    back = ordered[-2::-1] if down else []
    return tuple(
        step
        for number in range(1, repeats + 1)
        for step in (
            *(Step(nominal, "up", number) for nominal in ordered),
            *(Step(nominal, "down", number) for nominal in back),
        )
    )
