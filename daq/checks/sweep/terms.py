"""A sweep's uncertainty, term by term (JCGM 100).

Each bound is turned into a standard uncertainty by its distribution. Of "at most b" no more
is known than that each axis's share lies within ± b: rectangular, b/√3 (JCGM 100, 4.3.7). What
is always there at its bound is so never taken for less than it is. A size that was measured
while its direction was not: an axis sees the cosine of it, 1/√2 (arcsine, JCGM 101, 6.4.6).
"""

import math
from dataclasses import dataclass, field
from typing import Final, Literal

from daq.checks.rounding import rounding
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.gauge_terms import Papers, of_gauge
from daq.checks.sweep.slow_turn.fit import SlowTurn
from daq.checks.sweep.steady import BENT
from daq.checks.sweep.warmth import of_warmth
from daq.checks.sweep.weights import Weights, weights
from daq.metrology.budget import Term
from daq.metrology.flicks import Friction
from daq.metrology.repeat import Repeat
from daq.words import Axis, Both, Said, said

Seat = Literal["ring", "plate", "table", "block"]
"""What the contact stands on; a block is moved from spot to spot with the contact lifted."""
TURNS: Final[tuple[Seat, ...]] = ("ring", "plate")
"""What can be turned half round on the table."""
ON_THE_TABLE: Final[tuple[Seat, ...]] = ("table", "block")
"""What stands on the table itself at each spot, slots and all."""
Turned = Literal["", "ring", "arm"]
"""What was turned half round for a second sweep, the result being the mean of both."""

_WAVES: Final = range(2, 7)
"""Waves around the circle that a surface's form is taken to have: beyond, it is roughness."""
_ROUNDING: Final = 1e-9
_WITHIN: Final = 1.0 / math.sqrt(3.0)
_KNOWN: Final = 1.0 / math.sqrt(2.0)
_MEAN_OF_TWO: Final = 1.0 / math.sqrt(2.0)


@dataclass(frozen=True, slots=True)
class SweepFacts:
    """What a sweep's uncertainty depends on. Lengths mm, azimuths degrees.

    `azimuths_deg` and `orders`: as they were read, the return reading included; no orders when no
    drift was fitted. Two opposite azimuths are a pair check. `d_mm`: the differences across 2 ×
    `radius_mm`. `sd_mm`: of one reading between visits, with its degrees of freedom (None: known,
    or assumed), and `seen`, the share of its square that visits showed. `return_error_mm`: what
    the readings' own scatter leaves of it. `scatter_mm`: standard deviation of the samples within
    the readings as the gauge showed them; 0 when the last digit stood still. `second_radius_mm`:
    the other gauge's, on a two-gauge bar; the azimuths are then those of the first, and what was
    fitted are the differences. `friction`: as flicks of the arm showed it, None for the file's
    bound. `papers`: the gauge's.
    `apart_k`: how far apart ring, machine and room were read, None where they were not. `slow`:
    what a slow turn showed, where the sweep is one; azimuths and orders are then of the places that
    its circle is told at.
    """

    radius_mm: float
    azimuths_deg: tuple[float, ...]
    orders: tuple[float, ...]
    d_mm: Both[float]
    sd_mm: float
    sd_dof: float | None
    resolution_mm: float
    max_error_mm: float
    return_error_mm: float = 0.0
    scatter_mm: float = 0.0
    seat: Seat = "ring"
    turned: Turned = ""
    second_radius_mm: float | None = None
    friction: Friction | None = None
    papers: Papers = field(default_factory=Papers)
    seen: float = 0.0
    apart_k: float | None = None
    slow: SlowTurn | None = None

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
        *_of_readings(facts, doubts, follows, axis),
        *of_gauge(
            facts.max_error_mm,
            facts.resolution_mm,
            facts.radius_mm,
            facts.share,
            facts.papers,
            doubts,
            facts.d_mm[axis],
        ),
        _axial(facts, doubts),
        *_of_surface(facts, doubts, follows),
        _form(facts, doubts, follows),
        *of_warmth(
            said("term-temperature", seat=facts.seat) if facts.seat in TURNS else None,
            doubts,
            facts.apart_k,
        ),
        _returned(facts, doubts, follows),
        *_cancelling(facts),
    )


def _of_readings(
    facts: SweepFacts, doubts: Doubts, follows: Weights, axis: Axis
) -> tuple[Term, ...]:
    visits = facts.share * follows.by_visit()
    # A digit that stands still reads a spot the same at every visit, so a spot read twice
    # averages nothing: res/√12 at each of two spots is res/√6 for their difference. Where the
    # reading drifts it is another digit at each visit, which the drift taken out follows too.
    digit = rounding(facts.resolution_mm, facts.scatter_mm)
    counts = max(follows.by_spot(), follows.by_visit())
    return (
        *_of_visits(facts, visits, axis),
        Term(
            said("term-resolution"),
            facts.share * counts * digit,
            note=said("note-resolution"),
        ),
        _friction(facts, doubts, visits),
    )


