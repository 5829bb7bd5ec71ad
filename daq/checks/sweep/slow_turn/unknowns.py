"""What is fitted to the samples of a slow turn besides the lean, and what is expected of it."""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from daq.checks.sweep.slow_turn.way import Array, Leg, Marks

LAG_S: Final = (0.15, 0.2)
"""How late a gauge shows a number, and the standard deviation of that (common practice, no source:
displays that average show it up to some tenths of a second late)."""
SWITCH_RAD: Final = math.radians(1.0)
"""How well a switch sits at its place: standard deviation, by eye and square (no source)."""
_HALF_RAD: Final[dict[Marks, float]] = {"four": math.radians(1.0), "mark": math.radians(2.0)}
"""How well it is known where the front's switch ends: from the other three, or not at all."""
UNEVEN: Final = 0.2
"""How unevenly a hand turns, as part of its speed, before the samples tell (no source)."""
AT_ENDS: Final = 2.0
"""So much more unevenly where it begins and ends: it starts from rest (no source)."""
FORM_MM: Final = 0.003
"""How large a wave of the surface is expected before the samples tell (no source)."""
WAVES: Final = range(2, 7)
"""Waves a turn that the surface is taken to have: beyond, it is roughness."""
SKIP_S: Final = 0.4
"""From the beginning of each way: what the gauge still shows of the time before."""

_FIRST_FORM: Final = 4
_LAG: Final = _FIRST_FORM + 2 * len(WAVES)
_HALF: Final = _LAG + 1
_SWITCHES: Final = _HALF + 1
_HAND_WAVES: Final[dict[Marks, int]] = {"four": 6, "mark": 20}
"""Half waves that the hand's unevenness is made of, in each stretch between two switches."""
_LEAST_SCALE, _MOST_SCALE = 1.0, 20.0


@dataclass(frozen=True, slots=True, eq=False)
class OnTheWay:
    """The samples on both ways: when, s since the turn began, what they read, on which way."""

    times_s: Array
    mm: Array
    leg: tuple[slice, slice]
    began_s: float

    @classmethod
    def of(cls, times_s: Array, mm: Array, legs: tuple[Leg, Leg]) -> "OnTheWay":
        """Keep what was read on the way; what is shown as a way begins belongs before it."""
        kept = []
        for leg in legs:
            first, last = leg.centres_s[0] + SKIP_S, leg.centres_s[-1]
            kept.append(np.flatnonzero((times_s >= first) & (times_s <= last)))
        forth, back = kept
        both = np.concatenate([forth, back])
        parts = slice(0, len(forth)), slice(len(forth), len(both))
        return cls(times_s[both], mm[both], parts, legs[0].centres_s[0])


@dataclass(frozen=True, slots=True)
class Scales:
    """How uneven the hand and the surface are, as parts of what is expected of them."""

    hand: float = 1.0
    form: float = 1.0


@dataclass(frozen=True, slots=True, eq=False)
class At:
    """Where the contact was at each sample, rad, and how that follows lag, switches and hand."""

    phi: Array
    follows: Array


