"""What a stage hands to the pages: its instruction, its buttons, what hands do first."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from daq.words import Axis, Person, Position, Text


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the values that a field may take."""

    key: str
    say: Text


@dataclass(frozen=True, slots=True)
class Field:
    """One thing to be filled in before a button's command is sent.

    `value`: what it begins with; `note`: where that comes from. `instead_of`: the name of another
    one that need not be filled in, once this is. `suggests`: texts that it may be filled in with by
    a press; any other may be typed.
    """

    name: str
    say: Text
    type: Literal["text", "date", "choice", "tick"] = "text"
    required: bool = True
    choices: tuple[Choice, ...] = ()
    value: str = ""
    instead_of: str = ""
    note: Text = None
    suggests: tuple[Person | str, ...] = ()


@dataclass(frozen=True, slots=True)
class Action:
    """One button: the command it sends, what stands on it and the key that presses it.

    `under`: what is chosen among the buttons that stand under it together; None among one choice.
    """

    kind: str
    say: Text
    payload: Mapping[str, Any] = field(default_factory=dict)
    primary: bool = False
    key: str = ""
    fields: tuple[Field, ...] = ()
    confirm: Text = None
    under: Text = None


@dataclass(frozen=True, slots=True)
class ByHand:
    """What a person's hands do before pressing: nothing, or what needs no more said."""

    kind: Literal["nothing", "free", "push", "slow-turn"]


@dataclass(frozen=True, slots=True)
class Swing:
    """The gauge is swung to a place; `flick`: and its arm flicked three times there."""

    position: Position | None
    flick: bool = False
    kind: Literal["swing"] = "swing"


@dataclass(frozen=True, slots=True)
class Clamp:
    """The bolts of an axis, or of both, are cracked, or tightened all together."""

    kind: Literal["loosen", "tighten"]
    axis: Axis | None
    both: bool = False


@dataclass(frozen=True, slots=True)
class PullUp:
    """One bolt is pulled up, so far as `say` says."""

    axis: Axis | None
    bolt: str
    say: Text
    kind: Literal["bolt"] = "bolt"


@dataclass(frozen=True, slots=True)
class Nudge:
    """The adjuster is turned a little, back the way it came or either way."""

    axis: Axis | None
    back: bool
    kind: Literal["nudge"] = "nudge"


@dataclass(frozen=True, slots=True)
class Turn:
    """The adjuster is turned until the gauge reads that."""

    axis: Axis | None
    stop_at_text: Text
    kind: Literal["turn"] = "turn"


@dataclass(frozen=True, slots=True)
class Come:
    """A station is come to: `what` hands do there, and where things stand then, mm or degrees."""

    what: str
    to: Mapping[str, float | int | str]
    kind: Literal["station"] = "station"


Do = ByHand | Swing | Come | Clamp | PullUp | Nudge | Turn


@dataclass(frozen=True, slots=True)
class Wording:
    """What to do now; `warnings` are to be seen before it is done."""

    title: Text
    detail: Text = None
    notes: tuple[Text, ...] = ()
    warnings: tuple[Text, ...] = ()
