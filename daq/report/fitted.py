"""What remains of a sweep's readings once its fitted circle is taken out."""

import math

from daq.audit.events import SweepDone
from daq.words import POSITIONS


def remains(done: SweepDone) -> tuple[float, ...]:
    """Return, for each of a sweep's points, reading less fit, mm pushed in.

    The circle as the gauge read it, with what the ring or the spindle adds: level and lean (least
    squares, textbook), the drift taken out of the points already.
    """
    side, nod = (done.results[axis].d_mm + done.parked_adds_mm[axis] for axis in ("side", "nod"))
    bare = []
    for point in done.points:
        at = math.radians(POSITIONS[point.position])
        bare.append(point.pushed_mm - (side * math.cos(at) - nod * math.sin(at)) / 2.0)
    level = math.fsum(bare) / len(bare) if bare else 0.0
    return tuple(each - level for each in bare)
