"""Good enough for this job: what a lean does over a drawing's callout, against its zone.

A zone is as wide as the drawing says, mm: of two planes, or across a cylinder (ISO 1101, from
memory). What follows the spindle is told of: a bore fed by knee or quill follows that, too.
Slopes mm/mm; squares of a slope are left out beside 1.
"""

import math
from dataclasses import dataclass, replace
from typing import Annotated, Literal

from daq.metrology.rule import Limits, Rule, judge
from daq.settings import Length, Range
from daq.words import CannotBe, Word, said

_Size = Annotated[Length, Range(0.1, 5_000.0)]
_Zone = Annotated[Length, Range(1e-4, 10.0)]


def sagitta(chord: float, diameter: float) -> float:
    """Return how deep the middle of a chord lies within its circle: (D − √(D² − e²))/2."""
    # Written so that short chords keep their digits.
    return chord * chord / (diameter + math.sqrt(diameter * diameter - chord * chord)) / 2.0


@dataclass(frozen=True, slots=True)
class Bore:
    """A hole or a bore, perpendicular to what lies on the table within a cylinder."""

    depth: _Size
    zone: _Zone

    def does(self, side: float, nod: float) -> float:
        """How far its axis runs off over its depth, mm: h · tan τ."""
        return self.depth * math.hypot(side, nod)


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall cut by the cutter's flank, perpendicular within two planes.

    `faces`: right or left, front or back, or any way.
    """

    height: _Size
    zone: _Zone
    faces: Literal["right-left", "front-back", "any"] = "any"

    def does(self, side: float, nod: float) -> float:
        """How far its top stands off its foot, mm: the lean toward it over its height."""
        if self.faces == "any":
            return self.height * math.hypot(side, nod)
        return self.height * abs(side if self.faces == "right-left" else nod)


@dataclass(frozen=True, slots=True)
class Face:
    """A milled face within two planes: "flat" however they lie, or "parallel" to the table.

    In one pass with the cutter over its middle, or in several, `pass_step` apart; `feed`: which
    way they run.

    Raises:
        ValueError: more than the cutter covers.
    """

    width: _Size
    zone: _Zone
    cutter: _Size
    pass_step: _Size | None = None
    to: Literal["flat", "parallel"] = "flat"
    feed: Literal["left-right", "front-back"] = "left-right"

    def __post_init__(self) -> None:
        """Refuse what would leave a ridge."""
        key, found = (
            ("width", self.width) if self.pass_step is None else ("pass_step", self.pass_step)
        )
        if found > self.cutter:
            raise CannotBe(
                said("wider-than-cutter", key=key, found=f"{found:g}", cutter=f"{self.cutter:g}")
            )

    def does(self, side: float, nod: float) -> float:
        """How far its highest line stands over its lowest, mm.

        A cutter of radius r that leans by p along the feed and q across it leaves
        z = −(q y + p √(r² − y²)) at y from its middle (textbook, from memory).
        """
        p, q = (side, nod) if self.feed == "left-right" else (nod, side)
        p, q, r = abs(p), abs(q), self.cutter / 2.0
        if self.pass_step is not None and self.pass_step < self.width:
            return _passes(p, q, r, self.pass_step)
        deep = sagitta(self.width, self.cutter)
        if self.to == "flat":  # the planes lean with what the face leans across the feed
            return p * deep
        lean, half, root = math.hypot(p, q), self.width / 2.0, r - deep
        # Lowest where the circle's slope is the lean's own, unless that lies beside the face.
        return q * half - p * root + lean * r if q * r < lean * half else 2.0 * q * half


def _passes(p: float, q: float, r: float, step: float) -> float:
    """The same where each pass takes off what the one before it left `step` beside it.

    Two passes meet at a ridge, at the ends of a chord `step` long on the slope q/p: it stands as
    far over the lowest line as the chord's middle lies within the circle. Leaning too steeply for
    that, the cutter's very edge leaves a stair.
    """
    lean = math.hypot(p, q)
    chord = step * lean / (2.0 * p) if p else math.inf
    if chord < r:
        within = math.sqrt(r * r - chord * chord)
        if within * p >= chord * q:
            return lean * sagitta(2.0 * chord, 2.0 * r)
    return lean * r - q * (r - step) - p * math.sqrt(step * (2.0 * r - step))


@dataclass(frozen=True, slots=True)
class Leans:
    """A sweep's leans, each with its standard uncertainty, slopes; `dof`: None for many."""

    side: float
    nod: float
    u_side: float
    u_nod: float
    dof: float | None = None


@dataclass(frozen=True, slots=True)
class Enough:
    """What a lean does over a callout, mm, its standard uncertainty, and the answer.

    "in": good enough; "out": not; "close": too close to call. `guard_mm` is kept to the zone.
    Not `good_enough`: with this uncertainty nothing could be called in.
    """

    does_mm: float
    u_mm: float
    guard_mm: float
    word: Word
    good_enough: bool


def enough(callout: Bore | Wall | Face, leans: Leans, rule: Rule) -> Enough:
    """Return whether the head is good enough for one callout, by the shop's rule for one limit.

    The uncertainty is what changes when each lean changes by its own (JCGM 100, 5.1.3, note 2,
    from memory), by the larger of both ways: near nothing the effect only grows.
    """
    side, nod = leans.side, leans.nod
    does = callout.does(side, nod)

    def by(u_side: float, u_nod: float) -> float:
        both = callout.does(side + u_side, nod + u_nod), callout.does(side - u_side, nod - u_nod)
        return max(abs(each - does) for each in both)

    u = math.hypot(by(leans.u_side, 0.0), by(0.0, leans.u_nod))
    limits, alone = Limits(-callout.zone, callout.zone), replace(rule, together="each")
    judged = judge(does, u, leans.dof, limits, alone)
    return Enough(does, u, judged.guard_mm, judged.word, judged.good_enough)
