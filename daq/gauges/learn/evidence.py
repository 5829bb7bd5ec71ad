"""What was heard of a gauge, sorted by what was done to its contact meanwhile."""

from dataclasses import dataclass, field, replace
from typing import Any

from daq.gauges.learn.extra import Extra

Table = dict[str, Any]
"""The `frame` table of a gauge's file."""

Pieces = tuple[bytes, ...]
"""Bytes as they came, in pieces with a silence between one and the next."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a gauge sent: while its contact was `worked`, at `rest`, and `pushed` in.

    `push_mm` is the length of that push; `minus_at_rest` whether its face then showed a
    minus, None if nobody looked; `travel_mm` how far the contact can move. `paused` tells
    that there is a silence after each frame.
    """

    worked: Pieces = ()
    rest: Pieces = ()
    pushed: Pieces = ()
    push_mm: float | None = None
    minus_at_rest: bool | None = None
    travel_mm: float = 12.7
    paused: bool = True

    @property
    def pieces(self) -> Pieces:
        """Everything that was heard, in the order it came."""
        return self.worked + self.rest + self.pushed


@dataclass(frozen=True, slots=True)
class Proposal:
    """A frame table, how well it fits from 0 to 1, and what else follows from it.

    `counts_up`, `step` (in the frames' own unit) and the unit are known after a push only.
    `notes` are sentences for the person who checks the file. `proved` tells that the
    number's last digit was seen to move with the hand, `idle` that it never changed. What is
    `extra` in a frame is no part of the number.
    """

    table: Table
    score: float
    good: int
    counts_up: bool | None = None
    resolution: str = ""
    notes: tuple[str, ...] = field(default=())
    proved: bool = False
    extra: Extra | None = None
    idle: bool = False

    def noted(self, *more: str) -> "Proposal":
        """Return the same with more notes."""
        return replace(self, notes=self.notes + more)
