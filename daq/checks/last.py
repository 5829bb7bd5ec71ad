"""What the last signed sweep says of a head, for a check that only asks whether it moved since."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from daq.metrology.budget import Term, combine
from daq.metrology.change import noticed
from daq.words import AXES, POSITIONS, Axis, Both, Position, said

Blind = Literal["side", "nod", "front-right", "front-left"]
"""What two spots cannot see: an axis, or a lean toward a corner and away from it."""

_BLIND: Final[dict[tuple[Position, ...], Blind]] = {
    ("front", "right"): "front-right",
    ("front", "left"): "front-left",
    ("right", "left"): "nod",
    ("front", "back"): "side",
}


@dataclass(frozen=True, slots=True)
class Today:
    """What two readings may be off by today besides what every gauge's may; standard, mm.

    Across the circle, as lean: `axial_mm`, the spindle's rise and fall; `wedge_mm` and `seating_mm`
    of what is put down anew, `form_mm` its form between two spots. `placed_mm`: a block put down
    at both. `radius`: how far off the sweep circle's may be, as a part of it. `drift_mm`: from
    the one reading to the other.
    """

    axial_mm: float
    wedge_mm: float
    seating_mm: float
    form_mm: float
    placed_mm: float
    radius: float
    drift_mm: float


@dataclass(frozen=True, slots=True)
class LastSweep:
    """The last signed sweep, and how well the same gauge reads two of its spots today. mm.

    `audit` in its short form, signed on `day`; `seat`: what the contact stands on. `d_mm`: right
    minus left, front minus back; `visits_mm`: how much of how well spots repeat is in them, and
    `then_mm`: of all else that is not the same today. `limit_mm`: half of what each axis may be;
    `room_mm`: how far it may go before it is out, where that is least, and `toward`: 1.0 for the
    right, or the front, going low there, else −1.0. `read`: its spots; `levels_mm`: what they read,
    where the table itself was read at them and so its form, too; `return_mm`: what its drift may
    leave in them. `pair_mm`: what the difference of any two readings may be off by for how well
    spots repeat, with `pair_dof`, and `digit_mm`: for all else that a gauge does by itself.
    """

    audit: str
    day: str
    diameter_mm: float
    seat: str
    read: tuple[Position, ...]
    d_mm: Both[float]
    visits_mm: Both[float]
    then_mm: Both[float]
    limit_mm: Both[float]
    room_mm: Both[float]
    toward: Both[float]
    levels_mm: Mapping[Position, float]
    return_mm: float
    pair_mm: float
    pair_dof: float | None
    digit_mm: float
    today: Today

    @property
    def tight(self) -> Axis:
        """The axis with less room."""
        return "side" if self.room_mm.side < self.room_mm.nod else "nod"


@dataclass(frozen=True, slots=True)
class TwoSpots:
    """What the audit keeps: the two spots, the first less the second, and the sweep behind them."""

    spots: tuple[Position, ...]
    last: LastSweep

    @property
    def blind(self) -> Blind:
        """What they cannot see."""
        return _BLIND[self.spots]

    @property
    def weights(self) -> Both[float]:
        """What of each axis's difference shows in that of the two spots."""
        phi = [math.radians(POSITIONS[spot]) for spot in self.spots]
        side, nod = math.cos(phi[0]) - math.cos(phi[1]), math.sin(phi[1]) - math.sin(phi[0])
        return Both(side / 2.0, nod / 2.0)

    def sees(self, differences: Both[float]) -> float:
        """What both axes' differences come to between the two spots."""
        return self.weights.side * differences.side + self.weights.nod * differences.nod

    @property
    def share(self) -> float:
        """The line from spot to spot, as a part of the circle's diameter."""
        return math.hypot(*self.weights.values())

    @property
    def axis_share(self) -> float:
        """What of one axis's change shows, be it the one or the other."""
        return max(abs(weight) for weight in self.weights.values())

    @property
    def expects_mm(self) -> float:
        """What the two differ by as that sweep left it."""
        if self.last.levels_mm:
            return self.last.levels_mm[self.spots[0]] - self.last.levels_mm[self.spots[1]]
        return self.sees(self.last.d_mm)

    def terms(self) -> Iterator[Term]:
        """What no reading of today shows, and what both times was the same."""
        last, today, lean = self.last, self.last.today, self.share
        note = said("note-then", day=last.day)
        u_mm, dof = self._then()
        yield Term(said("term-then", audit=last.audit), u_mm, dof, note)
        yield Term(said("term-axial"), lean * today.axial_mm, note=said("note-clamped-anew"))
        if last.levels_mm:
            yield Term(said("term-form"), 0.0, note=said("note-same-form"), cancels=True)
        if today.wedge_mm or today.seating_mm:
            wedge, sits = said("term-wedge", seat=last.seat), said("term-seating", seat=last.seat)
            yield Term(wedge, lean * today.wedge_mm, note=said("note-put-anew"))
            yield Term(sits, lean * today.seating_mm, note=said("note-seating"))
        if today.form_mm:
            yield Term(said("term-flatness"), today.form_mm, note=said("note-put-anew"))
        if today.placed_mm:
            sits = said("term-seating", seat=last.seat)
            yield Term(sits, today.placed_mm, note=said("note-put-down"))
        radius = abs(self.expects_mm) * today.radius
        yield Term(said("term-radius"), radius, note=said("note-radius"))
        yield Term(said("term-between"), today.drift_mm, note=said("note-between"))

    def _then(self) -> tuple[float, float | None]:
        """What the sweep itself says of it, or two of its readings where they count as they are."""
        last, today, name = self.last, self.last.today, said("term-then", audit=self.last.audit)
        visits_mm, others = self._of(last.visits_mm), [self._of(last.then_mm)]
        if last.levels_mm:
            visits_mm = last.pair_mm
            axial_mm = self.share * today.axial_mm
            others = [last.digit_mm, axial_mm, today.placed_mm, last.return_mm]
        made = combine(
            [Term(name, visits_mm, self._dof(visits_mm)), *(Term(name, u) for u in others)]
        )
        return made.u_mm, made.dof

    def _of(self, each_mm: Both[float]) -> float:
        """What is off independently on each axis, between the two spots."""
        return math.hypot(*(self.weights[axis] * each_mm[axis] for axis in AXES))

    def _dof(self, visits_mm: float) -> float | None:
        """One estimate says how well spots repeat then and today: its freedom counts once.

        (a² + b²)²/ν is what both together owe; what a⁴/ν leaves of it is owed by b⁴ here (JCGM 100,
        G.4.1, for fully dependent estimates).
        """
        a, b = self.last.pair_mm**2, visits_mm**2
        known = self.last.pair_dof
        return known * b / (2.0 * a + b) if b and known else None

    def sees_mm(self) -> float:
        """A change of one axis that is noticed, across the circle, as known beforehand."""
        name, last = said("term-repeatability"), self.last
        once = Term(name, last.pair_mm, last.pair_dof), Term(name, last.digit_mm)
        made = combine((*once, *self.terms()))
        return noticed(0.0, made.u_mm, made.dof).sees_mm / self.axis_share
