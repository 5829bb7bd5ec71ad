"""Which shim sets an axis: how thick, behind which bolts, and which of those the shop has.

Lengths mm; a difference is that across the sweep, above zero with the right or the front low.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations_with_replacement

from daq.metrology.student import normal_cdf
from daq.squaring.adjuster import Adjust
from daq.words import Axis, Word

_DIGITS = 6
"""Thicknesses are alike that differ by less than a nanometre."""
_LIKELY = 0.5
_CLEAR = 1.5


@dataclass(frozen=True, slots=True)
class Shim:
    """What goes where: a thickness, mm, and the bolts it goes behind.

    `stack`: the one or the two of the shop's that make it; none where it is not known which there
    are. `leaves_mm`: what is then left of the axis's error once all is tight, and `word` what
    that is.
    """

    thickness_mm: float
    place: str
    stack: tuple[float, ...] = ()
    leaves_mm: float = 0.0
    word: Word | None = None


@dataclass(frozen=True, slots=True)
class NoShim:
    """An axis that no shim of the shop's brings inside; `leaves_mm`: its error at best."""

    axis: Axis
    leaves_mm: float


def shim(d_mm: float, diameter_mm: float, adjust: Adjust) -> Shim:
    """Return the shim that takes away a difference of `d_mm` across the sweep, or comes nearest.

    Raises:
        ValueError: the bolts' spacing is not known.
    """
    place = adjust.shim_places[0 if d_mm > 0.0 else 1]
    needed_mm = thickness(d_mm, diameter_mm, adjust)
    if not adjust.shelf:
        return Shim(needed_mm, place)
    stack = min(_stacks(needed_mm, adjust), key=lambda stack: _off(needed_mm, stack))
    left_mm = (needed_mm - sum(stack)) / thickness(1.0, diameter_mm, adjust)
    return Shim(sum(stack), place, stack, left_mm if d_mm > 0.0 else -left_mm)


def thickness(d_mm: float, diameter_mm: float, adjust: Adjust) -> float:
    """Return how thick a shim takes away that difference, slope times the bolts' spacing.

    By similar triangles.

    Raises:
        ValueError: the bolts' spacing is not known.
    """
    if adjust.bolt_spacing is None:
        raise ValueError("bolt_spacing: found none; allowed: a length")
    return abs(d_mm) / diameter_mm * adjust.bolt_spacing


def _stacks(needed_mm: float, adjust: Adjust) -> Iterator[tuple[float, ...]]:
    """What could be put in: of a step the nearest, else each one and each two, thick ones first."""
    if adjust.shim_step is not None:
        count = max(round(needed_mm / adjust.shim_step), 1)
        yield (round(count * adjust.shim_step, _DIGITS),)
    thick = sorted(adjust.shims, reverse=True)
    yield from ((each,) for each in thick)
    yield from combinations_with_replacement(thick, 2)


def _off(needed_mm: float, stack: tuple[float, ...]) -> float:
    """How far from what is needed; of those that come as near the first is taken."""
    return round(abs(sum(stack) - needed_mm), _DIGITS)


def worth_shimming(
    off_mm: float, leaves_mm: float, within_mm: float, doubt_mm: float, word: Word
) -> bool:
    """Return whether the nearest shim there is betters an axis; False means "leave it".

    `off_mm`: how far it is from its goal, `leaves_mm`: how far that shim would leave it;
    `within_mm`: how near the goal it would be called in (0 or less: nowhere); `doubt_mm`: how far
    off it may then read, one standard deviation. It goes in if that is likelier than not to bring
    the axis inside, and out as it is also if it leaves it clearly nearer. (The bounds: common
    practice, no source.)
    """
    off, leaves = abs(off_mm), abs(leaves_mm)
    if word == "in" or leaves >= off:
        return False
    ends = normal_cdf((within_mm - leaves) / doubt_mm) - normal_cdf(
        (-within_mm - leaves) / doubt_mm
    )
    likely = within_mm > 0.0 and ends > _LIKELY
    return likely or (word == "out" and off - leaves > _CLEAR * doubt_mm)
