"""Guesses at frames that are a number written out."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Final

from daq.gauges.learn.evidence import Pieces, Table
from daq.gauges.learn.extra import Extra, in_text
from daq.words import Unit

_NUMBER: Final = re.compile(
    rb"(?P<before>[^0-9]*?)(?P<blank> *)(?P<sign>[+-]?)(?P<pad> *)"
    rb"(?P<value>[0-9]+(?:[.,][0-9]+)?)(?P<behind>[+-]?)(?P<after>[^0-9]*)",
    re.DOTALL,
)
_WORDS: Final[dict[str, Unit]] = {"mm": "mm", "in": "in"}
_ENDS: Final = (b"\r\n", b"\r", b"\n")
_NAMED: Final = re.compile(rb"[A-Za-z]+[0-9]+[ ,;:=#]+")
_LONGEST_NAME: Final = 12
_POINTED: Final = re.compile(r"\d[.,]\d")
_FIELD: Final = frozenset(".:+-")
_SIGNS: Final = frozenset("+- ")
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
    for lines, end in _cut(pieces):
        yield from _of(lines, end)
        if lines and (name := _name(lines)):
            for table in _of([line[len(name) :] for line in lines if line.startswith(name)], end):
                yield _around_it(table, _escaped(name.decode("latin-1")), "", len(name))


def with_extras(pieces: Pieces) -> Iterator[tuple[Table, Extra]]:
    """Yield frame tables of a number with something else before or behind it, and what."""
    for lines, end in _cut(pieces):
        numbered = [line for line in lines if any(chr(byte).isdigit() for byte in line)]
        name = _name(numbered) if numbered else b""
        named = [line for line in numbered if line.startswith(name)]
        for extra in in_text([line[len(name) :] for line in named]):
            front = _escaped(name.decode("latin-1"))
            pattern = _any([extra.of(line[len(name) :]).decode("latin-1") for line in named])
            before, behind = (front, pattern) if extra.behind else (front + pattern, "")
            extra_at = extra if extra.behind else replace(extra, tail=len(name))
            for table in _of([extra.without(line[len(name) :]) for line in named], end):
                yield _around_it(table, before, behind, extra.size + len(name)), extra_at


def _name(lines: Sequence[bytes]) -> bytes:
    """Return the word with a number in it that most lines begin with, if there is one."""
    hit = _NAMED.match(Counter(line[:_LONGEST_NAME] for line in lines).most_common(1)[0][0])
    name = hit[0] if hit else b""
    return name if sum(line.startswith(name) for line in lines) >= _MOST * len(lines) else b""


def _around_it(table: Table, before: str, behind: str, size: int) -> Table:
    """Return a table of frames that are longer by so many bytes."""
    table["pattern"] = before + table["pattern"] + behind
    if "length" in table:
        table["length"] += size
    return table


def _cut(pieces: Pieces) -> Iterator[tuple[list[bytes], bytes]]:
    """Yield the frames there may be, and what closes them."""
    for end in _endings(pieces):
        yield [line for piece in pieces for line in _lines(piece, end)], end
    lengths = Counter(len(piece) for piece in pieces if piece)
    for length, times in lengths.most_common(1):
        if times > 1:
            yield [piece for piece in pieces if len(piece) == length], b""


def _any(texts: Sequence[str]) -> str:
    """Return the pattern of what is not looked at: what never changed stays as it was."""
    seen = [frozenset(column) for column in zip(*texts, strict=True)]
    found = ""
    for alike, group in groupby(seen, key=_is_mark):
        part = list(group)
        same = all(len(column) == 1 for column in part)
        if alike or (same and not _POINTED.search("".join(map(min, part)))):
            found += "".join(_escaped(min(column)) for column in part)
        else:
            letters = "".join(sorted(set().union(*part) & set("abcdefABCDEF")))
            found += "".join(_one(column, letters) for column in part)
    return found


def _is_mark(column: frozenset[str]) -> bool:
    return len(column) == 1 and not (column <= _FIELD or min(column).isalnum())


def _one(column: frozenset[str], letters: str) -> str:
    """Return the pattern of a character that may change, and of others of its kind."""
    if all(one.isdigit() or one in letters for one in column):
        return "[0-9A-F]" if letters.isupper() else "[0-9a-f]" if letters else r"\d"
    if column <= _SIGNS:
        return "[-+ ]"
    return _escaped(min(column)) if len(column) == 1 else "[ -~]"


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
