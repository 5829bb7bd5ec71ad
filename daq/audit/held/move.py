"""A move: the gauge parked for it, the question it may raise, the moves made so far."""

from dataclasses import dataclass, replace

from daq.audit.events import Zeroed
from daq.audit.moved_parts import Late
from daq.audit.parts import LeftAlone, StopAt
from daq.audit.questions import Question
from daq.squaring.shims import Shim
from daq.words import Axis, Reading


@dataclass(frozen=True)
class MoveBase:
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


@dataclass(frozen=True)
class Asked:
    """What is asked; `zeroed`: what follows if the gauge was zeroed, where that is the question."""

    question: Question
    zeroed: Zeroed | None = None


@dataclass(frozen=True)
class Moves:
    """So many were made; `shims`: asked of axes not inside yet; `ended`: no more are wanted.

    `squaring_asked`: by somebody, in an audit that was opened to check only. `first`: the axis that
    somebody wanted moved first; `left_alone`: those that are not moved. `late`: how far past their
    stop-at turns ended.
    """

    made: int = 0
    shims: tuple[tuple[Axis, Shim], ...] = ()
    ended: bool = False
    squaring_asked: bool = False
    first: Axis | None = None
    left_alone: tuple[LeftAlone, ...] = ()
    late: tuple[Late, ...] = ()

    @property
    def alone(self) -> frozenset[Axis]:
        """The axes that are not moved."""
        return frozenset(each.axis for each in self.left_alone)

    def leaving(self, alone: LeftAlone) -> "Moves":
        """The same, with one more that is not moved."""
        return replace(self, left_alone=(*self.left_alone, alone))
