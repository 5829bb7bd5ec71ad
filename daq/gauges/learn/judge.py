"""How well a proposed frame table fits what was heard, as the ordinary decoder finds it."""

from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from daq.gauges import frames
from daq.gauges.learn.evidence import Pieces, Table
from daq.settings import SettingsError

_ROUGH = 3.0
"""Numbers drawn at random go a third of their range from each to the next, on average."""
_STROKES = 2.0
"""So many times a hand goes through the range without being called rough."""
_JUMP = 0.4
_FEWEST = 3


def decoded(table: Table, pieces: Pieces) -> list[frames.Indication] | None:
    """Return the indications of the pieces; None when there is no such decoder."""
    try:
        decoder = frames.decoder(table, "proposal")
    except SettingsError:
        return None
    found: list[frames.Indication] = []
    for piece in pieces:
        found += decoder.feed(piece)
        decoder.gap()
        found += decoder.feed(b"")
    return found


def covered(table: Table, pieces: Pieces, found: Sequence[frames.Indication]) -> float:
    """Return the part of the bytes that is in good frames."""
    closing = 0 if "length" in table else len(table.get("terminator", ""))
    total = sum(map(len, pieces))
    return sum(len(each.raw) + closing for each in found) / total if total else 0.0


def smoothness(values: Sequence[float]) -> float:
    """Return how much a number goes on from where it is: 1 as a hand moves it, 0 at random.

    The longest step counts as well: a sign that was taken for a digit shows there.
    """
    reach = max(values, default=0.0) - min(values, default=0.0)
    steps = [abs(after - before) for before, after in pairwise(values)]
    if not reach or len(steps) < _FEWEST:
        return 1.0
    mean = sum(steps) / len(steps) / reach
    jump = max(0.0, max(steps) / reach - _JUMP) / (1.0 - _JUMP)
    return max(0.0, 1.0 - _ROUGH * max(0.0, mean - _STROKES / len(steps))) * (1.0 - jump)


def score(table: Table, worked: Pieces, pieces: Pieces) -> tuple[float, int]:
    """Return how well a table fits, from 0 to 1, and how many good frames it finds.

    A contact moves on from where it is: what jumps about is read wrongly. Text with a
    decimal sign needs no such proof.
    """
    found = decoded(table, pieces)
    if not found:
        return 0.0, 0
    part = min(1.0, covered(table, pieces, found))
    if table["shape"] == "text" and "places" not in table:
        return part, len(found)
    moving = found if not worked else (decoded(table, worked) or [])
    return part * smoothness([each.value for each in moving]), len(found)


def middle(table: Table, pieces: Pieces) -> float | None:
    """Return the number that a gauge at rest sent, in the frames' own unit; None if it did not."""
    found = decoded(table, pieces)
    return median(each.value for each in found) if found else None
