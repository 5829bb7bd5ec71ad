"""What the page of an audit on record gets; what is to be read is a `Text`."""

from dataclasses import dataclass
from typing import Literal

from daq.audit.parts import Verdict
from daq.audit.views.shapes import Numbers
from daq.words import Text, Word
from daq.words.setup import Fact

Stands = Literal["open", "signed", "given-up"]


@dataclass(frozen=True, slots=True)
class CameTo:
    """An axis, or what else came out: its value, limit, expanded uncertainty and word."""

    value: Text
    low: Text
    limit: Text
    expanded: Text
    word: Word | Literal[""]
    say_word: Text


@dataclass(frozen=True, slots=True)
class ResultRow:
    """One thing that was judged, as found beside as left; None where it was not read so."""

    say: Text
    found: CameTo | None
    left: CameTo | None


@dataclass(frozen=True, slots=True)
class ReadingCell:
    """A reading of a sweep or a round; `struck_by`: the row that took it back."""

    seq: int
    place: Text
    value: Text
    spread: Text
    samples: int
    struck_by: int | None


@dataclass(frozen=True, slots=True)
class SweptView:
    """A sweep, a pair check or a round of stations, with its readings and what it came to.

    `seq`: the row that finished it, None for readings that came to nothing.
    """

    seq: int | None
    say: Text
    readings: tuple[ReadingCell, ...]
    came_to: tuple[Text, ...]
    struck_by: int | None


@dataclass(frozen=True, slots=True)
class DoneView:
    """A move, a bolt's step, or a question with its answer: what happened, its numbers, its row."""

    seq: int
    what: Text
    detail: tuple[Text, ...]
    struck_by: int | None


@dataclass(frozen=True, slots=True)
class RowView:
    """A row of the ledger, told.

    `utc`: when, by the Pi's clock, which a time server had set if `sure`; `local`: the same in the
    shop's zone, "" where no zone is known; `when`: both, said. `let_go`: the row by which
    its samples were let go on purpose. `sound`: it is as it was written.
    """

    seq: int
    type: str
    utc: str
    local: str
    sure: bool
    when: Text
    what: Text
    detail: tuple[Text, ...]
    by: Text
    struck_by: int | None
    hash: str
    evidence: tuple[str, ...]
    let_go: int | None
    sound: bool


@dataclass(frozen=True, slots=True)
class RecordView:
    """An audit on record, whole.

    `stands`: whether it is open, signed or given up. `verdict`: of its signature. `says`: rule,
    measurand and what stands with the verdict; `addenda` what was added later, the latest first.
    `moves`, `asked`: what was done to the head, and the questions. `sound`: every row and its
    evidence were found as they were written, just now; `checked`: how that was seen, or which rows
    are not.
    """

    audit: str
    short: str
    machine: str
    machine_say: Text
    of: Text
    practice: bool
    stands: Stands
    state: Text
    verdict: Verdict | None
    results: tuple[ResultRow, ...]
    says: tuple[Text, ...]
    addenda: tuple[Text, ...]
    facts: tuple[Fact, ...]
    sound: bool
    checked: Text
    swept: tuple[SweptView, ...]
    moves: tuple[DoneView, ...]
    asked: tuple[DoneView, ...]
    numbers: Numbers | None
    zone: str
    rows: tuple[RowView, ...]
    last_row: int
    last_hash: str
