"""What events are made of: steps, points, results, the stop-at, questions and findings."""

from dataclasses import dataclass
from typing import Literal

from daq.words import Axis, Position

Step = Literal[
    "prepare",
    "touch-free",
    "touch-push",
    "as-found",
    "park",
    "question",
    "loosen",
    "move",
    "check",
    "tighten",
    "final",
    "clear",
    "sign",
]
Purpose = Literal["as-found", "final"]
Word = Literal["in", "out"]


@dataclass(frozen=True)
class Next:
    """Where the audit goes from here."""

    step: Step
    axis: Axis | None = None


@dataclass(frozen=True)
class AxisResult:
    """One axis after a sweep or a pair check.

    `d_mm`: right minus left (side), front minus back (nod), pushed in. `error_mm`
    is what is left of it after the wanted lean; `limit_mm` is the tolerance on
    this sweep's diameter.
    """

    d_mm: float
    error_mm: float
    limit_mm: float
    word: Word


@dataclass(frozen=True)
class Point:
    """The latest known value at a position, pushed in."""

    position: Position
    pushed_mm: float


@dataclass(frozen=True)
class StopAt:
    """The one move: the reading at which to stop turning, on the gauge's own face.

    `lean` and `wanted` are slopes seen from the parked position (positive: low there).
    """

    axis: Axis
    position: Position
    base_face_mm: float
    stop_face_mm: float
    lean: float
    wanted: float


@dataclass(frozen=True)
class Answer:
    """One way to answer a question."""

    key: str
    say: str


@dataclass(frozen=True)
class Question:
    """Asked when the parked reading does not agree with the sweep; no stop-at until answered."""

    code: str
    say: str
    answers: tuple[Answer, ...]


@dataclass(frozen=True)
class CheckPoint:
    """One known length in a gauge's check: what it is and what the gauge said, mm from zero."""

    nominal_mm: float
    read_mm: float
    direction: Literal["up", "down"]


@dataclass(frozen=True)
class Finding:
    """Something a sweep showed besides the lean. `blocking`: sweep again."""

    code: str
    say: str
    blocking: bool
