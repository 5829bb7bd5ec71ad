"""What the gauge, its papers and its circle add to a sweep's uncertainty (JCGM 100)."""

import math
from dataclasses import dataclass
from typing import Final

from daq.checks.gauge.measured import BenchMeasured
from daq.checks.sweep.doubts import Doubts
from daq.metrology.budget import Term
from daq.words import said

_WITHIN: Final = 1.0 / math.sqrt(3.0)
_ALIKE: Final = 0.5
"""How far the certificate's errors at two points a short span apart go together.

Both hold what was off in the setting, its scale and its temperature (all of which cancels),
and each the digit and the repeats of its own readings (none of which does). A certificate does
not say how much of either, so half: common practice, no source.
"""


@dataclass(frozen=True, slots=True)
class Papers:
    """What a gauge's papers say of it today. Lengths mm, angles rad.

    `u_mm`: standard uncertainty of its error at one point, None where its file names none.
    `gone_mm`: how far that error may have gone since that day, None where no day is known.
    `span_error_mm`: the worst its error changed over a short span in its latest check, None
    where none showed it; `measured`: what else that check showed. `angle`: a lever's stylus to
    the surface, and `angle_doubt` how far that may be off, None for a plunger.
    """

    u_mm: float | None = None
    gone_mm: float | None = None
    span_error_mm: float | None = None
    angle: float = 0.0
    angle_doubt: float | None = None
    measured: BenchMeasured | None = None


def of_gauge(
    max_error_mm: float,
    resolution_mm: float,
    radius_mm: float,
    share: float,
    papers: Papers,
    doubts: Doubts,
    d_mm: float,
) -> tuple[Term, ...]:
    """Return the terms of a difference `d_mm`, mm, read across twice `radius_mm`.

    `share`: how much of what one gauge is off by reaches the difference (`SweepFacts.share`).
    """
    d = abs(d_mm)
    # On a bar each gauge and each radius is off by itself: they count as readings do. The
    # scales of two gauges may well be off alike.
    radius = share * d * doubts.radius / radius_mm
    # One less the cosine, written so that small angles keep their digits.
    parallel = d * 2.0 * math.sin(doubts.parallel / 2.0) ** 2
    return (
        Term(said("term-scale"), d * doubts.scale * _WITHIN, note=said("note-scale")),
        _local(doubts.local(max_error_mm, resolution_mm), share, papers, doubts),
        *_certified(share, papers),
        Term(said("term-radius"), radius * _WITHIN, note=said("note-radius")),
        Term(said("term-parallel"), parallel * _WITHIN, note=said("note-parallel")),
        *_lever(papers, d),
    )


def _local(local_mm: float, share: float, papers: Papers, doubts: Doubts) -> Term:
    name = said("term-local")
    if doubts.local_error is None and papers.span_error_mm is not None:
        checked = share * papers.span_error_mm * _WITHIN
        note = said("note-local-checked")
        seen = papers.measured
        return Term(name, checked, note=note if seen is None else seen.note(note))
    return Term(name, share * local_mm * _WITHIN, note=said("note-local"))


def _certified(share: float, papers: Papers) -> tuple[Term, ...]:
    """What the certificate leaves open, and what may have become of it since."""
    name = said("term-certificate")
    if papers.u_mm is None:
        return (Term(name, 0.0, note=said("note-no-certificate")),)
    # A difference takes two points: u² (1 + 1 - 2 r).
    u_mm = share * papers.u_mm * math.sqrt(2.0 - 2.0 * _ALIKE)
    term = Term(name, u_mm, note=said("note-certificate"))
    if papers.gone_mm is None:
        return (term,)
    # What its zero drifted cancels; how much of the rest is zero nobody knows: all is counted.
    since = share * papers.gone_mm * _WITHIN
    return (term, Term(said("term-since"), since, note=said("note-since")))


def _lever(papers: Papers, d: float) -> tuple[Term, ...]:
    """A stylus that stands at another angle than the file says: cos α is not the cosine it has."""
    if papers.angle_doubt is None:
        return ()
    # (cos α - cos(α + δ)) / cos α = tan α sin δ + 1 - cos δ: at α = 0 the second order is all.
    steeper = math.tan(papers.angle) * math.sin(papers.angle_doubt)
    off = d * (steeper + 2.0 * math.sin(papers.angle_doubt / 2.0) ** 2)
    return (Term(said("term-lever"), off * _WITHIN, note=said("note-lever")),)
