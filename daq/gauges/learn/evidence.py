"""What was heard of a gauge, and what its face showed meanwhile."""

from dataclasses import dataclass
from typing import Any

from daq.gauges.learn.face import TypedFace

Table = dict[str, Any]
"""The `frame` table of a gauge's file."""

Pieces = tuple[bytes, ...]
"""Bytes as they came, in pieces with a silence between one and the next."""


@dataclass(frozen=True, slots=True)
class Held:
    """What came while the contact was held still, and the number on the face."""

    face: TypedFace
    pieces: Pieces


@dataclass(frozen=True, slots=True)
class Evidence:
    """All that came at one setting of the line, and the parts of it with a face beside them.

    `paused` tells that there is a silence after each frame; `travel_mm` how far the contact
    can move.
    """

    held: tuple[Held, ...] = ()
    heard: Pieces = ()
    paused: bool = True
    travel_mm: float = 12.7


@dataclass(frozen=True, slots=True)
class Encoding:
    """One way to read all the faces out of the bytes: a frame table, and how simple it is.

    `cost` counts what had to be assumed. `signed` tells that numbers of both signs were on the
    face. `smooth`: how much the numbers in between go on as a hand moves them, 0 to 1.
    """

    table: Table
    cost: float
    good: int
    signed: bool = True
    smooth: float = 1.0
