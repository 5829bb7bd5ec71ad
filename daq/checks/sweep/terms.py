"""A sweep's uncertainty, term by term (JCGM 100).

Each bound is turned into a standard uncertainty by its distribution (JCGM 100, 4.3):
anywhere within ± b, b/√3; a size that is known but whose direction is not, of which an
axis sees the cosine, 1/√2 of it; both together, anything up to w in any direction, w/√6.
"""

import math
from dataclasses import dataclass
from typing import Final, Literal

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.rounding import rounding
from daq.checks.sweep.weights import Weights, weights
from daq.metrology.budget import Term
from daq.words import Axis

Seat = Literal["ring", "plate", "table", "block"]
"""What the contact stands on; a block is moved from spot to spot with the contact lifted."""
TURNS: Final[tuple[Seat, ...]] = ("ring", "plate")
"""What can be turned half round on the table."""
Reversed = Literal["", "ring", "arm"]
"""What was turned half round for a second sweep, the result being the mean of both."""

_WITHIN: Final = 1.0 / math.sqrt(3.0)
_KNOWN: Final = 1.0 / math.sqrt(2.0)
_BOUNDED: Final = 1.0 / math.sqrt(6.0)
_MEAN_OF_TWO: Final = 1.0 / math.sqrt(2.0)


@dataclass(frozen=True, slots=True)
class SweepFacts:
    """What a sweep's uncertainty depends on. Lengths mm, azimuths degrees.

    `azimuths_deg` and `orders`: as they were read, the return reading included; no orders
    when no drift was fitted. Two opposite azimuths are a pair check. `d_side_mm`, `d_nod_mm`:
    the differences across 2 × `radius_mm`. `sd_mm`: of one reading between visits, with its
    degrees of freedom (None: known). `scatter_mm`: standard deviation of the samples within
    the readings as the gauge showed them; 0 when the last digit stood still.
    `second_radius_mm`: the other gauge's, on a two-gauge bar; the azimuths are then those
    of the first, and what was fitted are the differences.
    """

    radius_mm: float
    azimuths_deg: tuple[float, ...]
    orders: tuple[float, ...]
    d_side_mm: float
    d_nod_mm: float
    sd_mm: float
    sd_dof: float | None
    resolution_mm: float
    max_error_mm: float
    return_error_mm: float = 0.0
    scatter_mm: float = 0.0
    seat: Seat = "ring"
    reversed: Reversed = ""
    second_radius_mm: float | None = None

    def d_mm(self, axis: Axis) -> float:
        """The difference of one axis, mm."""
        return self.d_side_mm if axis == "side" else self.d_nod_mm

    @property
    def share(self) -> float:
        """How much of what one gauge's reading is off by reaches the difference.

        All of it with one gauge. On a bar the fit's radius is the sum of both while the
        difference is across the first's circle, and two gauges' readings scatter as √2 of one.
        """
        if self.second_radius_mm is None:
            return 1.0
        return math.sqrt(2.0) * self.radius_mm / (self.radius_mm + self.second_radius_mm)


def terms(facts: SweepFacts, doubts: Doubts, axis: Axis) -> tuple[Term, ...]:
    """Return every term of the uncertainty of one axis's difference across the sweep.

    Those that cancel are among them, marked so.

    Raises:
        ValueError: the azimuths do not tell this axis.
    """
    follows = weights(facts.azimuths_deg, facts.orders, axis)
    return (
        *_of_readings(facts, doubts, follows),
        *_of_gauge(facts, doubts, facts.d_mm(axis)),
        _axial(facts, doubts),
        *_of_surface(facts, doubts, follows),
        _returned(facts, follows),
        *_cancelling(facts),
    )


def _of_readings(facts: SweepFacts, doubts: Doubts, follows: Weights) -> tuple[Term, ...]:
    visits = facts.share * follows.by_visit()
    averaged = _MEAN_OF_TWO if facts.reversed else 1.0
    # A digit that stands still reads a spot the same at every visit, so a spot read twice
    # averages nothing: res/√12 at each of two spots is res/√6 for their difference.
    digit = rounding(facts.resolution_mm, facts.scatter_mm)
    return (
        Term(
            "repeatability",
            "How well a spot reads the same when the gauge comes back to it",
            visits * averaged * facts.sd_mm,
            facts.sd_dof,
            "pooled over visits; √2 of one reading for two spots, more where a drift is taken out",
        ),
        Term(
            "resolution",
            "The gauge's last digit",
            facts.share * follows.by_spot() * digit,
            note="digit/√6 for a difference when it stands still, less when it moves",
        ),
        Term(
            "friction",
            "Plunger friction on a springy arm",
            visits * doubts.friction * _WITHIN,
            note="always approached from the same side; what is left, anywhere within its bound",
        ),
    )


