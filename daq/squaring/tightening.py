"""Pulling up the clamp bolts: in which order, how far a step may move the head, what it does.

A bolt's step is watched on the live number of the parked gauge. What tightening does to
the lean is taken from check to check instead, before against after: tightening does not
turn the head about its pivot. Lengths mm, shifts of the lean slopes, mm/mm.
"""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from daq.settings import Length, Range, Torque, quoted
from daq.units import FINE, NM_PER, SLACK_MM
from daq.words import Figure, Said, Shown, Unit, said

_PARTS = {
    Fraction(1, 4): "quarter",
    Fraction(1, 3): "third",
    Fraction(1, 2): "half",
    Fraction(2, 3): "two-thirds",
    Fraction(3, 4): "three-quarters",
    Fraction(1, 1): "all",
}
_PRIOR_DOF = 4.0
"""How many degrees of freedom a head's own scatter is given beforehand: as good as five
tightenings seen, so that one strange tightening does not undo what the others showed."""


@dataclass(frozen=True, slots=True)
class Tighten:
    """How one axis's bolts are pulled up, from the machine's file.

    `bolts`: their names in the order they are pulled up; none: they are not watched one
    by one. `passes`: how often round them, a like part of the whole each time.
    `limit`: what one bolt's step may move the live number. `torque`: what they are pulled
    up to, N m, None when the file does not say; `wrench`: the number on the torque wrench.
    The defaults are common practice, no source.

    Raises:
        ValueError: a bolt without a name, or two of the same name.
    """

    bolts: tuple[str, ...] = ()
    passes: Annotated[int, Range(1, 20)] = 3
    limit: Annotated[Length, Range(1e-5, 10.0)] = 0.005
    torque: Annotated[Torque, Range(0.1, 5000.0)] | None = None
    wrench: str = ""

    def __post_init__(self) -> None:
        """Refuse names that a warning could not tell apart."""
        _check_names(self.bolts)


@dataclass(frozen=True, slots=True)
class AfterCrash:
    """What is looked at after a crash, from the machine's file.

    `bolts`: every one of head, ram and turret that a wrench is put on; none: those of the axes.

    Raises:
        ValueError: a bolt without a name, or two of the same name.
    """

    bolts: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse names that a list could not tell apart."""
        _check_names(self.bolts)


def _check_names(bolts: tuple[str, ...]) -> None:
    if not all(bolt.strip() for bolt in bolts):
        raise ValueError("bolts: found one without a name; allowed: a name for each bolt")
    twice = next((bolt for bolt in bolts if bolts.count(bolt) > 1), None)
    if twice is not None:
        raise ValueError(f"bolts: found {quoted(twice)} twice; allowed: a name of its own for each")


@dataclass(frozen=True, slots=True)
class BoltStep:
    """One bolt pulled up once: in pass `pass_no` of `of`, both counted from 1."""

    bolt: str
    pass_no: int
    of: int


def steps(tighten: Tighten) -> tuple[BoltStep, ...]:
    """Return every step in order: each bolt once, then round again.

    So two take turns: left, right, left, right. Four or more are named crosswise.
    """
    return tuple(
        BoltStep(bolt, pass_no, tighten.passes)
        for pass_no in range(1, tighten.passes + 1)
        for bolt in tighten.bolts
    )


def next_step(tighten: Tighten, done: int) -> BoltStep | None:
    """Return the step after `done` of them, or None when there is none left."""
    every = steps(tighten)
    return every[done] if done < len(every) else None


def torque(nm: float, unit: Unit) -> Said:
    """Return a torque, N m, as wrenches count it where gauges count in `unit`.

    To 1 % or better: nobody pulls up a bolt by hand to less.
    """
    value = nm / NM_PER[unit]
    digits = next((n for n in range(3) if abs(round(value, n) - value) <= 0.01 * value), 3)
    return said("torque", torque=Figure(value, digits), unit=unit)


def whole(tighten: Tighten, unit: Unit) -> Said | None:
    """Return what bolts are pulled up to in the end; None when the file does not say."""
    if tighten.torque is None:
        return None
    full = torque(tighten.torque, unit)
    return said("torque-by", torque=full, wrench=tighten.wrench) if tighten.wrench else full


def pull(step: BoltStep, tighten: Tighten, unit: Unit) -> Said:
    """Return how far a bolt is pulled up in this pass: "half way", or "to 40 N·m"."""
    share = Fraction(step.pass_no, step.of)
    if tighten.torque is not None:
        return said("pulled-up-to", torque=torque(float(share) * tighten.torque, unit))
    if share in _PARTS:
        return said("pulled-up", share=_PARTS[share])
    return said("pulled-up-by", part=share.numerator, of=share.denominator)


def is_over(shift_mm: float, tighten: Tighten) -> bool:
    """Return whether one step moved the live number by more than it may, either way."""
    return abs(shift_mm) > tighten.limit + SLACK_MM


def over_limit(bolt: str, shift_mm: float, tighten: Tighten, unit: Unit) -> Said | None:
    """Return what to say of a bolt's step that moved the head too far, None if it did not.

    `shift_mm` is what the step did to the live number. What to do then is common practice,
    no source.
    """
    if not is_over(shift_mm, tighten):
        return None
    moved, allowed = (Shown(mm, unit, FINE[unit]) for mm in (abs(shift_mm), tighten.limit))
    several = len(tighten.bolts)
    return said("bolt-over", bolt=bolt, moved=moved, allowed=allowed, bolts=several)


@dataclass(frozen=True, slots=True)
class Habit:
    """What tightening does to heads in general, slopes.

    `mean_sd`: how far the mean shift of one head may be from none; `scatter`: how far one
    head's own shifts lie apart. 5 µm and 1.5 µm over 200 mm: common practice, no source.
    """

    mean_sd: float = 0.005 / 200.0
    scatter: float = 0.0015 / 200.0


HEADS = Habit()
"""What is supposed of a head before any of its tightenings was seen."""


@dataclass(frozen=True, slots=True)
class ShiftStats:
    """What the tightenings of one axis did: how many, their mean, their squares about it.

    Slopes, from check to check; kept up one at a time (the textbook one-pass update).
    """

    n: int = 0
    mean: float = 0.0
    m2: float = 0.0

    def after(self, slope: float) -> "ShiftStats":
        """The same with one more shift."""
        n = self.n + 1
        off = slope - self.mean
        mean = self.mean + off / n
        return ShiftStats(n, mean, self.m2 + off * (slope - mean))


def scatter_of(stats: ShiftStats, habit: Habit = HEADS) -> float:
    """Return how far one head's shifts lie apart, slope, one standard deviation.

    The habit's and the head's own, pooled by degrees of freedom (textbook), so that one odd
    tightening does not undo what the others showed.
    """
    own = max(stats.n - 1, 0)
    return math.sqrt((_PRIOR_DOF * habit.scatter**2 + stats.m2) / (_PRIOR_DOF + own))
