"""The lessons: the mill each begins from, what is amiss with it, how long it usually takes.

Figures are invented. What a lesson is to teach is said by its key, in `lesson-aim`.
"""

from dataclasses import dataclass, replace
from typing import Final

from daq.virtual.spec import NOD, SIDE, MillSpec
from daq.words import Position

PRESS_S: Final = 15.0
"""From one press to the next, hands at work between them (a choice of ours, no source)."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """A beginning: `side_mm` and `nod_mm` out of square across the sweep, right or front low.

    Hands that do as the console says make so many `presses`. The gauge hangs at `at`. After so many
    readings (`zeroed_after`, none if 0) somebody presses its zero; `chip_mm` lifts the ring at one
    spot until it is wiped. `more`: see `Assignment`.
    """

    key: str
    seed: int
    side_mm: float
    nod_mm: float
    presses: int
    mill: MillSpec = MillSpec()  # noqa: RUF009 - frozen
    at: Position = "front"
    zeroed_after: int = 0
    chip_mm: float = 0.0
    more: int = 0

    @property
    def usual_s(self) -> float:
        """How long it usually takes."""
        return PRESS_S * self.presses


_PULLED: Final = MillSpec(nod=replace(NOD, shift_mm=0.026, shift_sd_mm=0.001))
_STIFF: Final = MillSpec(
    side=replace(SIDE, backlash_mm=0.06), nod=replace(NOD, backlash_mm=0.08, drop_mm=0.0)
)

LESSONS: Final = (
    Lesson("two-spots", 11, 0.006, -0.35, 26),
    Lesson("worse-first", 12, 0.12, 0.55, 36),
    Lesson("tightening", 13, -0.008, 0.4, 34, mill=_PULLED, more=1),
    Lesson("way-round", 14, -0.25, 0.4, 36, at="left"),
    Lesson("zeroed", 15, 0.3, 0.006, 31, zeroed_after=2),
    Lesson("off-scale", 16, -0.03, 2.4, 34),
    Lesson("chip", 17, 0.25, 0.006, 31, chip_mm=0.06),
    Lesson("stiff", 18, -0.12, 0.25, 36, mill=_STIFF),
)
"""In the order they are taken."""

KNOWN: Final = Lesson("known", 19, 0.0, 0.0, 40)
"""What an instructor sets: an error of their own choice."""
