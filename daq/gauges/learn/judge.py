"""What the ordinary decoder finds with a proposed frame table, and how it moves."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from daq.gauges import frames
from daq.gauges.learn.evidence import Pieces, Table
from daq.settings import SettingsError

_ROUGH: Final = 3.0
"""Numbers drawn at random go a third of their range from each to the next, on average."""
_STROKES: Final = 2.0
"""So many times a hand goes through the range without being called rough."""
_FEWEST: Final = 3


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


def strange(table: Table, pieces: Pieces) -> float:
    """Return how many frames that a table calls bad come to each that it reads."""
    decoder = frames.decoder(table, "proposal")
    good = 0
    for piece in pieces:
        good += len(decoder.feed(piece))
        decoder.gap()
        good += len(decoder.feed(b""))
    return decoder.bad / max(1, good)


def smoothness(values: Sequence[float]) -> float:
    """Return how much a number goes on from where it is: 1 as a hand moves it, 0 at random."""
    reach = max(values, default=0.0) - min(values, default=0.0)
    steps = [abs(after - before) for before, after in pairwise(values)]
    if not reach or len(steps) < _FEWEST:
        return 1.0
    mean = sum(steps) / len(steps) / reach
    return max(0.0, 1.0 - _ROUGH * max(0.0, mean - _STROKES / len(steps)))
