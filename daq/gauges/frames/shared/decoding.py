"""The decoder of frames that are said field by field, or by a short form that stands for fields."""

import re
from collections.abc import Sequence
from typing import Final

from daq.gauges.frames import Amiss, Indication
from daq.gauges.frames.shared import fixed
from daq.gauges.frames.shared.bitfields import Run
from daq.gauges.frames.shared.channel import FrameChannel
from daq.gauges.frames.shared.fixed import Finder
from daq.gauges.frames.shared.keys import FieldKeys
from daq.gauges.frames.shared.likeness import marked, without_number
from daq.gauges.frames.shared.lines import LineFinder, SilenceFinder
from daq.gauges.frames.shared.parts import Part, joined
from daq.gauges.frames.shared.reading import FrameReading, Short
from daq.gauges.frames.shared.together import ends_inside, line_safe
from daq.words import Unit

_MOST_LINES: Final = 16
_SURE: Final = 16
"""A check value of so many bits tells frames apart that nothing else does."""
_MARKS: Final = 2
"""A unit shows in its own symbol, and in how many decimals there are."""


class FieldsDecoder:
    """Decodes frames that are said field by field."""

    def __init__(
        self,
        options: FieldKeys,
        parts: Sequence[Part | Run],
        units: Sequence[Unit],
        number: str,
        short: Short | None = None,
    ) -> None:
        """Begin in the middle of a frame, as an opened port does.

        `number` is the role of the number's field. A `short` form has one run, and whatever
        stands at its places can be read.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        self.check = options.check
        self._end = options.terminator.encode("latin-1", "replace")
        self._run = parts[0] if short and isinstance(parts[0], Run) else None
        self._number = number
        self._by_lines = not self._run and line_safe(parts, self._end)
        pattern = joined(parts, self._end if self._by_lines else b"").encode()
        self._match = re.compile(pattern).fullmatch
        unit = re.compile(rb"\(\?P<unit>(?:\(\?>[^)]*\)|[^)]*)\)")
        self._loose = re.compile(unit.sub(b"[A-Za-z\"' ]*+", pattern)).fullmatch
        reading = FrameReading(options, self._run or parts, units, number, short or Short())
        self._said, self._missing = reading.read, reading.missing
        self._words = [(word.encode("latin-1", "replace"), word) for word in options.words]
        closing = self._end if self._by_lines else b""
        self._channel = FrameChannel(parts, closing, (raw for raw, _ in self._words))
        self._read: dict[bytes, Indication] = {}
        every = [part.places for part in parts]
        self._size = 0 if None in every else sum(len(each or ()) for each in every) + len(self._end)
        self._bare = -len(self._end) if self._end and not self._by_lines else None
        self._cutter = self._cut_by(options, parts)

    def _cut_by(self, options: FieldKeys, parts: Sequence[Part | Run]) -> Finder:
        """Return what finds such frames."""
        if self._by_lines:
            lines = 1 + ends_inside(parts, self._end)
            if lines > _MOST_LINES:
                raise ValueError(f"found {lines} lines in layout; allowed: 1 to {_MOST_LINES}")
            whole = (self._whole, self._holds, self._other)
            return LineFinder(self._end, lines, options.max_length, *whole)
        if options.apart == "pause" and not self._run:
            return SilenceFinder(options.max_length, self._whole, self._holds, self._other)
        places = [place for part in parts for place in part.places or ()]
        places += [frozenset([byte]) for byte in self._end]
        if not self._size:
            raise ValueError(
                "found fields of any length and nothing that closes a frame; allowed: a terminator "
                'that no field can hold, or, for a gauge that pauses after each, apart = "pause"'
            )
        if self._run:
            fixed.check(places, options.apart)
            return fixed.finder(places, options.apart, self._end, self._sealed)
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
        frames = [frame[: self._bare] for frame in self._cutter.feed(data)]
        if self._run:
            read, symbols = self._said, self._run.symbols
            found = [read(raw, symbols(raw)) for raw in frames]
        else:
            found = [self._read[raw] for raw in frames]
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
        for first in range(self._size if self.check or self._run else 0):
            ends = range(first + self._size, len(data) + 1, self._size)
            cut = [data[end - self._size : end] for end in ends]
            if cut and all(frame.endswith(self._end) for frame in cut):
                bare = [frame[: self._bare] for frame in cut]
                if found := self._marked(bare):
                    return found
                if all(map(self._whole, bare)) and not any(map(self._holds, bare)):
                    return "check"
        return None

    def _like(self, frames: Sequence[bytes]) -> Amiss | None:
        """Return what is amiss in all of these lines."""
        if without_number(frames):
            return "number"
        if frames and all(map(self._whole, frames)):
            return None if any(map(self._holds, frames)) else "check"
        return "unit" if frames and all(map(self._loose, frames)) else None

    def _marked(self, frames: Sequence[bytes]) -> Amiss | None:
        """What is amiss by which symbols of all these are none that may stand there."""
        if self._run is None:
            return None
        fields, symbols = self._run.fields, self._run.symbols
        may = [{f"{value:x}" for value in field.may or ()} for field in fields]
        number = (n for n, field in enumerate(fields) if self._number in field.role.split("+"))
        try:
            held = [enumerate(zip(symbols(frame), may, strict=True)) for frame in frames]
            odd = [frozenset(n for n, (one, some) in each if one not in some) for each in held]
        except ValueError:  # no text, or two bytes that are one symbol
            return None
        return marked(odd, frozenset(number), _MARKS)

    def _whole(self, frame: bytes) -> bool:
        """Whether it has the form of a frame, or is one with a word in place of its number.

        What it says is kept until the finder gives it out.
        """
        if match := self._match(frame):
            try:
                seen = self._run.symbols(frame) if self._run else match
                self._read[frame] = self._said(frame, seen)
            except (KeyError, ValueError):
                return False
            return True
        word = next((word for raw, word in self._words if raw in frame), None)
        if word is not None and not self._channel.other(frame):
            self._read[frame] = self._missing(frame, word)
            return True
        return False

    def _holds(self, frame: bytes) -> bool:
        return self.check is None or not self._match(frame) or self.check.holds(frame)

    def _other(self, frame: bytes) -> bool:
        """Whether it is another channel's."""
        return self._channel.other(frame) and (self.check is None or self.check.holds(frame))

    def _sealed(self, frame: bytes) -> bool:
        return self.check is None or self.check.holds(frame[: self._bare])

    def _sound(self, frame: bytes) -> bool:
        return self._sealed(frame) and self._whole(frame[: self._bare])
