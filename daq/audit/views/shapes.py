"""What a page gets of a machine: the wall's view and the console's, every text still unsaid.

A code that a page looks at (a step, a word, a state) is a plain text here; what is to be read
is a `Text`.
"""

from dataclasses import dataclass, field
from typing import Literal

from daq.audit.parts import Step
from daq.audit.views.station_view import StationView
from daq.audit.views.step import Action, Do
from daq.words import Axis, Position, Text, Unit, Word


@dataclass(frozen=True, slots=True)
class StageView:
    """One stretch of the audit, and whether it is behind, under way or ahead."""

    key: str
    say: Text
    state: Literal["done", "now", "todo"]


@dataclass(frozen=True, slots=True)
class Halt:
    """What to do at a step while there is no number."""

    say: Text
    detail: Text


@dataclass(frozen=True, slots=True)
class Message:
    """What came of the last step, if it is to be told."""

    code: str
    say: Text


@dataclass(frozen=True, slots=True)
class SpotView:
    """One place of the circle: the number read there, and its age if it is not of now."""

    position: Position
    say: Text
    value: Text
    age: Text
    state: Literal["empty", "next", "parked", "done"]


Picture = Literal["circle", "adjust", "bolts", "stations", "verdict", "touch", "lines"]
"""What the wall draws at a step, beside its instruction; "lines": nothing but words."""

Look = Literal["same", "look"]
"""Nothing moved, or: look closer."""


@dataclass(frozen=True, slots=True)
class AxisView:
    """One axis: its error with the limit over the circle's diameter, and the word for it.

    Or one thing that another check came to; `axis` is "" then, and `low` where it points.
    `low`: which side is low; `zone`: the error as a part of its limit; `only`: one side may be
    off at all, above zero or below it. `doubt`: what is kept free inside the limit, as a part of
    it; `found`: the error as found, as a part of its limit then.
    """

    axis: Axis | Literal[""]
    say: Text
    value: Text = None
    age: Text = None
    low: Text = None
    limit: Text = None
    over: Text = None
    word: Word | Literal[""] = ""
    only: Literal["", "high", "low"] = ""
    note: Text = None
    zone: float | None = None
    doubt: float | None = None
    found: float | None = None


@dataclass(frozen=True, slots=True)
class StopView:
    """The stop-at, where the number stands, how far and which way it has to go.

    `axis` and `position`: where an axis of the head is turned; `within`: how near is near enough.
    """

    axis: Axis | None
    position: Position | None
    value: Text
    base: Text
    change: Text
    way: Literal["up", "down"]
    past: Text
    say: Text
    within: Text = None


@dataclass(frozen=True, slots=True)
class BoltsView:
    """Whose turn it is, what one bolt may do to the number and what those before it did.

    `order`: all of them as they are pulled up.
    """

    bolt: Text
    step: int
    of: int
    limit: Text
    since: Text
    order: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AnswerView:
    """One answer to a question."""

    key: str
    say: Text


@dataclass(frozen=True, slots=True)
class QuestionView:
    """What is asked, and what may be answered."""

    say: Text
    answers: tuple[AnswerView, ...]


@dataclass(frozen=True, slots=True)
class VerdictView:
    """The verdict, and what it says; of a check that judges none, whether anything moved."""

    word: Word | Look
    say: Text


@dataclass(frozen=True, slots=True)
class WallView:
    """What the wall shows: the instruction, the circle, both axes, the stop-at, the verdict.

    `picture`: what is drawn. `headline`: what is told or warned of, in a few words. `arm`: that the
    arm is in the spindle, as long as it is or may be. `hands`: whose hands an open audit is in that
    was handed over.
    """

    machine_name: Text
    unit: Unit
    reason: Text
    step: Step | Literal["idle", "signed", "unsafe", "no-record"]
    steps: tuple[StageView, ...]
    title: Text
    detail: Text
    halt: Halt | None
    notes: tuple[Text, ...]
    cautions: tuple[Text, ...]
    warnings: tuple[Text, ...]
    message: Message | None
    headline: Text
    circle: tuple[SpotView, ...]
    axes: tuple[AxisView, ...]
    stop_at: StopView | None
    bolts: BoltsView | None
    question: QuestionView | None
    verdict: VerdictView | None
    moves: int
    stations: tuple[StationView, ...] = field(default=(), kw_only=True)
    picture: Picture = field(default="lines", kw_only=True)
    arm: Text = field(default=None, kw_only=True)
    hands: Text = field(default=None, kw_only=True)


@dataclass(frozen=True, slots=True)
class TermView:
    """One term of the uncertainty; `dof`: its degrees of freedom, nothing for many."""

    key: str
    say: Text
    value: Text
    dof: Text
    note: Text
    cancels: bool


@dataclass(frozen=True, slots=True)
class AxisNumbers:
    """What one axis's verdict rests on: the error, its doubt term by term, the guard, the word.

    Or that of one thing another check came to, `axis` "", which need not be judged. `u`: the
    standard uncertainty, `expanded` times `k` for the `coverage` stated. `terms`: a row each,
    the biggest first, last those that cancel. `toward`: where it points. `risk`: the verdict and
    the risk that its rule takes; `assumes`: what that rests on beside.
    """

    axis: Axis | Literal[""]
    say: Text
    error: Text
    u: Text
    guard: Text
    guard_say: Text
    probability: Text
    word: Text
    good_enough: bool
    toward: Text = None
    expanded: Text = None
    k: Text = None
    dof: Text = None
    coverage: Text = None
    risk: Text = None
    assumes: Text = None
    terms: tuple[TermView, ...] = ()


@dataclass(frozen=True, slots=True)
class Numbers:
    """What the latest verdict rests on, and what the lean does to the work; `say`: whose it is.

    `age`: of which state of the head. `decides`: what can be decided, and what would help. `work`,
    `head` and it are empty for another check.
    """

    say: Text
    age: Text
    rule: Text
    condition: Text
    axes: tuple[AxisNumbers, ...]
    work: tuple[Text, ...]
    head: tuple[Text, ...]
    decides: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True)
class Console(WallView):
    """Everything the wall shows, the actions of this step and the audit they belong to.

    `decides`: what can be decided here and what would help, where "in" will be hard to have.
    `stands`: what stands with a verdict: what it is of, its rule, how likely it is so. `why`: what
    the stop-at, or the shim, is made of.
    """

    actions: tuple[Action, ...]
    do: Do
    numbers: Numbers | None
    audit: str | None
    short: str
    decides: tuple[Text, ...] = field(default=(), kw_only=True)
    stands: tuple[Text, ...] = field(default=(), kw_only=True)
    why: tuple[Text, ...] = field(default=(), kw_only=True)


@dataclass(frozen=True, slots=True)
class Pages:
    """The view of each page."""

    wall: WallView
    console: Console