def _of_gauge(facts: SweepFacts, doubts: Doubts, d_mm: float) -> tuple[Term, ...]:
    d = abs(d_mm)
    # On a bar each gauge and each radius is off by itself: they count as readings do. The
    # scales of two gauges may well be off alike.
    local = facts.share * doubts.local(facts.max_error_mm)
    radius = facts.share * d * doubts.radius / facts.radius_mm
    return (
        Term(
            "scale",
            "The gauge's scale",
            d * doubts.scale * _WITHIN,
            note="its share of the difference read, anywhere within its bound",
        ),
        Term(
            "local",
            "The gauge's error over the short span used",
            local * _WITHIN,
            note="anywhere within its bound; the error over the whole travel would overstate",
        ),
        Term(
            "radius",
            "The sweep radius",
            radius * _WITHIN,
            note="the difference grows with the radius; half-width over √3",
        ),
        Term(
            "parallel",
            "Plunger not parallel to the spindle",
            # One less the cosine, written so that small angles keep their digits.
            d * 2.0 * math.sin(doubts.parallel / 2.0) ** 2 * _WITHIN,
            note="it reads more than the height by one over the cosine",
        ),
    )


def _axial(facts: SweepFacts, doubts: Doubts) -> Term:
    say = "The spindle's rise and fall once a turn"
    if facts.reversed == "arm":
        note = "the arm was clamped half a turn round for a second sweep: it changes sign"
        return Term("axial", say, 0.0, note=note, cancels=True)
    if facts.second_radius_mm is not None:
        return Term("axial", say, 0.0, note="it moves both gauges alike", cancels=True)
    # Opposite spots differ by twice the amplitude.
    note = "looks exactly like lean; twice its amplitude at most, in any direction: /√6"
    return Term("axial", say, 2.0 * doubts.spindle_axial * _BOUNDED, note=note)


def _of_surface(facts: SweepFacts, doubts: Doubts, follows: Weights) -> tuple[Term, ...]:
    if facts.seat == "table":
        return ()
    if facts.seat == "block":
        placed = facts.share * follows.by_visit() * doubts.seating * _WITHIN
        if facts.reversed:
            placed *= _MEAN_OF_TWO
        note = "it is put down anew at every spot, anywhere within its bound"
        return (
            Term("wedge", "The block", 0.0, note="the same block at every spot", cancels=True),
            Term("seating", "How the block sits", placed, note=note),
        )
    say = f"The {facts.seat}'s wedge"
    if facts.reversed == "ring":
        note = f"the {facts.seat} was turned half round for a second sweep: it changes sign"
        wedge = Term("wedge", say, 0.0, note=note, cancels=True)
    elif doubts.wedge_known:
        note = "its size is known, its direction is not: /√2"
        wedge = Term("wedge", say, doubts.wedge * _KNOWN, note=note)
    else:
        note = "at most so much, in any direction: /√6"
        wedge = Term("wedge", say, doubts.wedge * _BOUNDED, note=note)
    sits = doubts.seating * _BOUNDED
    if facts.reversed == "ring":
        # Turned, it is put down anew; an arm clamped anew leaves it where it was.
        sits *= _MEAN_OF_TWO
    note = "looks exactly like lean; at most so much, in any direction: /√6"
    return (wedge, Term("seating", f"How the {facts.seat} sits", sits, note=note))


def _returned(facts: SweepFacts, follows: Weights) -> Term:
    # Uncorrected, a difference would be off by half the return error at most; the steady part
    # is taken out by the fit, how steady it was is not known: anywhere within ± half. Where
    # the readings between first and return all count one way, a hump in between counts more.
    return Term(
        "return",
        "Drift that was not steady",
        abs(facts.return_error_mm) / 2.0 * _WITHIN * max(1.0, follows.hump()),
        note="return error/(2√3), more where all but the first spot count one way",
    )


def _cancelling(facts: SweepFacts) -> tuple[Term, ...]:
    zeros = (
        "the same at every spot"
        if facts.second_radius_mm is None
        else "out by turning the bar half round"
    )
    alike = "the same at opposite spots"
    return (
        Term("zero", "The gauge's zero", 0.0, note=zeros, cancels=True),
        Term("sag", "The arm's sag", 0.0, note=alike, cancels=True),
        Term("force", "Contact force", 0.0, note=alike, cancels=True),
    )
