"""Frames of text: a number written out, closed by a terminator or of fixed length.

A frame counts only when all of it, from one terminator to the next, matches the
pattern; nothing is made of a part. So junk on the line costs the frame it touches
and no other, and whatever stood on the line before the first terminator is dropped.
Frames of fixed length are told apart by what may stand at each of their places, or
by the pauses between them; see `shared/fixed.py`.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from operator import itemgetter
from typing import Annotated, Final, Literal

from daq.gauges.frames import Amiss, Indication
from daq.gauges.frames.shared.checked import Check
from daq.gauges.frames.shared.fixed import LONGEST, Apart, Places, check, finder
from daq.gauges.frames.shared.likeness import without_number
from daq.gauges.frames.shared.lines import too_long
from daq.gauges.frames.shared.number import PerUnit, decimals, pointed
from daq.gauges.frames.shared.pattern import (
    NAMES,
    check_number,
    groups,
    loosened,
    places,
    possessive,
)
from daq.settings import Range, quoted
from daq.settings import found as shown
from daq.words import Unit

_TERMINATOR: Final = "\r\n"


@dataclass(frozen=True, slots=True)
class TextOptions:
    """The keys of a text frame.

    `pattern` is a regular expression for the frame without its terminator, with the
    named groups value (digits and decimal sign), and, where they are sent, sign, unit
    and status. A repeat in it takes all it can and gives nothing back, which keeps
    the matching time in proportion to the bytes. `terminator` closes a frame, carriage
    return and line feed if nothing else is said; `length` in bytes replaces it, and
    `apart` then says how frames are told apart, by their "content" or by the "pause"
    after each. `places` is the number of decimals, for all units or by unit, where
    no decimal sign is sent. `units` says what the unit group may hold; `unit` replaces it
    where the unit is not sent. `flags` renames what the status group holds.
    `max_length` is in bytes, the terminator not counted. `check` is the frame's check value,
    for which the pattern has characters outside of its groups.
    """

    pattern: str
    terminator: str | None = None
    length: Annotated[int, Range(1, LONGEST)] | None = None
    apart: Apart = "content"
    decimal: Literal[".", ","] = "."
    places: PerUnit | None = None
    unit: Unit | None = None
    units: dict[str, Unit] = field(default_factory=lambda: {"mm": "mm", "in": "in"})
    flags: dict[str, str] = field(default_factory=dict)
    max_length: Annotated[int, Range(1, 256)] = 64
    check: Check | None = None

    def __post_init__(self) -> None:
        """Refuse what could not be decoded without guessing.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        _check_groups(self)
        _check_end(self)
        if self.places is not None:
            decimals(self.places, _units(self).values())


def _check_groups(options: TextOptions) -> None:
    named = groups(options.pattern)
    check_number(options.pattern, options.decimal if options.places is None else "")
    if ("unit" in named) == (options.unit is not None):
        raise ValueError(
            f"found the unit {'twice' if options.unit else 'nowhere'}; allowed: either a group "
            '(?P<unit>…) in pattern or a fixed unit = "mm" or "in"'
        )
    for text in options.units:
        if any(ord(character) > 255 for character in text):
            raise ValueError(f"found {shown(text)} in units; allowed: characters of one byte each")


def _check_end(options: TextOptions) -> None:
    if options.length is None:
        if options.apart != "content":
            raise ValueError('found apart = "pause"; allowed: with a length only')
        end = _TERMINATOR if options.terminator is None else options.terminator
        if not end or not end.isascii() or any(end.startswith(end[k:]) for k in range(1, len(end))):
            raise ValueError(
                f"found terminator {quoted(end)}; allowed: ASCII text that does not overlap itself"
            )
    elif options.terminator is not None:
        raise ValueError("found both a terminator and a length; allowed: one of them")
    else:
        check(_places(options.pattern, options.length), options.apart)


def _places(pattern: str, length: int) -> Places:
    """Return the bytes that may stand at each place of a frame of that length."""
    found = places(pattern, length)
    if found is None:
        raise ValueError(
            f"found length {length}, but no frame of that length matches pattern; "
            "allowed: the length of a whole frame"
        )
    return found


def _units(options: TextOptions) -> dict[bytes, Unit]:
    """Return what a frame may hold as its unit; nothing where the unit is fixed."""
    units: dict[str, Unit] = {"": options.unit} if options.unit else options.units
    return {text.encode("latin-1"): unit for text, unit in units.items()}


def _swapped(text: bytes) -> float:
    """Return the number in a text with a decimal comma or a trailing sign."""
    text = text.replace(b",", b".")
    return float(text[-1:] + text[:-1] if text[-1:] in b"+- " else text)


