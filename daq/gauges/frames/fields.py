"""Frames said field by field: texts, numbers, bytes, half-bytes, bits, one behind the other.

Whatever a frame is made of can be said here; the other shapes are short ways to say the most
usual ones. A frame counts only when all of it is as its layout says, and its check value, if
it has one, as its bytes say. Frames are found by their terminator where no field can hold it
(a frame may then have several lines), else by what may stand at each of their places, or by
the pauses between them.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from typing import Final, Literal

from daq.gauges.frames import Amiss, Indication
from daq.gauges.frames.shared import fixed
from daq.gauges.frames.shared.bitfields import Run
from daq.gauges.frames.shared.channel import FrameChannel
from daq.gauges.frames.shared.fixed import Finder
from daq.gauges.frames.shared.keys import FieldKeys
from daq.gauges.frames.shared.likeness import without_number
from daq.gauges.frames.shared.lines import LineFinder, SilenceFinder
from daq.gauges.frames.shared.parts import Part, joined, taken_apart
from daq.gauges.frames.shared.reading import FrameReading
from daq.gauges.frames.shared.together import can_be, check_keys, ends_inside, line_safe, placed
from daq.words import Unit

_SIGNS: Final[dict[str, Literal["+", "-"]]] = {"+": "+", "-": "-", " ": "+"}
_SIGN_BITS: Final[dict[str, Literal["+", "-"]]] = {"0": "+", "1": "-"}
_UNITS: Final[dict[str, Unit]] = {"mm": "mm", "in": "in"}
_MOST_LINES: Final = 16
_SURE: Final = 16
"""A check value of so many bits tells frames apart that nothing else does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldsOptions(FieldKeys):
    """The keys of a frame that is said field by field: see `FieldKeys`."""

    def __post_init__(self) -> None:
        """Refuse what could not be decoded without guessing.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        FieldsDecoder(self)


def _whole(given: FieldKeys) -> FieldKeys:
    """The keys with the tables that hold where none are given."""
    items = given.layout
    own = {each.name: getattr(given, each.name) for each in fields(FieldKeys)}
    own["signs"] = given.signs or (_SIGNS if "sign" in items else _SIGN_BITS)
    own["units"] = given.units or (_UNITS if "unit" in items else {})
    return FieldKeys(**own)


class FieldsDecoder:
    """Decodes frames that are said field by field."""

    def __init__(self, given: FieldKeys) -> None:
        """Begin in the middle of a frame, as an opened port does.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        options = _whole(given)
        self._end = options.terminator.encode("latin-1", "replace")
        tables: dict[str, Iterable[str]] = {
            "sign": options.signs,
            "unit": options.units,
            "flags": options.flags,
            "point": [options.decimal],
        }
        parts = taken_apart(options.layout, tables, options.check)
        units = can_be(options)
        check_keys(given, parts, units)
        if options.order == "low-first":
            parts = [part.turned() if isinstance(part, Run) else part for part in parts]
        self._by_lines = line_safe(parts, self._end)
        pattern = joined(parts, self._end if self._by_lines else b"").encode()
        self._match = re.compile(pattern).fullmatch
        unit = re.compile(rb"\(\?P<unit>(?:\(\?>[^)]*\)|[^)]*)\)")
        self._loose = re.compile(unit.sub(b"[A-Za-z\"' ]*+", pattern)).fullmatch
        self._reading = FrameReading(options, parts, units)
        self.check = placed(options.check, parts)
        self._words = [(word.encode("latin-1", "replace"), word) for word in options.words]
        closing = self._end if self._by_lines else b""
        self._channel = FrameChannel(parts, closing, (raw for raw, _ in self._words))
        self._read: dict[bytes, Indication] = {}
        every = [part.places for part in parts]
        self._size = 0 if None in every else sum(len(each or ()) for each in every) + len(self._end)
        self._cutter = self._cut_by(options, parts)

    def _cut_by(self, options: FieldKeys, parts: list[Part | Run]) -> Finder:
        """Return what finds such frames."""
        if self._by_lines:
            lines = 1 + ends_inside(parts, self._end)
            if lines > _MOST_LINES:
                raise ValueError(f"found {lines} lines in layout; allowed: 1 to {_MOST_LINES}")
            whole = (self._whole, self._holds, self._other)
            return LineFinder(self._end, lines, options.max_length, *whole)
        if options.apart == "pause":
            return SilenceFinder(options.max_length, self._whole, self._holds, self._other)
        places = [place for part in parts for place in part.places or ()]
        places += [frozenset([byte]) for byte in self._end]
        if not self._size:
            raise ValueError(
                "found fields of any length and nothing that closes a frame; allowed: a terminator "
                'that no field can hold, or, for a gauge that pauses after each, apart = "pause"'
            )
        sure = options.check is not None and options.check.bits >= _SURE
        fixed.check(places, "pause" if sure else "content")
        return fixed.finder(places, "content", self._end, self._sound)

    @property
    def bad(self) -> int:
        """How many bad frames were skipped so far."""
        return self._cutter.bad

    @property
    def damaged(self) -> int:
        """How many of them were whole but for their check value."""
        return self._cutter.damaged if self.check else 0

    def feed(self, data: bytes) -> list[Indication]:
        """Take the next bytes; return the indications of the good frames they complete."""
        found = [self._read[self._bare(frame)] for frame in self._cutter.feed(data)]
        self._read.clear()
        return found

    def gap(self) -> None:
        """Drop a frame begun before a silence; one told apart by silences is now complete."""
        self._cutter.gap()

    def amiss(self, data: bytes) -> Amiss | None:
        """Return what is amiss in all frames of these bytes, wherever the first begins."""
        if self._by_lines:
            lines = data.split(self._end)[:-1]
            others = {line for line in lines if self._other(line)}
            frames = [line for line in lines[1:] if line and line not in others]
            return self._like(frames) or ("channel" if others else None)
        if without_number([data]):
            return "number"
        for first in range(self._size if self.check else 0):
            ends = range(first + self._size, len(data) + 1, self._size)
            cut = [self._bare(data[end - self._size : end]) for end in ends]
            if cut and all(map(self._whole, cut)) and not any(map(self._holds, cut)):
                return "check"
        return None

    def _like(self, frames: Sequence[bytes]) -> Amiss | None:
        """Return what is amiss in all of these lines."""
        if without_number(frames):
            return "number"
        if frames and all(map(self._whole, frames)):
            return None if any(map(self._holds, frames)) else "check"
        return "unit" if frames and all(map(self._loose, frames)) else None

    def _bare(self, frame: bytes) -> bytes:
        """A frame without its terminator."""
        held = bool(self._end) and not self._by_lines and frame.endswith(self._end)
        return frame[: -len(self._end)] if held else frame

    def _whole(self, frame: bytes) -> bool:
        """Whether it has the form of a frame, or is one with a word in place of its number.

        What it says is kept until the finder gives it out.
        """
        if match := self._match(frame):
            try:
                self._read[frame] = self._reading.read(frame, match)
            except (KeyError, ValueError):
                return False
            return True
        word = self._word(frame)
        if word is not None:
            self._read[frame] = self._reading.missing(frame, word)
        return word is not None

    def _holds(self, frame: bytes) -> bool:
        return self.check is None or not self._match(frame) or self.check.holds(frame)

    def _other(self, frame: bytes) -> bool:
        """Whether it is another channel's."""
        return self._channel.other(frame) and (self.check is None or self.check.holds(frame))

    def _sound(self, frame: bytes) -> bool:
        bare = self._bare(frame)
        return (self.check is None or self.check.holds(bare)) and self._whole(bare)

    def _word(self, frame: bytes) -> str | None:
        found = next((word for raw, word in self._words if raw in frame), None)
        return None if found is None or self._channel.other(frame) else found


@dataclass(frozen=True, slots=True)
class FieldsShape:
    """Texts, numbers, bytes, half-bytes and bits, one behind the other."""

    options: type[FieldsOptions] = FieldsOptions

    def make(self, options: FieldsOptions) -> FieldsDecoder:
        """Return a decoder that has seen nothing yet."""
        return FieldsDecoder(options)


SHAPE: Final = FieldsShape()
