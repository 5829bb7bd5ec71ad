"""How long the steps of squaring take, seconds: at first as most people take, then as they took.

The first figures are common practice, no source; "round" is a slow turn forth and back.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Final, Literal

Kind = Literal["quarter", "read", "crack", "turn", "tighten", "round"]

USUAL: Final[dict[Kind, float]] = {
    "quarter": 8.0,
    "read": 3.0,
    "crack": 40.0,
    "turn": 40.0,
    "tighten": 60.0,
    "round": 34.0,
}
_AS_GOOD_AS: Final = 4
"""The usual figure counts like so many seen ones, so that one odd afternoon changes little."""
_MOST: Final = 5.0
"""What took more than so many times as long, or less than a part like that, was something else."""


@dataclass(frozen=True, slots=True)
class Timed:
    """So many steps of a kind took so many seconds together."""

    count: int = 0
    seconds: float = 0.0


@dataclass(frozen=True, slots=True)
class StepTimes:
    """How long each step takes on one machine."""

    seen: Mapping[Kind, Timed] = field(default_factory=dict)

    def of(self, kind: Kind) -> float:
        """Return how long a step of this kind takes, seconds."""
        known = self.seen.get(kind, Timed())
        return (_AS_GOOD_AS * USUAL[kind] + known.seconds) / (_AS_GOOD_AS + known.count)

    def swing(self, degrees: float) -> float:
        """Return how long the spindle takes round by so much, seconds."""
        return self.of("quarter") * abs(degrees) / 90.0

    def after(self, kind: Kind, seconds: float) -> "StepTimes":
        """The same with one more step seen; what cannot have been that alone is left out."""
        if not USUAL[kind] / _MOST <= seconds <= USUAL[kind] * _MOST:
            return self
        known = self.seen.get(kind, Timed())
        more = replace(known, count=known.count + 1, seconds=known.seconds + seconds)
        return StepTimes({**self.seen, kind: more})
