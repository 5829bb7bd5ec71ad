"""Events about the head's axes: parked, loosened, moved, checked, tightened.

Fields are millimetres on the gauge's own face where they end in `face_mm`, pushed-in
millimetres where they end in `pushed_mm`.
"""

from dataclasses import dataclass
from typing import Literal

from daq.audit.moved_parts import Foreseen
from daq.audit.parts import AxisResult, Next, Point, StopAt, Whole
from daq.audit.questions import Question
from daq.squaring.surmise import Guess
from daq.words import Axis, Both, Position, Reading, Said

Strange = Literal[
    "", "bumped", "wrong-adjuster", "backwards", "again", "astray", "fell-back", "crept", "asked"
]


@dataclass(frozen=True)
class Parked:
    """The parked reading: the base of the stop-at, or a question instead. `said`: of its preload.

    `visit_mm`: how far it is from what the sweep read here, when nothing at all was touched
    in between. `at_once`: the gauge stood there already, and what it read just now is the base.
    """

    axis: Axis
    reading: Reading
    pushed_mm: float
    expected_pushed_mm: float
    question: Question | None
    stop: StopAt | None
    said: Said | None
    next: Next
    visit_mm: float | None = None
    at_once: bool = False


@dataclass(frozen=True)
class BaseRead:
    """The parked spot read again after a zero; `stop` counts from the new zero."""

    axis: Axis
    reading: Reading
    pushed_mm: float
    stop: StopAt
    next: Next


@dataclass(frozen=True)
class Loosened:
    """The axis's bolts were cracked, and with `both` the other's.

    `drop_face_mm` is what the number did; the stop-at stays.
    """

    axis: Axis
    reading: Reading
    drop_face_mm: float
    next: Next
    both: bool = False


@dataclass(frozen=True)
class StopDoubted:
    """A stop was pressed far from the stop-at, or while the number still creeps: asked about.

    No move until it is meant.
    """

    axis: Axis
    reading: Reading
    past_face_mm: float
    question: Question
    next: Next


@dataclass(frozen=True)
class Moved:
    """The adjuster was turned. `past_face_mm`: reading minus stop-at. `said`: if it went wrong.

    `stands`: where the head must stand now, where nothing is read of it before the next step.
    `way`: which way the lean of its axis was turned last, 1 with the right or the front going
    down, 0 where nobody knows; `late_mm`: how far that went past the stop-at, mm on the face,
    below zero short of it, None where it says nothing of the hand; `creeps`: how far the lean may
    go by itself after this reading, slope, as its samples show it creep.
    """

    axis: Axis
    reading: Reading
    past_face_mm: float
    next: Next
    said: Said | None = None
    stands: Foreseen | None = None
    way: int = 0
    late_mm: float | None = None
    creeps: float = 0.0


@dataclass(frozen=True)
class CheckDone:
    """A pair check. `shift_mm`: how tightening changed the difference, if that came between.

    `before_tightening_mm`: the difference to compare with once the bolts are tight.
    `slack_mm`: how far each axis's parked reading may differ from what
    is remembered because the other one was moved since. `strange`: what must have happened
    when the readings do not fit what was done; nothing is learned from them, and `said` says so.
    "astray": the stop-at left its axis no nearer, or nothing fits for the second time; none is
    given before a turn by hand has shown where the pivot acts.
    "again": the pair is not believed and is read once more; `doubted_mm` is the shift it showed.
    "asked": nothing is made of it before the `question` is answered. `guesses`: what may have
    happened to what did not fit, the likeliest first; `used`: the one that is taken for true.
    """

    axis: Axis
    points: tuple[Point, ...]
    results: Both[AxisResult]
    shift_mm: float | None
    before_tightening_mm: float | None
    slack_mm: Both[float]
    next: Next
    strange: Strange = ""
    said: Said | None = None
    doubted_mm: float | None = None
    whole: Whole | None = None
    guesses: tuple[Guess, ...] = ()
    used: Guess | None = None
    question: Question | None = None


@dataclass(frozen=True)
class BoltPulled:
    """One step of pulling up the bolts. `shift_face_mm`: what it did to the number.

    `since_face_mm`: the number since before the first step. `over`: more than one step may do.
    """

    axis: Axis
    bolt: str
    step: int
    reading: Reading
    shift_face_mm: float
    since_face_mm: float
    over: bool
    said: Said | None
    next: Next


@dataclass(frozen=True)
class Tightened:
    """The axis's bolts are tight again, and with `both` the other's. `stands`: as of a move."""

    axis: Axis
    next: Next
    both: bool = False
    stands: Foreseen | None = None


@dataclass(frozen=True)
class OffScale:
    """The gauge cannot read the head as found: the contact is off, or at its travel's end.

    `beyond_mm`: how far out the head is at least, at this position, seen from where the
    contact stood before.
    """

    position: Position
    beyond_mm: float
    said: Said
    next: Next


@dataclass(frozen=True)
class BroughtCloser:
    """The head was brought closer by scale or square; the bolts are tight again."""

    next: Next