def _of_visits(facts: SweepFacts, visits: float, axis: Axis) -> tuple[Term, ...]:
    """What differs from one reading of a place to the next, or from one slow turn to the next."""
    averaged, name = _MEAN_OF_TWO if facts.turned else 1.0, said("term-repeatability")
    if facts.slow is None:
        note = said("note-repeatability") if facts.sd_dof else said("note-repeatability-assumed")
        seen = facts.papers.measured
        if not facts.sd_dof and seen is not None and seen.sd_mm is not None:
            note = seen.note(said("note-repeatability-bench"))
        return (Term(name, visits * averaged * facts.sd_mm, facts.sd_dof, note),)
    noise_mm, place_mm = facts.slow.noise_mm[axis], facts.slow.place_of(facts.d_mm, axis)
    return (
        Term(name, averaged * noise_mm, facts.slow.dof, said("note-of-samples")),
        Term(said("term-place"), averaged * place_mm, note=said("note-place")),
    )


def _friction(facts: SweepFacts, doubts: Doubts, visits: float) -> Term:
    # What flicks showed has its few degrees of freedom in u_mm already.
    flicked, seen = facts.friction, facts.papers.measured
    bound, note = doubts.friction, _rubs(flicked)
    if flicked is None and seen is not None and seen.friction_mm is not None:
        bound, note = seen.friction_mm, seen.note(said("note-hysteresis"))
    u_mm = bound * _WITHIN if flicked is None else flicked.u_mm
    left = Repeat(facts.sd_mm, facts.sd_dof, facts.seen).without(u_mm)
    return Term(said("term-friction"), visits * left, note=note)


def _rubs(seen: Friction | None) -> Said:
    if seen is None:
        return said("note-friction")
    match seen.floor:
        case "count":
            return said("note-flicks-in-count", times=seen.returns)
        case "file":
            return said("note-flicks-in-file", times=seen.returns)
    return said("note-flicked", times=seen.returns)


def _axial(facts: SweepFacts, doubts: Doubts) -> Term:
    name = said("term-axial")
    if facts.turned == "arm":
        return Term(name, 0.0, note=said("note-arm-turned"), cancels=True)
    if facts.second_radius_mm is not None:
        return Term(name, 0.0, note=said("note-both-gauges"), cancels=True)
    # Opposite spots differ by twice the amplitude.
    if doubts.spindle_axial_known:
        return Term(name, 2.0 * doubts.spindle_axial * _KNOWN, note=said("note-axial-known"))
    return Term(name, 2.0 * doubts.spindle_axial * _WITHIN, note=said("note-axial"))


def _of_surface(facts: SweepFacts, doubts: Doubts, follows: Weights) -> tuple[Term, ...]:
    if facts.seat == "table":
        return ()
    name = said("term-wedge", seat=facts.seat)
    sits = said("term-seating", seat=facts.seat)
    if facts.seat == "block":
        placed = facts.share * follows.by_visit() * doubts.seating * _WITHIN
        if facts.turned:
            placed *= _MEAN_OF_TWO
        return (
            Term(name, 0.0, note=said("note-same-block"), cancels=True),
            Term(sits, placed, note=said("note-put-down")),
        )
    if facts.turned == "ring":
        note = said("note-turned", seat=facts.seat)
        wedge = Term(name, 0.0, note=note, cancels=True)
    elif doubts.wedge_known:
        wedge = Term(name, doubts.wedge * _KNOWN, note=said("note-wedge-known"))
    else:
        wedge = Term(name, doubts.wedge * _WITHIN, note=said("note-wedge"))
    seating = doubts.seating * _WITHIN
    if facts.turned == "ring":
        # Turned, it is put down anew; an arm clamped anew leaves it where it was.
        seating *= _MEAN_OF_TWO
    return (wedge, Term(sits, seating, note=said("note-seating")))


def _form(facts: SweepFacts, doubts: Doubts, follows: Weights) -> Term:
    """The surface's own waves that these positions take for lean: peak to valley, either way."""
    name = said("term-flatness")
    # Turned half round with the ring, what has an odd number of high places changes sign.
    gain = follows.wave(k for k in _WAVES if facts.turned != "ring" or k % 2 == 0)
    if facts.slow is not None or gain < _ROUNDING:
        return Term(name, 0.0, note=said("note-flatness-seen"), cancels=True)
    half = doubts.form(facts.seat in ON_THE_TABLE) / 2.0
    if facts.second_radius_mm is not None:
        # Both circles of a bar may well be formed alike.
        half *= 2.0 * facts.radius_mm / (facts.radius_mm + facts.second_radius_mm)
    return Term(name, gain * half * _WITHIN, note=said("note-flatness"))


def _returned(facts: SweepFacts, doubts: Doubts, follows: Weights) -> Term:
    # The fit takes the steady part out; how steady it was is not known (`steady`). Where
    # the readings between first and return all count one way, a hump in between counts more.
    # A drift that came back reads zero, and a pair check reads nothing again: never less than
    # the file's bound.
    bound = max(BENT * abs(facts.return_error_mm), doubts.drift)
    note = said("note-return")
    return Term(said("term-return"), bound * _WITHIN * max(1.0, follows.hump()), note=note)


def _cancelling(facts: SweepFacts) -> tuple[Term, ...]:
    zeros = said("note-same-spots") if facts.second_radius_mm is None else said("note-bar-turned")
    alike = said("note-opposite")
    return (
        Term(said("term-zero"), 0.0, note=zeros, cancels=True),
        Term(said("term-sag"), 0.0, note=alike, cancels=True),
        Term(said("term-force"), 0.0, note=alike, cancels=True),
    )