@dataclass(frozen=True, slots=True, eq=False)
class Unknowns:
    """The level, R·a, R·b, the drift, the surface's waves, the lag, the switches, the hand.

    In this order in every vector. `mean`: what is expected; `sd`: how well, infinite where nothing
    is expected.
    """

    legs: tuple[Leg, Leg]
    marks: Marks
    mean: Array
    sd: Array
    hand: slice

    @classmethod
    def of(cls, legs: tuple[Leg, Leg], marks: Marks) -> "Unknowns":
        """Those of a way round and back."""
        switches = 4 if marks == "four" else 1
        waves = _HAND_WAVES[marks]
        stretches = sum(len(leg.centres_s) - 1 for leg in legs)
        wide = 2.0 * math.pi / switches
        hand = [UNEVEN * wide / (math.pi * k) for k in range(1, waves + 1)]
        free = [math.inf] * _FIRST_FORM + [FORM_MM] * (_LAG - _FIRST_FORM)
        told = [LAG_S[1], _HALF_RAD[marks]] + [SWITCH_RAD] * switches
        sd = np.array([*free, *told, *hand * stretches])
        mean = np.zeros(len(sd))
        mean[_LAG] = LAG_S[0]
        first = _SWITCHES + switches
        by_stretch = sd[first:].reshape(len(legs), -1, waves)
        by_stretch[:, 0] *= AT_ENDS  # a view: those of `sd`
        if by_stretch.shape[1] > 1:
            by_stretch[:, -1] *= AT_ENDS
        return cls(legs, marks, mean, sd, slice(first, len(sd)))

    def at(self, turned: OnTheWay, found: Array) -> At:
        """Where the contact was, with these values of the unknowns."""
        size = len(turned.mm), len(found)
        phi, follows = np.zeros(size[0]), np.zeros(size)
        first, waves = self.hand.start, _HAND_WAVES[self.marks]
        for leg, part in zip(self.legs, turned.leg, strict=True):
            shown_s = turned.times_s[part] - found[_LAG]
            phi[part], speed = leg.azimuth(shown_s)
            follows[part, _LAG] = -speed
            for i, (start, end) in enumerate(stretches := tuple(pairwise(leg.centres_s))):
                done = np.clip((shown_s - start) / (end - start), 0.0, 1.0)
                angles = np.pi * done[:, None] * np.arange(1, waves + 1)
                follows[part, first : first + waves] = np.sin(angles)
                first += waves
                if i == 0:
                    follows[part, _HALF] += leg.way * np.where(shown_s < end, 1.0 - done, 0.0)
                if i == len(stretches) - 1:
                    follows[part, _HALF] -= leg.way * done
        follows[:, _SWITCHES : self.hand.start] = self._by_switch(phi)
        phi = phi + follows[:, _HALF:] @ found[_HALF:]
        return At(phi, follows)

    def _by_switch(self, phi: Array) -> Array:
        """How the place follows where each switch sits: in equal parts between two of them."""
        if self.marks == "mark":
            return np.ones((len(phi), 1))
        quarter = (phi / (0.5 * np.pi))[:, None] - np.arange(4)
        away = np.abs((quarter + 2.0) % 4.0 - 2.0)
        return np.maximum(0.0, 1.0 - away)

    def model(self, turned: OnTheWay, found: Array) -> tuple[Array, Array, Array]:
        """What the samples would read, how that follows each unknown, and where each was, rad."""
        at = self.at(turned, found)
        k = np.array([1, *WAVES])
        angles = at.phi[:, None] * k
        waves = np.stack([np.cos(angles), np.sin(angles)], axis=2).reshape(len(at.phi), -1)
        slopes = np.stack([-k * np.sin(angles), k * np.cos(angles)], axis=2)
        sizes = np.concatenate([found[1:3], found[_FIRST_FORM:_LAG]])
        since = turned.times_s - turned.began_s
        read = found[0] + found[3] * since + waves @ sizes
        steep = slopes.reshape(len(at.phi), -1) @ sizes
        follows = steep[:, None] * at.follows
        follows[:, 0], follows[:, 3] = 1.0, since
        follows[:, 1:3], follows[:, _FIRST_FORM:_LAG] = waves[:, :2], waves[:, 2:]
        return read, follows, at.phi

    def precision(self, scales: Scales) -> Array:
        """What is expected, as weights; `scales`: of the hand and the form, of what was."""
        sd = self.sd.copy()
        sd[self.hand] *= scales.hand
        sd[_FIRST_FORM:_LAG] *= scales.form
        weights: Array = 1.0 / (sd * sd)
        return weights

    def scales(self, found: Array, held: Array) -> Scales:
        """How uneven hand and surface are against what was expected, from what was found so far.

        One step of expectation and maximisation: as far as the samples do not tell, it stays.
        """
        size = (found * found + np.diag(held)) / self.sd**2
        hand, form = np.sqrt([size[self.hand].mean(), size[_FIRST_FORM:_LAG].mean()]).tolist()
        return Scales(*(min(max(seen, _LEAST_SCALE), _MOST_SCALE) for seen in (hand, form)))

    def lag(self, values: Array) -> float:
        """The lag among values of the unknowns."""
        return float(values[_LAG])

    def form(self, values: Array) -> tuple[float, ...]:
        """The surface's waves among values of the unknowns."""
        return tuple(values[_FIRST_FORM:_LAG].tolist())
