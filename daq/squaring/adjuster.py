"""The kinds of adjuster a head may have, and what a move must look out for.

Lengths mm, slopes mm/mm. Readings are `pushed_in`; a lean is seen from the parked
position, above zero with that side low. What is said to be practice is common practice,
no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

from daq.metrology.student import normal_cdf
from daq.settings import Length, Range, Slope
from daq.units import FINE
from daq.words import OPPOSITE, Position, Said, Shown, Unit, Word, said

_LEAST_PAST_MM = 0.05
"""How far to go past when nothing better is known: more than a worm in order turns back."""
_LEAST_LEFT_MM = {"plunger": 0.5, "lever": 0.05}
"""Half of what a contact is usually pushed in by at the least: plunger 1 mm, lever 0.1 mm."""
_LIKELY = 0.5
_HOPELESS = 0.05
_FAR = 1.5
_FAR_TURNS = 10.0
_SMALL_TURN = 1.0 / 12.0
_PARTS = (
    (1 / 8, "eighth"),
    (1 / 6, "sixth"),
    (1 / 4, "quarter"),
    (1 / 3, "third"),
    (1 / 2, "half"),
    (2 / 3, "two-thirds"),
    (3 / 4, "three-quarters"),
)


@dataclass(frozen=True, slots=True)
class Adjust:
    """One axis's adjuster, from the machine's file.

    `finish_raising`: the side of the head that rises during the last turn; "" means either.
    `lead`: how much one full turn changes the lean. `backlash`: what the adjuster gives
    before the head follows, as the parked gauge would show it. `bolt_spacing`: between the
    lower and the upper bolts, where shims go. `shim_places`: where a shim goes when the
    difference is above zero (right or front low), and where when it is below. `shims`: how thick
    those are that the shop has, several of each; or `shim_step`: there is one of each multiple.

    Raises:
        ValueError: shims without the bolts' spacing, other than two places for them, or both ways
            to say which there are.
    """

    kind: Literal["worm", "rack", "hand", "shim", "none"] = "worm"
    finish_raising: Literal["", "front", "back", "left", "right"] = ""
    lead: Annotated[Slope, Range(above=0.0, hi=1.0)] | None = None
    backlash: Annotated[Length, Range(0.0, 10.0)] | None = None
    bolt_spacing: Annotated[Length, Range(1.0, 5000.0)] | None = None
    shim_places: tuple[str, ...] = ("the lower bolts", "the upper bolts")
    shims: tuple[Annotated[Length, Range(0.001, 50.0)], ...] = ()
    shim_step: Annotated[Length, Range(0.001, 10.0)] | None = None

    def __post_init__(self) -> None:
        """Refuse shims that could not be worked out or placed."""
        if self.kind == "shim" and self.bolt_spacing is None:
            raise ValueError('kind: found "shim" without bolt_spacing; allowed: both together')
        if len(self.shim_places) != 2 or not all(self.shim_places):
            raise ValueError(
                f"shim_places: found {len(self.shim_places)}; allowed: two places with names, "
                "for a difference above zero and for one below"
            )
        if self.shims and self.shim_step is not None:
            raise ValueError("shim_step: found beside shims; allowed: one of them")

    @property
    def shelf(self) -> bool:
        """Whether it is known which shims there are."""
        return bool(self.shims) or self.shim_step is not None


def turns(slope_change: float, adjust: Adjust) -> float | None:
    """Return how many turns change the lean by that much, signed; None if the lead is unknown."""
    return None if adjust.lead is None else slope_change / adjust.lead


def say_turns(count: float | None) -> Said | None:
    """Return turns as one says them, without a direction; None when they are not known."""
    if count is None:
        return None
    size = abs(count)
    if size < _SMALL_TURN:
        return said("turn-by-degrees", degrees=max(round(360.0 * size), 1))
    if size >= _FAR_TURNS:
        return said("turns", whole=round(size))
    whole = int(size)
    choices = ((0.0, ""), *_PARTS[2 if whole else 0 :], (1.0, ""))
    part, name = min(choices, key=lambda choice: abs(size - whole - choice[0]))
    whole += int(part)
    if not name:
        return said("turns", whole=whole)
    return said("turns-and", whole=whole, part=name) if whole else said("turn-by-part", part=name)


def comes_from_wrong_side(
    change: float,
    parked: Position,
    finish: Literal["", "front", "back", "left", "right"],
) -> bool:
    """Return whether a turn would end with the wrong side rising, so that it must come back.

    `change` is that of the lean toward the parked position: below zero raises that side.
    """
    raised = parked if change < 0.0 else OPPOSITE[parked]
    return finish != "" and change != 0.0 and raised != finish


def past_mm(change: float, parked: Position, adjust: Adjust) -> float:
    """Return how far to go past the stop-at before coming back to it, mm; 0 for not at all.

    Twice what the adjuster gives, so that it is sure to be taken up on the way back.
    """
    turned = adjust.kind in ("worm", "rack")
    if not turned or not comes_from_wrong_side(change, parked, adjust.finish_raising):
        return 0.0
    return max(2.0 * (adjust.backlash or 0.0), _LEAST_PAST_MM)


def unheld_mm(adjust: Adjust) -> float:
    """Return how far an axis may go either way once it is let go, mm at the gauge; 0 as a rule.

    Within its backlash, where nobody told which side is to rise last so that it is taken up.
    """
    turned = adjust.kind in ("worm", "rack") and not adjust.finish_raising
    return (adjust.backlash or 0.0) if turned else 0.0


def approach(adjust: Adjust) -> Said:
    """Return how to bring the head to the stop-at with this kind of adjuster."""
    if adjust.kind == "hand":
        return said("approach-by-hand")
    if adjust.kind == "shim":
        return said("approach-shims")
    if adjust.kind == "none":
        return said("approach-none")
    if adjust.finish_raising:
        return said("approach-raising", rising=adjust.finish_raising)
    return said("approach-one-side")


def warnings(
    base_pushed_mm: float,
    stop_pushed_mm: float,
    free_pushed_mm: float | None,
    travel_mm: float,
    kind: Literal["plunger", "lever"],
    count_mm: float,
    unit: Unit,
    past_stop_mm: float = 0.0,
) -> tuple[Said, ...]:
    """Return what the gauge cannot follow of a move from its base to its stop-at.

    `free_pushed_mm` is the reading with the contact in the air, `count_mm` the gauge's
    resolution, `past_stop_mm` how far the turn goes past the stop-at first. Where the contact
    stands is not known without the free reading: then only the size of the move is judged.
    """
    way = 1.0 if stop_pushed_mm >= base_pushed_mm else -1.0
    ends = (base_pushed_mm, stop_pushed_mm + way * past_stop_mm)
    lowest, highest = min(ends), max(ends)
    least = _LEAST_LEFT_MM[kind]
    usable = travel_mm - 2.0 * count_mm
    if highest - lowest > usable - least:
        return (said("move-off-scale"),)
    if free_pushed_mm is None:
        return ()
    found = (*_travel(highest - free_pushed_mm - usable, unit),)
    return (*found, *_preload(lowest - free_pushed_mm, least, 2.0 * count_mm, unit))


def _travel(beyond_mm: float, unit: Unit) -> Iterator[Said]:
    if beyond_mm > 0.0:
        yield said("move-past-travel", by=Shown(beyond_mm, unit, FINE[unit]))


def _preload(left_mm: float, least_mm: float, touching_mm: float, unit: Unit) -> Iterator[Said]:
    if left_mm < touching_mm:
        yield said("move-lifts-contact")
    elif left_mm < least_mm:
        yield said("move-little-preload", left=Shown(left_mm, unit, FINE[unit]))


def reverse(base_mm: float, stop_mm: float, stopped_mm: float, noise_mm: float) -> bool:
    """Return whether the number went away from the stop-at: the adjuster answers the other way.

    `noise_mm` is what a reading may differ by itself; less than that tells nothing.
    """
    wanted, done = stop_mm - base_mm, stopped_mm - base_mm
    return wanted * done < 0.0 and abs(done) > noise_mm


def worth_moving(off_mm: float, within_mm: float, leaves_mm: float, word: Word) -> bool:
    """Return whether an axis is to be moved; False means "leave it".

    `off_mm`: how far it is from its goal; `within_mm`: how near the goal it would be called
    in (0 or less: nowhere); `leaves_mm`: what a move leaves undone, one standard deviation.
    One that is inside is left alone. Too close to call, it is moved if that is likelier than
    not to end inside. Out, it is moved unless it is hopeless to end inside and it stands no
    further out than a move may leave it. (The bounds: common practice, no source.)
    """
    if word == "in":
        return False
    chance = 2.0 * normal_cdf(within_mm / leaves_mm) - 1.0 if within_mm > 0.0 else 0.0
    if word == "close":
        return chance > _LIKELY
    return chance > _HOPELESS or abs(off_mm) > _FAR * leaves_mm
