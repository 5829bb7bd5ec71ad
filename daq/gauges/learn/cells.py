"""What stands around a number in many frames of text, cell by cell, and how a layout says it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

_CELL: Final = re.compile(rb"[0-9A-Za-z]+|[ ]+|.", re.DOTALL)
UNIT: Final = re.compile(rb"( *)((?i:mm|inch|in))(?![a-z])")
"""A unit behind a number, with the blanks before it."""

_STAMP: Final = re.compile(rb"\d+(?:[:/.-]\d+){2,}|[-+]?\d+[.,]\d+|\d+:\d\d")
"""Times, days and numbers of others may stand still for a while and go on later."""
_JOINS: Final = b":/.-,+"
_BLANK: Final = b" "
_UNSAFE: Final = re.compile(r"[^\x20-\x7e]|\\")


@dataclass(frozen=True, slots=True)
class Cell:
    """What stood at one place of all frames."""

    tokens: tuple[bytes, ...]
    role: str = ""

    @property
    def always(self) -> bytes | None:
        """What it is in all of them, if that is one thing."""
        return self.tokens[0] if len(set(self.tokens)) == 1 else None

    @property
    def width(self) -> int | None:
        """How many characters it always has, if that is one number."""
        widths = set(map(len, self.tokens))
        return widths.pop() if len(widths) == 1 else None

    @property
    def blank(self) -> bool:
        """Whether there are but blanks, or nothing."""
        return not b"".join(self.tokens).strip(_BLANK)

    @property
    def chars(self) -> frozenset[int]:
        """All that stood in it."""
        return frozenset(b"".join(self.tokens))


def cells(contexts: Sequence[bytes], fixed: bool, behind: bool) -> list[Cell] | None:
    """Return what stood around a number, before it or `behind` it; None for what is not alike.

    In `fixed` ones each character is a cell.
    """
    if fixed:
        columns = zip(*contexts, strict=True)
        return [Cell(tuple(bytes([byte]) for byte in column)) for column in columns]
    rows = [_tokens(context, behind) for context in contexts]
    counts = set(map(len, rows))
    if len(counts) > 1:
        return _ends(contexts)
    return [Cell(column) for column in zip(*rows, strict=True)]


def _tokens(context: bytes, behind: bool) -> list[bytes]:
    unit = UNIT.match(context) if behind else None
    if unit is None:
        return _CELL.findall(context)
    head = [part for part in unit.groups() if part]
    return [*head, *_CELL.findall(context[unit.end() :])]


def _ends(contexts: Sequence[bytes]) -> list[Cell] | None:
    """Contexts of unlike make: what all begin and end with, and whatever is between."""
    shortest = min(map(len, contexts))
    head = next(
        (at for at in range(shortest) if len({each[at] for each in contexts}) > 1), shortest
    )
    tail = next(
        (at for at in range(shortest - head) if len({each[-1 - at] for each in contexts}) > 1),
        shortest - head,
    )
    between = tuple(each[head : len(each) - tail] for each in contexts)
    found = [Cell((contexts[0][:head],) * len(contexts))] if head else []
    found.append(Cell(between))
    if tail:
        found.append(Cell((contexts[0][-tail:],) * len(contexts)))
    return found


def loosened(found: Sequence[Cell]) -> list[Cell]:
    """Return the cells with those marked "any" that change, or may well change later."""
    marks = [
        each.role or ("" if each.always is not None or each.blank else "any") for each in found
    ]
    at = 0
    while at < len(found):
        stop = at
        while stop < len(found) and found[stop].always is not None and not found[stop].role:
            stop += 1
        text = b"".join(each.always or b"" for each in found[at:stop])
        for hit in _STAMP.finditer(text):
            _mark(found, marks, at, hit.start(), hit.end())
        at = max(stop, at + 1)
    for here in range(1, len(found) - 1):
        always = found[here].always
        between = marks[here - 1] == marks[here + 1] == "any"
        if always is not None and not marks[here] and always in _JOINS and between:
            marks[here] = "any"
    _stamped(found, marks)
    return [Cell(each.tokens, mark) for each, mark in zip(found, marks, strict=True)]


def _mark(found: Sequence[Cell], marks: list[str], first: int, begin: int, end: int) -> None:
    place = 0
    for at in range(first, len(found)):
        width = len(found[at].always or b"")
        if place >= end or found[at].always is None:
            return
        if place + width > begin:
            marks[at] = "any"
        place += width


def _stamped(found: Sequence[Cell], marks: list[str]) -> None:
    """Digits that are joined to some that change belong to them: the hours to the seconds."""
    for step in (1, -1):
        order = range(len(found)) if step == 1 else range(len(found) - 1, -1, -1)
        for at in order:
            join, digits = at + step, at + 2 * step
            if marks[at] != "any" or not 0 <= digits < len(found):
                continue
            joined, always = found[join].always, found[digits].always
            if joined is None or joined not in _JOINS or marks[join] or marks[digits]:
                continue
            if always is not None and always.isdigit():
                marks[join] = marks[digits] = "any"


def items(found: Sequence[Cell], fixed: bool, closing: frozenset[int]) -> list[str] | None:
    """Return the cells as a layout says them; None where it cannot be said where one ends.

    `closing`: what follows the last of them.
    """
    said: list[str] = []
    at = 0
    while at < len(found):
        stop = at + 1
        while stop < len(found) and _group(found[stop]) == _group(found[at]):
            if found[at].role not in ("", "any"):
                break
            stop += 1
        said_here = _item(
            found[at:stop], fixed, found[stop] if stop < len(found) else None, closing
        )
        if said_here is None:
            return None
        said += [said_here] if said_here else []
        at = stop
    return said


def _group(cell: Cell) -> str:
    return cell.role or ("text" if cell.always is not None else "blanks")


def _item(
    group: Sequence[Cell], fixed: bool, then: Cell | None, closing: frozenset[int]
) -> str | None:
    tokens = [b"".join(parts) for parts in zip(*(cell.tokens for cell in group), strict=True)]
    kind = _group(group[0])
    if kind == "text":
        return said_bytes(tokens[0]) if tokens[0] else ""
    if kind == "blanks":
        return None if fixed else "blanks"
    if kind != "any":
        return kind
    widths, chars = set(map(len, tokens)), frozenset(b"".join(tokens))
    follows = closing if then is None else frozenset((then.always or b"")[:1])
    free = bool(follows) and not follows & chars and (then is None or then.role == "")
    alike = len(widths) == 1
    if not fixed and free and (not alike or len(group) > 1 or chars <= frozenset(b"0123456789")):
        return "any"
    return f"any {widths.pop()}" if alike else None


def said_bytes(raw: bytes) -> str:
    """Return fixed bytes as a layout says them, as text where they are characters."""
    if not raw.strip(_BLANK):
        return f"blanks {len(raw)}"
    if all(0x20 <= byte < 0x7F for byte in raw) and raw.strip(_BLANK) == raw and b"\\" not in raw:
        return f"text {raw.decode()}"
    if all(byte < 0x7F for byte in raw):
        return "text " + _UNSAFE.sub(
            lambda hit: "\\\\" if hit[0] == "\\" else f"\\x{ord(hit[0]):02x}", raw.decode()
        )
    return f"bytes {raw.hex(' ')}"
