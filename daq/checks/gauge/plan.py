"""In which order a gauge is shown the known lengths, and which they are."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from daq.checks.gauge.blocks import BlockSet
from daq.units import SLACK_MM

Direction = Literal["up", "down"]

MOST_REPEATS = 100
TEN: Final = 10
"""Steps over the span, and steps within one turn."""


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


def over(blocks: BlockSet, low_mm: float, high_mm: float) -> tuple[float, ...]:
    """Return nominal lengths in ten steps from `low_mm` to `high_mm`, as near as the set makes.

    Raises:
        ValueError: the set makes fewer than three of them.
    """
    apart_mm = (high_mm - low_mm) / TEN
    near = (blocks.nearest(low_mm + apart_mm * at, apart_mm, high_mm) for at in range(TEN + 1))
    found = {mm for mm in near if mm >= low_mm - SLACK_MM}
    if len(found) < 3:
        raise ValueError(
            f"found {len(found)} lengths of this set from {low_mm:g} to {high_mm:g} mm; "
            "allowed: three or more"
        )
    return tuple(sorted(found))


def within_a_turn(
    blocks: BlockSet, low_mm: float, high_mm: float, turn_mm: float
) -> tuple[float, ...]:
    """Return eleven nominal lengths, ten equal steps within one turn of the gauge's pinion.

    They lie where the fewest blocks make them, and of such places nearest the middle of the span.

    Raises:
        ValueError: the set makes no such steps there.
    """
    step_mm, middle_mm = turn_mm / TEN, (low_mm + high_mm) / 2.0
    best: tuple[tuple[int, float], tuple[float, ...]] | None = None
    for start in (low_mm, *(each.nominal for each in blocks.blocks)):
        lengths = tuple(start + step_mm * at for at in range(TEN + 1))
        if start < low_mm - SLACK_MM or lengths[-1] > high_mm + SLACK_MM:
            continue
        stacks = [blocks.stack(mm) for mm in lengths]
        if any(stack is None for stack in stacks):
            continue
        joints = sum(len(stack or ()) for stack in stacks)
        cost = joints, abs(start + turn_mm / 2.0 - middle_mm)
        if best is None or cost < best[0]:
            best = cost, lengths
    if best is None:
        raise ValueError(
            f"found no ten steps of {step_mm:g} mm that this set makes from {low_mm:g} to "
            f"{high_mm:g} mm; allowed: a turn whose tenth it makes"
        )
    return best[1]
