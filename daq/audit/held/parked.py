"""The stretch with the gauge parked for a move, from its base to the end of the turn."""

from dataclasses import dataclass

from daq.audit.parts import StopAt
from daq.words import Reading


@dataclass(frozen=True)
class Parked:
    """The gauge parked: `base`, its reading before the bolts are cracked, and the stop-at.

    `stop`: None while a question is open, or after a zero: `lost_face_mm` is then the value just
    before it, until the spot is read again. `cracked_face_mm`: what the gauge reads since the
    bolts were cracked. `asked`: where the turn stood when it was last asked whether it had ended.
    """

    base: Reading
    stop: StopAt | None = None
    lost_face_mm: float | None = None
    cracked_face_mm: float | None = None
    asked: Reading | None = None
