"""What a difference of temperature adds to a sweep's uncertainty (JCGM 100).

A ring or plate one side of which is warmer than the other is thicker there: by what steel grows in
its thickness. On the bare table nothing lies between, and a block that is moved takes its
temperature along. Every part of it lies between what was read of it, of the machine and of the
room; where nobody read them, the file says how far apart its sides may be. Not counted: how the
head itself leans as it warms. That is the head as it stands in its condition, which is stated with
the result, and no error.
"""

import math
from typing import Final

from daq.checks.sweep.doubts import Doubts
from daq.metrology.budget import Term
from daq.words import Figure, Said, said

STEEL: Final = 11.5e-6
"""How much steel grows a kelvin, as a share (textbook)."""

_THERMOMETER_K: Final = 0.5
"""How far off one thermometer may tell two temperatures apart (common practice, no source)."""


def warmer(doubts: Doubts, apart_k: float | None) -> float:
    """Return how much warmer one side may be, K; `apart_k`: as read, None where it was not."""
    return doubts.temperature if apart_k is None else apart_k + _THERMOMETER_K


def of_warmth(lies: Said | None, doubts: Doubts, apart_k: float | None = None) -> tuple[Term, ...]:
    """Return the term of a difference across what lies on the table, None for nothing.

    `apart_k`: how far apart what lies there, the machine and the room were read.
    """
    if lies is None:
        return ()
    # Which side is the warmer one nobody knows: anywhere within, rectangular (JCGM 100, 4.3.7).
    grown_mm = STEEL * doubts.thickness * warmer(doubts, apart_k)
    return (Term(lies, grown_mm / math.sqrt(3.0), note=_note(doubts, apart_k)),)


def _note(doubts: Doubts, apart_k: float | None) -> Said:
    if apart_k is None:
        return said("note-temperature")
    apart = Figure(apart_k, 1)
    if warmer(doubts, apart_k) > doubts.temperature:
        return said("note-temperature-more", apart=apart)
    return said("note-temperature-read", apart=apart)
