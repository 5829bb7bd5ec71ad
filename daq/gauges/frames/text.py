"""Frames of text: a number written out, closed by a terminator.

A frame counts only when all of it, from one terminator to the next, matches the
pattern; nothing is made of a part. So junk on the line costs the frame it touches
and no other, and whatever stood on the line before the first terminator is dropped.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from operator import itemgetter
from typing import Annotated, Final, Literal

from daq.gauges.frames import Indication
from daq.settings import Range

_GROUPS: Final = ("sign", "value", "unit", "status")
_ESCAPE = r"\\(?:[^\w]|[dwtrnfx])"
_CLASS = rf"\[\]?(?:{_ESCAPE}|[^\]\\^])(?:{_ESCAPE}|[^\]\\])*\]"
_OPENING = r"\(\?:|\(\?P<(?:sign|value|unit|status)>"

# What says which bytes a frame has, neither looking round it nor letting any byte pass,
# its terminator among them.
_DEFINITE: Final = re.compile(rf"(?:{_ESCAPE}|{_CLASS}|{_OPENING}|[^\\\[(^$.])*")
_REPEAT: Final = re.compile(
    rf"({_ESCAPE}|{_CLASS}|{_OPENING})|([*+?]|\{{\d+(?:,\d*)?\}})[?+]?", re.DOTALL
)
_BODY: Final = r"\(\?P<{}>((?:\\.|\[[^\]]*\]|\(\?:[^()]*\)|[^()\\\[])*)\)"
_SIGNS: Final = re.compile(r"[-+ \\\[\]|?]+")
_DIGITS: Final = {
    sign: re.compile(rf"(?:\\d|\[0-9\]|{written}|\(\?:|[0-9*+?|)]|\{{\d+(?:,\d*)?\}})+")
    for sign, written in ((".", r"\\\.|\[\.\]"), (",", ","))
}


@dataclass(frozen=True, slots=True)
class TextOptions:
    """The keys of a text frame.

    `pattern` is a regular expression for the frame without its terminator, with the
    named groups value (digits and decimal sign), and, where they are sent, sign, unit
    and status. A repeat in it takes all it can and gives nothing back, which keeps
    the matching time in proportion to the bytes. `units` says what the unit group may
    hold; `unit` replaces it where the unit is not sent. `flags` renames what the
    status group holds. `max_length` is in bytes, the terminator not counted.
    """

    pattern: str
    terminator: str = "\r\n"
    decimal: Literal[".", ","] = "."
    unit: Literal["mm", "in"] | None = None
    units: dict[str, Literal["mm", "in"]] = field(default_factory=lambda: {"mm": "mm", "in": "in"})
    flags: dict[str, str] = field(default_factory=dict)
    max_length: Annotated[int, Range(1, 256)] = 64

    def __post_init__(self) -> None:
        """Refuse what could not be decoded without guessing.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        end = self.terminator
        if not end or not end.isascii() or any(end.startswith(end[k:]) for k in range(1, len(end))):
            raise ValueError(
                f"found terminator {end!r}; allowed: ASCII text that does not overlap itself"
            )
        groups = _groups(self.pattern)
        if not _holds("value", self.pattern, _DIGITS[self.decimal]):
            example = r"\d+\.\d+" if self.decimal == "." else r"\d+,\d+"
            raise ValueError(
                "found no group (?P<value>…) of digits and the decimal sign alone in pattern; "
                f"allowed: one such as (?P<value>{example})"
            )
        if "sign" in groups and not _holds("sign", self.pattern, _SIGNS):
            raise ValueError(
                "found other signs in the group (?P<sign>…) of pattern; "
                "allowed: plus, minus and blank, such as (?P<sign>[+-]?)"
            )
        if ("unit" in groups) == (self.unit is not None):
            raise ValueError(
                f"found the unit {'twice' if self.unit else 'nowhere'}; allowed: either a group "
                '(?P<unit>…) in pattern or a fixed unit = "mm" or "in"'
            )


def _groups(pattern: str) -> frozenset[str]:
    """Return the named groups of a pattern.  Raises ValueError for one that cannot be used."""
    definite = _DEFINITE.match(pattern)
    if definite and definite.end() < len(pattern):
        raise ValueError(
            f"found {pattern[definite.end() :][:3]!r} in pattern; allowed: characters, classes "
            r"such as [A-Z] or \d, repeats, and the groups (?P<sign>…), (?P<value>…), (?P<unit>…), "
            "(?P<status>…) and (?:…)"
        )
    try:
        return frozenset(re.compile(pattern.encode("ascii")).groupindex)
    except (re.error, UnicodeEncodeError) as error:
        raise ValueError(
            f"found pattern {pattern!r} ({error}); allowed: a regular expression in ASCII"
        ) from None


