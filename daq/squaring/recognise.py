"""Does what was read fit what was done? What does not is said, and not learned from."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from daq.squaring.response import Standing
from daq.squaring.story import Seen

Odd = Literal["bumped", "wrong-adjuster", "backwards"]
_NEARER = 0.5
"""A turn is to bring its axis nearer to where it should be by more than this part of the way."""

_UNLIKELY = 4.0
"""Standard deviations from what was expected at which a reading is not believed to fit."""
_LEAST_MM = 0.006
"""Nothing smaller is called a knock: a head settles by as much (common practice, no source)."""
_CLEAR_MM = 0.03
"""A smaller turn could be hidden, or turned round, by a knock."""
_WIDE_MM = 0.02
"""Creep when the hand leaves, and most knocks, lean a head by less (common practice, no source)."""
_FOLLOWED = 0.25
"""A lean that changed by less than this part of what was expected did not follow."""


@dataclass(frozen=True, slots=True)
class TurnSeen:
    """What the turn of an axis should have done to its lean, and did; differences, mm."""

    expected_mm: float
    found_mm: float


def came_nearer(turn: TurnSeen) -> bool:
    """Return whether a turn left clearly less to do than there was, whatever else happened."""
    return abs(turn.expected_mm - turn.found_mm) < _NEARER * abs(turn.expected_mm)


def is_wide(turn: TurnSeen) -> bool:
    """Return whether a turn missed by more than creep, or a knock as a rule, may make of it."""
    return abs(turn.expected_mm - turn.found_mm) > _WIDE_MM


def is_reversed(turn: TurnSeen) -> bool:
    """Return whether a turn went the other way by more than a knock as a rule makes of it."""
    other_way = turn.found_mm * turn.expected_mm < 0.0
    return other_way and abs(turn.found_mm) > max(_CLEAR_MM, abs(turn.expected_mm) * _FOLLOWED)


def surprise(expected: Standing, seen: Sequence[Seen], reading_mm: float) -> float:
    """Return how unlikely the readings are together, in standard deviations of one.

    `expected` stands before them; `reading_mm` is one reading's own scatter. The root of
    the Mahalanobis distance per reading; 0 when no reading is further off than any head
    settles by.
    """
    means, rows = zip(*(expected.weights(entry.position) for entry in seen), strict=True)
    off = np.array([entry.pushed_mm for entry in seen]) - np.array(means)
    if np.max(np.abs(off)) < _LEAST_MM:
        return 0.0
    weights = np.array(rows)
    own = [reading_mm**2 + entry.more_mm**2 for entry in seen]
    spread = weights @ expected.covariance @ weights.T + np.diag(own)
    # Spots in one boundless doubt together tell nothing of it: their spread has no inverse then.
    told = np.linalg.lstsq(spread, off, rcond=None)[0]
    return math.sqrt(max(0.0, float(off @ told)) / len(off))


def is_strange(surprised: float) -> bool:
    """Return whether readings so surprising cannot be believed to fit."""
    return surprised >= _UNLIKELY


def strange(turn: TurnSeen) -> Odd:
    """Return what must have happened when the readings do not fit the move they follow."""
    if abs(turn.expected_mm) > _CLEAR_MM:
        share = turn.found_mm / turn.expected_mm
        if share < -_FOLLOWED:
            return "backwards"
        if share < _FOLLOWED:
            return "wrong-adjuster"
    return "bumped"
