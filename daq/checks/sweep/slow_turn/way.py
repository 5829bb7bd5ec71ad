"""From the switches of a collar that the arm passed to where it was when.

A switch is closed over a few degrees, so both its edges tell a place and a speed. The way goes once
round from the front and back to it; of the stay at either end only the edge toward the way counts,
so that nobody has to begin, turn back or stop at any place exactly.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from typing import Final, Literal

import numpy as np
import numpy.typing as npt

from daq.words import FOUR_POSITIONS, POSITIONS, Figure, Passed, Position, Said, SaidTrouble, said

Array = npt.NDArray[np.float64]
Marks = Literal["four", "mark"]
"""The switches of a collar: one at each of the four places, or one at the front alone."""

LEAST_TURN_S: Final = 6.0
"""Turned quicker, the gauge shows too few numbers of each place (common practice, no source)."""
HALF_DEG: Final = 3.0
"""Half of what a switch is closed over, where nothing tells it."""
_MOST_HALF_DEG: Final = 15.0
_FRONT: Final = FOUR_POSITIONS[0]
_QUARTER: Final = 90.0
_LOOK_BACK: Final = 12
"""So many switches back, the latest attempt is taken to have begun."""
_UNLIKE: Final = 3.0
"""One way takes no more than so many times the other, or a mark was missed or told twice."""


class NotRoundError(SaidTrouble):
    """The arm did not go once round and back; `said` tells what it did."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One way round: `times_s` of the edges passed, `degrees` of each, rising or falling.

    `centres_s`: when the middle of each switch was passed; between two of them nothing tells
    where the arm is but how it moved at both.
    """

    times_s: Array
    degrees: Array
    centres_s: tuple[float, ...]

    @property
    def way(self) -> float:
        """1 where the azimuth rises, −1 where it falls."""
        return math.copysign(1.0, self.degrees[-1] - self.degrees[0])

    @property
    def seconds(self) -> float:
        """How long it took from front to front."""
        return self.centres_s[-1] - self.centres_s[0]

    def azimuth(self, at_s: Array) -> tuple[Array, Array]:
        """The azimuth at times, rad, and how fast it changes, rad/s."""
        degrees, speed = monotone(self.times_s, self.degrees, at_s)
        return np.radians(degrees), np.radians(speed)

    def azimuth_at(self, at_s: float) -> float:
        """The azimuth at one time, rad."""
        return float(self.azimuth(np.array([at_s]))[0][0])


@dataclass(frozen=True, slots=True)
class _Stay:
    """From the closing of a switch to its opening, s; None where that was before or is to come."""

    place: Position
    came_s: float
    left_s: float


def place_at(azimuth: float) -> Position:
    """The place nearest to an azimuth, rad."""
    degrees = math.degrees(azimuth)
    return min(POSITIONS, key=lambda place: abs((degrees - POSITIONS[place] + 180) % 360 - 180))


def legs_of(passed: Sequence[Passed], marks: Marks, since_ns: int) -> tuple[Leg, Leg]:
    """Return the last way round and the way back; times in seconds since `since_ns`.

    Raises:
        NotRoundError: what was done instead.
    """
    stays = _stays(passed, since_ns)
    if not stays:
        raise NotRoundError(said("round-no-switch"))
    found = _by_four(stays) if marks == "four" else _by_mark(stays)
    halves_deg = _halves_deg(*found)
    legs = _leg(found[0], halves_deg), _leg(found[1], halves_deg)
    per_leg = len(found[0]) - 1
    quickest = min(b - a for leg in legs for a, b in pairwise(leg.centres_s)) * per_leg
    if quickest < LEAST_TURN_S:
        turn, least = Figure(quickest, 1), Figure(LEAST_TURN_S, 0)
        raise NotRoundError(said("round-too-fast", turn=turn, least=least))
    return legs


def so_far(passed: Sequence[Passed], marks: Marks) -> Said:
    """How far round and back the arm has come, or that it goes too fast."""
    stays = _stays(passed, passed[0].at_ns)
    at = [FOUR_POSITIONS.index(stay.place) for stay in stays]
    ways = _WAYS if marks == "four" else _TURNS
    gone = max((n for way in ways for n in range(1, len(way) + 1) if at[-n:] == way[:n]), default=0)
    stretch_s = LEAST_TURN_S / 4 if marks == "four" else LEAST_TURN_S
    if gone > 1 and stays[-1].came_s - stays[-2].came_s < stretch_s and at[-1] != at[-2]:
        return said("slow-turn-slower")
    of = 8 if marks == "four" else 2
    return said("slow-turn-so-far", place=stays[-1].place, done=max(0, min(gone - 1, of)), of=of)


def _stays(passed: Sequence[Passed], since_ns: int) -> list[_Stay]:
    stays: list[_Stay] = []
    for edge in passed:
        at_s = (edge.at_ns - since_ns) / 1e9
        last = stays[-1] if stays else None
        if edge.closed:
            stays.append(_Stay(edge.place, at_s, math.nan))
        elif last is None:
            stays.append(_Stay(edge.place, math.nan, at_s))
        elif last.place == edge.place and math.isnan(last.left_s):
            stays[-1] = _Stay(edge.place, last.came_s, at_s)
    return stays


_Turned = tuple[float, _Stay]
"""How far round from the front, degrees, and the stay there."""


_WAYS: Final = tuple(
    [quarter * way % 4 for quarter in (*range(5), *back)]
    for way in (1, -1)
    for back in (range(4, -1, -1), range(3, -1, -1))
)
"""The places of a way round and back: past the front and in again, or not out of it between."""
_TURNS: Final = ([0, 0, 0],)


def _by_four(stays: list[_Stay]) -> tuple[list[_Turned], list[_Turned]]:
    at = [FOUR_POSITIONS.index(stay.place) for stay in stays]
    for whole in _WAYS:
        if at[-len(whole) :] == whole:
            way = _QUARTER if whole[1] == 1 else -_QUARTER
            told = [way * quarter for quarter in range(5)]
            there = stays[-len(whole) :][: len(told)]
            return _told(told, there), _told(told[::-1], stays[-len(told) :])
    raise NotRoundError(_astray(stays, at))


def _told(degrees: list[float], stays: list[_Stay]) -> list[_Turned]:
    return list(zip(degrees, stays, strict=True))


def _astray(stays: list[_Stay], at: list[int]) -> Said:
    """What the latest attempt was, from the front on, instead of once round and back."""
    first = next((i for i in range(max(0, len(at) - _LOOK_BACK), len(at)) if at[i] == 0), 0)
    turned = way = 0
    back = False
    for i in range(first + 1, len(at)):
        step = (at[i] - at[i - 1] + 2) % 4 - 2
        if step == -2:
            return said("round-missed", before=stays[i - 1].place, after=stays[i].place)
        way = way or step
        if abs(turned) == 4 and step != way:
            back = True
        if step != (-way if back else way) and not (step == 0 and abs(turned) == 4):
            return said("round-went-back", place=stays[i - 1].place)
        turned += step
    gone = 8 - abs(turned) if back else abs(turned)
    return said("round-half-way", place=stays[-1].place, quarters=gone)


def _by_mark(stays: list[_Stay]) -> tuple[list[_Turned], list[_Turned]]:
    if len(stays) < 3:
        raise NotRoundError(said("round-too-few", marks=len(stays)))
    outs = [after.came_s - before.left_s for before, after in pairwise(stays[-4:])]
    past = len(outs) == 3 and outs[1] < 0.5 * min(outs[0], outs[2])
    there, back = (stays[-4:-2] if past else stays[-3:-1]), stays[-2:]
    took = outs[0 if past else -2], outs[-1]
    if not min(took) * _UNLIKE > max(took):
        forth, home = (Figure(seconds, 1) for seconds in took)
        raise NotRoundError(said("round-unlike", forth=forth, back=home))
    whole = 4.0 * _QUARTER
    return _told([0.0, whole], there), _told([whole, 0.0], back)


def _halves_deg(*ways: list[_Turned]) -> dict[Position, float]:
    """Half of what each switch is closed over, from how long the arm took to pass it.

    Of the front, which it need not pass wholly: as of the others.
    """
    found: dict[Position, list[float]] = {}
    for way in ways:
        for (start, before), (_, stay), (end, after) in zip(way, way[1:], way[2:], strict=False):
            speed = abs(end - start) / (after.came_s - before.left_s)
            half = 0.5 * speed * (stay.left_s - stay.came_s)
            if half > 0.0:
                found.setdefault(stay.place, []).append(min(half, _MOST_HALF_DEG))
    halves = {place: sum(each) / len(each) for place, each in found.items()}
    halves[_FRONT] = median(halves.values()) if halves else HALF_DEG
    return halves


def _leg(turned: list[_Turned], halves_deg: dict[Position, float]) -> Leg:
    (start, first), *between, (end, last) = turned
    way, front = math.copysign(1.0, end - start), halves_deg[_FRONT]
    edges = [(first.left_s, start + way * front)]
    for degrees, stay in between:
        half = way * halves_deg.get(stay.place, front)
        edges += [(stay.came_s, degrees - half), (stay.left_s, degrees + half)]
    edges.append((last.came_s, end - way * front))
    known = [edge for edge in edges if not math.isnan(edge[0])]
    middles = [0.5 * (stay.came_s + stay.left_s) for _, stay in between]
    return Leg(
        np.array([at_s for at_s, _ in known]),
        np.array([POSITIONS[_FRONT] + degrees for _, degrees in known]),
        (first.left_s, *middles, last.came_s),
    )


def monotone(times: Array, values: Array, at: Array) -> tuple[Array, Array]:
    """Return what rises or falls through these values at any times between, and its slope.

    Piecewise cubic that never turns where the values do not (Fritsch and Carlson 1980, with
    the weighted harmonic mean of Fritsch and Butland 1984); before and after them it rests.
    """
    step = np.diff(times)
    slope = np.diff(values) / step
    ends = np.concatenate([slope[:1], np.zeros(len(slope) - 1), slope[-1:]])
    if len(slope) > 1:
        near, far = 2.0 * step[1:] + step[:-1], step[1:] + 2.0 * step[:-1]
        same = slope[:-1] * slope[1:] > 0.0
        safe = np.where(same, slope[:-1], 1.0), np.where(same, slope[1:], 1.0)
        mean = (near + far) / (near / safe[0] + far / safe[1])
        ends[1:-1] = np.where(same, mean, 0.0)
    i = np.clip(np.searchsorted(times, at, side="right") - 1, 0, len(slope) - 1)
    part = np.clip((at - times[i]) / step[i], 0.0, 1.0)
    bend = 3.0 * slope[i] - 2.0 * ends[i] - ends[i + 1]
    twist = ends[i] + ends[i + 1] - 2.0 * slope[i]
    value = values[i] + step[i] * part * (ends[i] + part * (bend + part * twist))
    speed = ends[i] + part * (2.0 * bend + 3.0 * part * twist)
    return value, np.where((at < times[0]) | (at > times[-1]), 0.0, speed)