def _holds(name: str, pattern: str, allowed: re.Pattern[str]) -> bool:
    body = re.search(_BODY.format(name), pattern)
    return body is not None and allowed.fullmatch(body[1]) is not None


def _swapped(text: bytes) -> float:
    """Return the number in a text with a decimal comma or a trailing sign."""
    text = text.replace(b",", b".")
    return float(text[-1:] + text[:-1] if text[-1:] in b"+- " else text)


class TextDecoder:
    """Decodes text frames, all those of a block in one call of the matcher."""

    def __init__(self, options: TextOptions) -> None:
        """Begin in the middle of a frame, as an opened port does."""
        self.bad = 0
        self._rest = b""
        self._lost = True  # the start of the frame whose end is awaited was not seen
        self._limit = options.max_length
        self._end = options.terminator.encode()
        self._flags = options.flags
        units = {"": options.unit} if options.unit else options.units
        self._units = {text.encode("latin-1"): unit for text, unit in units.items()}
        frame = _REPEAT.sub(lambda hit: hit[1] or hit[2] + "+", options.pattern)
        frame += "".join(f"(?P<{name}>)" for name in _GROUPS if f"(?P<{name}>" not in frame)
        end = re.escape(options.terminator)
        matcher = re.compile(rf"(?:(?P<raw>{frame})|(?P<junk>(?s:.*?))){end}".encode())
        self._find = matcher.findall
        column = matcher.groupindex
        leading = column["sign"] < column["value"]
        number = ("sign", "value") if leading else ("value", "sign")
        columns = [column[name] - 1 for name in ("raw", *number, "unit", "status", "junk")]
        self._in_order = None if columns == sorted(columns) else itemgetter(*columns)
        self._number = float if leading and options.decimal == "." else _swapped

    def feed(self, data: bytes) -> list[Indication]:
        """Take the next bytes; return the indications of the good frames they complete."""
        block = self._rest + data
        if self._lost or not block.endswith(self._end):
            block = self._whole(block)
        else:
            self._rest = b""
        rows = self._find(block)
        if len(rows) != block.count(self._end):  # the pattern holds a terminator
            lines = block.split(self._end)[:-1]
            rows = [row for line in lines for row in self._find(line + self._end)]
        return self._indications(map(self._in_order, rows) if self._in_order else rows)

    def gap(self) -> None:
        """Drop a frame begun before a silence: what comes after may not belong to it."""
        if self._rest:
            self.bad += not self._lost
            self._rest, self._lost = b"", True

    def _indications(self, rows: Iterable[tuple[bytes, ...]]) -> list[Indication]:
        units, number, limit, make = self._units, self._number, self._limit, tuple.__new__
        found: list[Indication] = []
        add = found.append
        for raw, first, second, unit, status, junk in rows:
            if junk or not raw or len(raw) > limit:
                length = len(raw or junk)
                self.bad += max(1, (length - 1) // limit) if length else 0
                continue
            text = first + second
            try:
                flags = self._flagged(status) if status else ()
                # make() passes by the class's own constructor, a call more on every frame.
                add(make(Indication, (text.decode(), number(text), units[unit], flags, raw)))
            except (KeyError, ValueError):
                self.bad += 1
        return found

    def _flagged(self, status: bytes) -> tuple[str, ...]:
        text = status.decode("latin-1")
        flag = self._flags.get(text, text)
        return (flag,) if flag else ()

    def _whole(self, block: bytes) -> bytes:
        """Return the part from the first known start to the last terminator; hold back the rest.

        No more is held back than a frame may have: what is longer is bad.
        """
        start, stop = 0, block.rfind(self._end) + len(self._end)
        if stop < len(self._end):
            stop = 0
        elif self._lost:
            start = block.find(self._end) + len(self._end)
            self.bad += max(0, start - len(self._end) - 1) // self._limit
            self._lost = False
        rest = block[stop:]
        sure = len(rest) - len(self._end) + 1  # the last bytes may belong to a terminator
        if sure > self._limit:
            over = (sure - 1) // self._limit
            self.bad += over
            rest, self._lost = rest[over * self._limit :], True
        self._rest = rest
        return block[start:stop]


@dataclass(frozen=True, slots=True)
class TextShape:
    """A number written out, closed by a terminator."""

    options: type[TextOptions] = TextOptions

    def make(self, options: TextOptions) -> TextDecoder:
        """Return a decoder that has seen nothing yet."""
        return TextDecoder(options)


SHAPE: Final = TextShape()
