"""The class: each learner's run of a lesson, what it scored, and the file that keeps them."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field, fields
from pathlib import Path
from typing import Any, Final, Literal

from daq.virtual import store
from daq.virtual.score import Lost
from daq.words import Axis

MOST: Final = 200
"""So many runs are kept; older ones go."""


@dataclass(slots=True)
class LessonRun:
    """A learner's run of a lesson; `learner` is "" where nobody gave a name.

    `audit` is the audit it led to, "" before one is open. `score` and `lost` are there once it is
    `signed`. Truly the leans were `began` and, as signed, `left`, slopes; `shown`: whether anybody
    may see that.
    """

    nth: int
    lesson: str
    learner: str
    began: Mapping[Axis, float]
    audit: str = ""
    state: Literal["open", "signed", "given-up"] = "open"
    score: int = 0
    lost: Sequence[Lost] = ()
    left: Mapping[Axis, float] = field(default_factory=dict)
    shown: bool = False


class Learners:
    """The runs there were, in a file if one is given."""

    def __init__(self, file: Path | None) -> None:
        """Read the file. Raises StateFileError when it is not such a one."""
        self._file = file
        self.runs: list[LessonRun] = [] if file is None else _read(file)

    def add(self, lesson: str, learner: str, began: Mapping[Axis, float]) -> LessonRun:
        """Begin a run; one that was left open is given up."""
        for ran in self.runs:
            if ran.state == "open":
                ran.state = "given-up"
        last = self.runs[-1].nth if self.runs else 0
        self.runs = [*self.runs[-(MOST - 1) :], LessonRun(last + 1, lesson, learner, began)]
        self.keep()
        return self.runs[-1]

    def keep(self) -> None:
        """Write all down."""
        if self._file is not None:
            store.save(self._file, {"runs": [asdict(ran) for ran in self.runs]})


def _read(file: Path) -> list[LessonRun]:
    found = store.load(file)
    try:
        return [] if found is None else [_ran(each) for each in found["runs"]]
    except (AttributeError, KeyError, TypeError) as error:
        raise store.StateFileError(f"{file}: not a list of runs ({error}); move it away") from error


def _ran(table: Mapping[str, Any]) -> LessonRun:
    known = {each.name: table[each.name] for each in fields(LessonRun)}
    # The demo has ended meanwhile: nobody saw what hands did since.
    state = "given-up" if known["state"] == "open" else known["state"]
    return LessonRun(**{**known, "state": state, "lost": [Lost(**lost) for lost in known["lost"]]})
