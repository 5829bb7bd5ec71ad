"""What belongs to one head and is carried from audit to audit, and what it starts from.

A prior comes from the machine's file: tape-measured pivots with their doubt. A ram
swung by ψ turns both hinge lines by ψ about the vertical: each axis then answers on the
other by the tangent of ψ, and its pivot acts at its distance divided by the cosine
(plane trigonometry).
"""

import math
from dataclasses import astuple, dataclass, replace
from functools import lru_cache
from typing import Final

import numpy as np

from daq.squaring.equations import FIRST
from daq.squaring.response import Answering
from daq.squaring.resting import LATER, RESTS
from daq.squaring.tightening import HEADS, ShiftStats
from daq.words import AXES, Axis, Both

_SAME_RAM = 0.0017
"""Two angles of a ram this near are one: a tenth of a degree, rad."""
_SENSES: dict[Axis, float] = {"side": -1.0, "nod": 1.0}
"""Which way a coupling changes with a ram swung anticlockwise, seen from above."""
ANYWHERE_MM = 500.0
"""No pivot acts further from the spindle than about this, either way."""
_PER_AUDIT = (0.2, 0.0002, 2.0, 0.2, 0.0002, 2.0, 5e-6, 5e-6, *[5e-6] * 4)
"""How far P, κ and h of a head may wander from one audit to the next (mm, -, mm), what
tightening does to it on average and by how much it goes back when it is let go (slopes)."""

NONE_SEEN: Final = Both(ShiftStats(), ShiftStats())


@dataclass(frozen=True)
class Learned:
    """How a head answers its adjusters and its bolts.

    `ram`: the angle the ram was swung by when it was learned, rad, and `file_ram` what the
    machine's file said then; `file`: its pivots, heights and couplings with their doubts.
    `audits`: how many audits it was learned from; `shift_stats`: what tightening each axis did,
    `rest_stats`: how far each went back when it was let go (slopes), `stop_stats`: how far past
    the stop-at each was let go, mm at the parked gauge.
    """

    answering: Answering
    ram: float = 0.0
    file_ram: float = 0.0
    audits: int = 0
    shift_stats: Both[ShiftStats] = NONE_SEEN
    rest_stats: Both[ShiftStats] = NONE_SEEN
    stop_stats: Both[ShiftStats] = NONE_SEEN
    file: tuple[float, ...] = ()

    def holds_for(self, file: "Learned") -> bool:
        """Whether the machine's file still says what it said when this was learned."""
        same = not self.file or self.file == file.file
        return same and abs(self.file_ram - file.file_ram) < _SAME_RAM

    def unsure_of(self, axis: Axis) -> "Learned":
        """The same with nothing known of where this axis's pivot acts."""
        rows = [list(row) for row in self.answering.covariance]
        at = FIRST[axis]
        for i in range(len(rows)):
            rows[at][i] = rows[i][at] = 0.0
        rows[at][at] = ANYWHERE_MM**2
        covariance = tuple(tuple(row) for row in rows)
        return replace(self, answering=replace(self.answering, covariance=covariance))

    def carried(self) -> "Learned":
        """The same as another audit starts from it: a little less sure."""
        rows = [list(row) for row in self.answering.covariance]
        for i, sd in enumerate(_PER_AUDIT):
            rows[i][i] += sd * sd
        covariance = tuple(tuple(row) for row in rows)
        return replace(self, answering=replace(self.answering, covariance=covariance))


@dataclass(frozen=True, slots=True)
class AxisPrior:
    """One axis as the machine's file gives it: a value and its standard uncertainty each."""

    pivot_mm: float
    pivot_doubt_mm: float
    height_mm: float
    height_doubt_mm: float
    coupling: float
    coupling_doubt: float


@lru_cache(maxsize=64)
def from_file(axes: Both[AxisPrior], ram: float, file_ram: float) -> Learned:
    """Return what a head starts from before anything is learned.

    `ram`: how far the ram is swung, `file_ram`: what the file says of it, rad.

    An anticlockwise ram (seen from above) turns nod partly into side: the couplings are
    + tan ψ for nod and − tan ψ for side, beside what the file gives.
    """
    mixed, stretched = math.tan(ram), 1.0 / math.cos(ram)
    mean: list[float] = []
    variance: list[float] = []
    for axis, mixes in ((axes.side, -mixed), (axes.nod, mixed)):
        mean += [axis.pivot_mm * stretched, axis.coupling + mixes, axis.height_mm]
        doubts = (axis.pivot_doubt_mm, axis.coupling_doubt, axis.height_doubt_mm)
        variance += [doubt * doubt for doubt in doubts]
    mean += [0.0] * 6
    variance += [habit.mean_sd**2 for habit in (HEADS, RESTS, LATER) for _ in AXES]
    rows = tuple(
        tuple(value if i == j else 0.0 for j in range(len(variance)))
        for i, value in enumerate(variance)
    )
    said = (*astuple(axes.side), *astuple(axes.nod))
    return Learned(Answering(tuple(mean), rows), ram, file_ram, file=said)


def swung(head: Answering, angle: float, doubt: float = 0.0) -> Answering:
    """The head with its ram swung by `angle` from where it stands, rad, give or take `doubt`.

    Both hinge lines turn about the spindle. Each stays as far from it, so that its pivot acts at
    that distance divided by the cosine of the line's angle, whose tangent is the coupling (plane
    trigonometry).
    """
    mean, by = np.array(head.mean), np.zeros(len(head.mean))
    for axis, sense in _SENSES.items():
        at = FIRST[axis]
        was = math.atan(head.mean[at + 1])
        now = was + sense * angle
        mean[at] *= math.cos(was) / math.cos(now)
        mean[at + 1] = math.tan(now)
        by[at] = sense * mean[at] * math.tan(now)
        by[at + 1] = sense / math.cos(now) ** 2
    covariance = np.array(head.covariance) + doubt * doubt * np.outer(by, by)
    return Answering(tuple(mean.tolist()), tuple(map(tuple, covariance.tolist())))


def swung_by(head: Answering, now: Answering) -> float:
    """By which angle the ram is swung if `head` answers like `now`, rad: the couplings' mean."""
    turned = (
        sense * (math.atan(now.coupling(axis)) - math.atan(head.coupling(axis)))
        for axis, sense in _SENSES.items()
    )
    return math.fsum(turned) / len(_SENSES)
