"""What the set-up page shows of a gauge that is being learned: what is told, asked and believed."""

from dataclasses import dataclass
from typing import Literal

from daq.words.said import Said, Text

AnswerKind = Literal["face", "length", "speed", "text", "choice", "date", "press"]
"""What is typed: a face's number with its unit, a length, a speed, a name or number, one of the
choices, a day; or nothing: a press says that somebody is ready."""


@dataclass(frozen=True, slots=True)
class LearnChoice:
    """An answer that may be chosen: what is sent for it, and what it says."""

    typed: str
    say: Said


@dataclass(frozen=True, slots=True)
class LearnQuestion:
    """What is asked, by its number. `may_skip`: nothing may be answered, and it goes on."""

    number: int
    kind: AnswerKind
    say: Said
    may_skip: bool
    choices: tuple[LearnChoice, ...] = ()


@dataclass(frozen=True, slots=True)
class KeptGauge:
    """The file that was written: its gauge's key, what a save goes with, what it still lacks."""

    key: str
    seen: str
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LearnUnderWay:
    """A gauge being learned: at which port, by whom, at which step of how many, what was told last.

    `believed`: the number that stands on the face now, as far as is known; "" for none. It `asks`,
    `listens`, when a speed that is tried `may_skip`, or is `over`, then with what was `kept`.
    """

    port: str
    person: str
    state: Literal["listens", "asks", "over"]
    step: Text
    told: tuple[Said, ...]
    believed: str
    may_skip: bool
    question: LearnQuestion | None = None
    kept: KeptGauge | None = None


@dataclass(frozen=True, slots=True)
class LearnView:
    """The gauge being learned, or the last one that was since the service began."""

    talk: LearnUnderWay | None
