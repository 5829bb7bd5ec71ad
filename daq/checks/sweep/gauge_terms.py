"""What the gauge, its arm and the circle it is swept on add to a sweep's uncertainty (JCGM 100)."""

import math
from typing import Final

from daq.checks.sweep.doubts import Doubts
from daq.metrology.budget import Term
from daq.words import said

_WITHIN: Final = 1.0 / math.sqrt(3.0)


def of_gauge(
    max_error_mm: float, radius_mm: float, share: float, doubts: Doubts, d_mm: float
) -> tuple[Term, ...]:
    """Return the terms of a difference `d_mm`, mm, read across twice `radius_mm`.

    `share`: how much of what one gauge is off by reaches the difference (`SweepFacts.share`).
    """
    d = abs(d_mm)
    # On a bar each gauge and each radius is off by itself: they count as readings do. The
    # scales of two gauges may well be off alike.
    local = share * doubts.local(max_error_mm)
    radius = share * d * doubts.radius / radius_mm
    # One less the cosine, written so that small angles keep their digits.
    parallel = d * 2.0 * math.sin(doubts.parallel / 2.0) ** 2
    return (
        Term(said("term-scale"), d * doubts.scale * _WITHIN, note=said("note-scale")),
        Term(said("term-local"), local * _WITHIN, note=said("note-local")),
        Term(said("term-radius"), radius * _WITHIN, note=said("note-radius")),
        Term(said("term-parallel"), parallel * _WITHIN, note=said("note-parallel")),
    )
