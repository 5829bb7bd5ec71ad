"""How near a turn must come to its stop-at: the band inside which it may end.

Lengths mm; "across" is a difference across the sweep, "on the face" a change of the number that
the parked gauge shows.
"""

import math
from dataclasses import dataclass

_DOUBTS = 1.0
_SHARE = 0.5
"""At the very edge, where hands that come from one side do stop, an axis is then less likely to end
inside than at the stop-at itself by 0.12 at the most, whatever else is in doubt, and by no
more than 0.03 where that is a quarter of the limit (normal distribution)."""
_COUNTS = 2
"""Nobody stops nearer than a gauge's last digit jumps to and fro."""
_NOISE = 2.0


@dataclass(frozen=True, slots=True)
class Band:
    """Half its width on the face, in whole counts; `finer`: the limit asks for less than that."""

    half_mm: float
    finer: bool


def band(
    within_mm: float, doubts_mm: tuple[float, ...], shows: float, count_mm: float, noise_mm: float
) -> Band:
    """Return the band about a stop-at.

    `within_mm`: how far across an axis may be from its goal and is still called in, half of its
    limits' zone less what the shop's rule keeps away from them. `doubts_mm`: standard deviations,
    across, of all that is added to where the turn ends: what the lean is known to before it, what
    tightening does beyond its mean and how well that is known, what the head does when the hand
    leaves. `shows`: what the face shows of a difference across, (R + p) / 2R for a gauge parked at
    radius R with the pivot p away. `count_mm`, `noise_mm`: the gauge's step, and the standard
    deviation of its number with nothing moving.

    Half the width is `shows` · min(`within` − u, `within` / 2), u the doubts in quadrature,
    in whole counts; never less than two counts or twice the noise.
    """
    room_mm = min(within_mm - _DOUBTS * math.hypot(*doubts_mm), _SHARE * within_mm)
    least = max(_COUNTS, math.ceil(_NOISE * noise_mm / count_mm - 1e-6))
    counts = math.floor(max(room_mm, 0.0) * shows / count_mm + 1e-6)
    return Band(max(counts, least) * count_mm, finer=counts < least)
