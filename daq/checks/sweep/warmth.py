"""What a difference of temperature adds to a sweep's uncertainty (JCGM 100).

A ring or plate one side of which is warmer than the other is thicker there: by what steel
grows in its thickness. On the bare table nothing lies between, and a block that is moved
takes its temperature along. Not counted: how the head itself leans as it warms. That is
the head as it stands in its condition, which is stated with the result, and no error.
"""

import math
from typing import Final

from daq.checks.sweep.doubts import Doubts
from daq.metrology.budget import Term
from daq.words import Said, said

STEEL: Final = 11.5e-6
"""How much steel grows a kelvin, as a share (textbook)."""


def of_warmth(lies: Said | None, doubts: Doubts) -> tuple[Term, ...]:
    """Return the term of a difference across what lies on the table, None for nothing."""
    if lies is None:
        return ()
    # Which side is the warmer one nobody knows: anywhere within, rectangular (JCGM 100, 4.3.7).
    grown_mm = STEEL * doubts.thickness * doubts.temperature
    return (Term(lies, grown_mm / math.sqrt(3.0), note=said("note-temperature")),)
