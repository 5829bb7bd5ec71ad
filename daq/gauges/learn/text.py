"""Guesses at frames that are a number written out."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from daq.gauges.frames import Unit
from daq.gauges.learn.evidence import Pieces, Table

_NUMBER: Final = re.compile(
    rb"(?P<before>[^0-9]*?)(?P<blank> *)(?P<sign>[+-]?)(?P<pad> *)"
    rb"(?P<value>[0-9]+(?:[.,][0-9]+)?)(?P<behind>[+-]?)(?P<after>[^0-9]*)",
    re.DOTALL,
)
_WORDS: Final[dict[str, Unit]] = {"mm": "mm", "in": "in"}
_ENDS: Final = (b"\r\n", b"\r", b"\n")
_RARE: Final = 3
_LONGEST: Final = 64
_MOST, _RARELY = 0.6, 0.1
_SHARE: Final = 0.34
"""What fewer frames than this have is noise, or what the gauge sends beyond its travel."""


@dataclass(frozen=True, slots=True)
class _Line:
    before: str
    blank: str
    sign: str
    pad: str
    value: str
    behind: str
    after: str

    @property
    def decimal(self) -> str:
        return next((mark for mark in ".," if mark in self.value), "")


def guesses(pieces: Pieces) -> Iterator[Table]:
    """Yield frame tables that may fit; a number without its unit has none in its table."""
    for end in _endings(pieces):
        yield from _of([line for piece in pieces for line in _lines(piece, end)], end)
    lengths = Counter(len(piece) for piece in pieces if piece)
    for length, times in lengths.most_common(1):
        if times > 1:
            yield from _of([piece for piece in pieces if len(piece) == length], b"")


def _endings(pieces: Pieces) -> list[bytes]:
    """Return what may close a frame: the usual, and whatever comes again and again."""
    whole = b"".join(pieces)
    ends = [end for end in _ENDS if end in whole]
    others = Counter(byte for byte in whole if byte < 128)
    inside = b"0123456789+-., abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ\r\n"
    rare = [bytes([byte]) for byte, n in others.most_common() if byte not in inside and n > 1]
    return ends + rare[:_RARE]


def _lines(piece: bytes, end: bytes) -> list[bytes]:
    """Return the frames in a piece; its first may have begun before it was heard."""
    return [line for line in piece.split(end)[:-1] if 0 < len(line) <= _LONGEST]


def _of(lines: Sequence[bytes], end: bytes) -> Iterator[Table]:
    parsed = [_Line(**{k: v.decode("latin-1") for k, v in hit.groupdict().items()})
              for hit in map(_NUMBER.fullmatch, lines) if hit]  # fmt: skip
    for decimal in (".", ",", ""):
        alike = [line for line in parsed if line.decimal == decimal]
        whole = decimal or len({len(line.value) for line in alike}) == 1
        if whole and alike and len(alike) >= _SHARE * len(parsed):
            yield from _tables(alike, decimal, end)


def _tables(lines: list[_Line], decimal: str, end: bytes) -> Iterator[Table]:
    trailing = any(line.behind for line in lines)
    around = [_around(line, trailing) for line in lines]
    befores = [before for before, _ in around]
    unit, status_first, before = _unit_and_rest(befores)
    behind = [rest for _, rest in around]
    if unit is None:
        unit, status_last, after = _unit_and_rest(behind)
    else:
        status_last, after = _part(behind)
    if status_first and status_last:
        return
    value = _value(lines, decimal)
    number = _leading(lines) + value + (_trailing(around, lines) if trailing else "")
    table: Table = {"shape": "text", "pattern": before + number + after}
    if end:
        table["terminator"] = end.decode("latin-1")
    else:
        table["length"] = _length(lines)
    if decimal == ",":
        table["decimal"] = decimal
    if unit is None:
        table["unit"] = ""
    elif unit != _WORDS:
        table["units"] = unit
    yield table


def _around(line: _Line, trailing: bool) -> tuple[str, str]:
    """Return what stands before the number and behind it, a trailing sign left out."""
    if not trailing or line.behind:
        return line.before, line.after
    return line.before, line.after[1:] if line.after[:1] == " " else line.after


def _length(lines: list[_Line]) -> int:
    one = lines[0]
    return sum(
        map(len, (one.before, one.blank, one.sign, one.pad, one.value, one.behind, one.after))
    )


def _leading(lines: list[_Line]) -> str:
    """Return the pattern of blanks and a leading sign; signs may come that were not seen yet."""
    blank = " *" if any(line.blank for line in lines) else ""
    if any(line.behind for line in lines):
        return " *" if any(line.blank or line.pad for line in lines) else ""
    pad = " *" if any(line.sign and line.pad for line in lines) else ""
    always = all(line.sign for line in lines) and any(line.sign == "+" for line in lines)
    return f"{blank}(?P<sign>[+-]{'' if always else '?'}){pad}"


def _trailing(around: list[tuple[str, str]], lines: list[_Line]) -> str:
    """Return the pattern of a sign behind the number: blank, or nothing, where it is not sent."""
    kept = [rest != line.after for (_, rest), line in zip(around, lines, strict=True)]
    every = all(line.behind or dropped for line, dropped in zip(lines, kept, strict=True))
    return f"(?P<sign>[-+ ]{'' if every else '?'})"


def _value(lines: list[_Line], decimal: str) -> str:
    """Return the pattern of the digits: as many as were seen, so that a lost one is noticed."""
    if not decimal:
        return rf"(?P<value>\d{{{len(lines[0].value)}}})"
    parts = [line.value.split(decimal) for line in lines]
    wholes = Counter(len(whole) for whole, _ in parts)
    width, times = wholes.most_common(1)[0]
    # Filled up with zeros, a number has as many digits before its decimal sign always.
    filled = width > 1 and times >= _MOST * len(lines) and any(w[0] == "0" for w, _ in parts)
    places = Counter(len(decimals) for _, decimals in parts)
    seen = [count for count, n in places.items() if n >= _RARELY * len(lines)]
    last = f"{min(seen)},{max(seen)}" if min(seen) < max(seen) else f"{seen[0]}"
    mark = r"\." if decimal == "." else ","
    return rf"(?P<value>\d{f'{{{width}}}' if filled else '+'}{mark}\d{{{last}}})"


def _part(texts: Sequence[str]) -> tuple[bool, str]:
    """Return whether a part is a status letter, and its pattern."""
    common = [text for text, n in Counter(texts).most_common() if n >= _RARELY * len(texts)]
    if len(common) == 1:
        return False, _escaped(common[0])
    if all(len(text) <= 1 for text in common):
        letters = "".join(_escaped(text) for text in sorted(common) if text)
        return True, f"(?P<status>[{letters}]{'?' if '' in common else ''})"
    return False, _escaped(common[0])


def _unit_and_rest(texts: Sequence[str]) -> tuple[dict[str, Unit] | None, bool, str]:
    """Return the units named behind the number, whether a status follows, and the pattern."""
    split = [_worded(text) for text in texts]
    named = [each for each in split if each[1]]
    if 2 * len(named) < len(split):
        status, pattern = _part(texts)
        return None, status, pattern
    blank = Counter(each[0] for each in named).most_common(1)[0][0]
    status, rest = _part([each[2] for each in named])
    return dict(_WORDS), status, f"{_escaped(blank)}(?P<unit>mm|in){rest}"


def _worded(text: str) -> tuple[str, str, str]:
    hit = re.search("mm|in", text)
    return (text[: hit.start()], hit[0], text[hit.end() :]) if hit else (text, "", "")


def _escaped(text: str) -> str:
    """Return a text as a pattern for itself, control characters as their numbers."""
    return "".join(
        one if one.isalnum() or one in " \"'/=:;,<>%&@#" else rf"\x{ord(one):02X}" for one in text
    )