class TextDecoder:
    """Decodes text frames, all those of a block in one call of the matcher."""

    def __init__(self, options: TextOptions) -> None:
        """Begin in the middle of a frame, as an opened port does."""
        self.bad = 0
        self.damaged = 0
        self._check = options.check
        self._rest = b""
        self._lost = True  # the start of the frame whose end is awaited was not seen
        self._fresh = True
        self._limit = options.length or options.max_length
        end = _TERMINATOR if options.terminator is None else options.terminator
        self._end = end.encode()
        self._flags = options.flags
        self._units = _units(options)
        frame = possessive(options.pattern)
        frame += "".join(f"(?P<{name}>)" for name in NAMES if f"(?P<{name}>" not in frame)
        end = r"\Z" if options.length else re.escape(end)
        matcher = re.compile(rf"(?:(?P<raw>{frame})|(?P<junk>(?s:.*?))){end}".encode())
        self._find = matcher.findall
        self._whole_frame = re.compile(frame.encode()).fullmatch
        self._loose = re.compile(possessive(loosened(options.pattern)).encode()).fullmatch
        column = matcher.groupindex
        leading = column["sign"] < column["value"]
        number = ("sign", "value") if leading else ("value", "sign")
        columns = [column[name] - 1 for name in ("raw", *number, "unit", "status", "junk")]
        self._in_order = itemgetter(*columns)
        self._number = float if leading and options.decimal == "." else _swapped
        self._value_at = 1 if leading else 0
        self._decimals: dict[bytes, int] = {}
        if options.places is not None:
            by_unit = decimals(options.places, self._units.values())
            self._decimals = {text: by_unit[unit] for text, unit in self._units.items()}
        as_sent = columns == sorted(columns) and not self._decimals
        self._read = self._indications if as_sent else self._arranged

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
        return self._read(rows)

    def amiss(self, data: bytes) -> Amiss | None:
        """Return what is amiss in all frames that were closed in these bytes."""
        return self._like([line for line in data.split(self._end)[1:-1] if line])

    def _like(self, frames: Sequence[bytes]) -> Amiss | None:
        if without_number(frames):
            return "number"
        if self._check and frames and all(map(self._whole_frame, frames)):
            return None if any(map(self._check.holds, frames)) else "check"
        return "unit" if frames and all(map(self._loose, frames)) else None

    def gap(self) -> None:
        """Drop a frame begun before a silence: what comes after may not belong to it.

        After a silence before anything was heard, the next byte begins a frame.
        """
        if self._rest:
            self.bad += not self._lost
            self._rest, self._lost, self._fresh = b"", True, False
        elif self._fresh:
            self._lost = False

    def _arranged(self, rows: Iterable[tuple[bytes, ...]]) -> list[Indication]:
        rows = map(self._in_order, rows)
        return self._indications(self._pointed(rows) if self._decimals else rows)

    def _pointed(self, rows: Iterable[tuple[bytes, ...]]) -> Iterable[tuple[bytes, ...]]:
        """Put the point into numbers that are sent without it."""
        at = self._value_at
        for raw, first, second, unit, status, junk in rows:
            number = [first, second]
            number[at] = pointed(number[at].decode(), self._decimals.get(unit, 0)).encode()
            yield raw, *number, unit, status, junk

    def _indications(self, rows: Iterable[tuple[bytes, ...]]) -> list[Indication]:
        units, number, limit, make = self._units, self._number, self._limit, tuple.__new__
        found: list[Indication] = []
        add = found.append
        for raw, first, second, unit, status, junk in rows:
            if junk or not raw or len(raw) > limit:
                length = len(raw or junk)
                self.bad += max(1, (length - 1) // limit) if length else 0
                continue
            if self._check and not self._check.holds(raw):
                self.bad, self.damaged = self.bad + 1, self.damaged + 1
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
        """Return the part from the first known start to the last terminator; hold back the rest."""
        start, stop = 0, block.rfind(self._end) + len(self._end)
        if stop < len(self._end):
            stop = 0
        elif self._lost:
            start = block.find(self._end) + len(self._end)
            self.bad += max(0, start - len(self._end) - 1) // self._limit
            self._lost = False
        self._rest, over = too_long(block[stop:], self._end, self._limit)
        self.bad += over
        self._lost |= over > 0
        return block[start:stop]


class FixedTextDecoder(TextDecoder):
    """Decodes text frames of fixed length, which nothing closes."""

    def __init__(self, options: TextOptions, length: int) -> None:
        """Begin in the middle of a frame, as an opened port does."""
        super().__init__(options)
        self._finder = finder(_places(options.pattern, length), options.apart)

    def feed(self, data: bytes) -> list[Indication]:
        """Take the next bytes; return the indications of the good frames they complete."""
        before = self._finder.bad
        rows = [self._find(frame)[0] for frame in self._finder.feed(data)]
        self.bad += self._finder.bad - before
        return self._read(rows)

    def amiss(self, data: bytes) -> Amiss | None:
        """Return what is amiss in these bytes, wherever frames begin in them."""
        frames = [data[at : at + self._limit] for at in range(0, len(data), self._limit)]
        return self._like(frames)

    def gap(self) -> None:
        """Drop a frame begun before a silence; one told apart by silences is now complete."""
        before = self._finder.bad
        self._finder.gap()
        self.bad += self._finder.bad - before


@dataclass(frozen=True, slots=True)
class TextShape:
    """A number written out, closed by a terminator or of fixed length."""

    options: type[TextOptions] = TextOptions

    def make(self, options: TextOptions) -> TextDecoder:
        """Return a decoder that has seen nothing yet."""
        if options.length is None:
            return TextDecoder(options)
        return FixedTextDecoder(options, options.length)


SHAPE: Final = TextShape()
