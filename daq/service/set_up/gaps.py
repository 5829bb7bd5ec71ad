"""What a gauge's papers say and its file does not: nothing runs with the gauge before."""

import tomllib
from collections.abc import Iterable
from typing import Final, Literal, get_args

from daq.service.files import Amiss
from daq.words import Said

Paper = Literal["name", "serial_number", "travel", "max_error", "calibration_due"]
"""The keys that no wire tells and nobody may guess."""

PAPERS: Final[tuple[Paper, ...]] = get_args(Paper)
GAUGES: Final = "gauges"


def lacking(text: str) -> tuple[Paper, ...]:
    """What a gauge's file, by its text, does not say."""
    table = tomllib.loads(text)
    return tuple(key for key in PAPERS if key not in table)


def gap(problem: Said) -> Paper | None:
    """The key that a gauge's file lacks, if that is what is wrong with it."""
    what, path = problem.of.get("what"), problem.of.get("path")
    if isinstance(what, Said) and what.code == "missing-key":
        return next((key for key in PAPERS if key == path), None)
    return None


def incomplete(amiss: Iterable[Amiss]) -> dict[str, tuple[Paper, ...]]:
    """The gauges with whose files nothing is wrong but that something is missing, by key."""
    found = {}
    for each in amiss:
        gaps = tuple(key for line in each.problems if (key := gap(line)))
        if each.path.parent.name == GAUGES and gaps and len(gaps) == len(each.problems):
            found[each.path.stem] = gaps
    return found
