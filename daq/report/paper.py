"""A report as a paper: sections of texts that are worded already, in the order they are read.

Whatever lays it out (on pages, in a browser) adds nothing and leaves nothing out.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Facts:
    """Names and what there is to say under each; one that says nothing is left out."""

    rows: tuple[tuple[str, str], ...]
    kind: Literal["facts"] = "facts"


@dataclass(frozen=True)
class Grid:
    """A table. `wide`: the columns that hold sentences, the others numbers or a few words.

    `struck`: the rows that were taken back. `small`: it has many rows and columns.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    wide: tuple[int, ...] = ()
    struck: tuple[int, ...] = ()
    small: bool = False
    kind: Literal["grid"] = "grid"


@dataclass(frozen=True)
class Lines:
    """Sentences, one below the other."""

    rows: tuple[str, ...]
    kind: Literal["lines"] = "lines"


@dataclass(frozen=True)
class VerdictBlock:
    """What is to be read first: the verdict."""

    text: str
    kind: Literal["stated"] = "stated"


@dataclass(frozen=True)
class Drawing:
    """A picture as SVG, and in words what it shows."""

    svg: str
    says: str
    kind: Literal["drawing"] = "drawing"


Block = Facts | Grid | Lines | VerdictBlock | Drawing


@dataclass(frozen=True)
class Section:
    """Blocks under a heading; "" for none. `key` names it for whoever looks for one."""

    key: str
    heading: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Labels:
    """What stands on every page: `page` has "{n}" and "{of}" where their numbers go."""

    page: str
    end: str
    mark: str
    foot: str
    qr: str


@dataclass(frozen=True)
class Paper:
    """One report. `first`: what stands on its first page, `rest`: what follows.

    `subtitle`: what it is not. `token`: the anchor. `qr`: a picture of it and of the number, SVG.
    `issued_us`: the moment it was issued, UTC microseconds since 1970; None for a draft.
    """

    language: str
    size: Literal["A4", "Letter"]
    shop: tuple[str, ...]
    title: str
    subtitle: str
    number: str
    labels: Labels
    token: str
    qr: str
    issued_us: int | None
    first: tuple[Section, ...]
    rest: tuple[Section, ...]


def facts(rows: Iterable[tuple[str, str]]) -> Facts:
    """Return those that say something."""
    return Facts(tuple((name, text) for name, text in rows if text))


def section(key: str, heading: str, *blocks: Block) -> tuple[Section, ...]:
    """Return a section of the blocks that hold anything; none where none does."""
    kept = tuple(each for each in blocks if not hasattr(each, "rows") or each.rows)
    return (Section(key, heading, kept),) if kept else ()
