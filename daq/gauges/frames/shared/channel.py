"""Frames of another channel: as those of the file, but for a fixed text that names it.

A receiver of several transmitters sends their frames in turn on one line. What differs is a
fixed text, of as many letters and digits; the rest is as it would be in a frame of one's own,
or a word stands in the place of the number.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from daq.gauges.frames.shared.bitfields import Run
from daq.gauges.frames.shared.fixed import LONGEST
from daq.gauges.frames.shared.parts import DIGITS, Part, byte_class, joined

_LETTERS: Final = frozenset(b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz")
_WRITTEN: Final = frozenset(range(0x20, 0x7F))
_UNITS: Final = (b"mm", b"in", b"inch")
"""Fixed texts that name the unit, not the channel: another one is the unit key's doing."""
_NUMBER: Final = ("sign", "value", "exponent", "unit")
_DIGIT: Final = re.compile(rb"[0-9]")


class FrameChannel:
    """Tells frames of other channels from those that are no good."""

    def __init__(self, parts: Sequence[Part | Run], end: bytes, words: Iterable[bytes]) -> None:
        """`end` closes a frame; `words` may stand in the place of its number."""
        self._words = tuple(words)
        self._names: list[bytes] = []
        relaxed = [self._relaxed(part) for part in parts]
        ways = (relaxed, list(_worded(relaxed))) if self._names else ()
        self._ways = [made.fullmatch for way in ways if (made := _pattern(way, end))]

    def other(self, frame: bytes) -> bool:
        """Return whether it is of another channel."""
        for matched in self._ways:
            if match := matched(frame):
                names = [match[f"name{n}"] for n in range(len(self._names))]
                word = match.groupdict().get("word")
                said = word is None or not _DIGIT.search(word) or self._has_word(frame)
                return names != self._names and said
        return False

    def _has_word(self, frame: bytes) -> bool:
        return any(word in frame for word in self._words)

    def _relaxed(self, part: Part | Run) -> Part | Run:
        """The part, with any letters and digits in the place of those of a fixed text."""
        if isinstance(part, Run) or part.role or part.places is None:
            return part
        if any(len(place) > 1 for place in part.places):
            return part
        text = bytes(next(iter(place)) for place in part.places)
        places = tuple(_alike(byte) for byte in text)
        if places == part.places or text.strip().lower() in _UNITS:
            return part
        self._names.append(text)
        pattern = "".join(map(byte_class, places))
        pattern = f"(?P<name{len(self._names) - 1}>{pattern})"
        chars = frozenset[int]().union(*places)
        return replace(part, pattern=pattern, places=places, first=places[0], chars=chars)


def _alike(byte: int) -> frozenset[int]:
    return next((kind for kind in (_LETTERS, DIGITS) if byte in kind), frozenset([byte]))


def _worded(parts: Iterable[Part | Run]) -> Iterator[Part | Run]:
    """The parts with any writing in the place of the number, its sign and its unit."""
    done = False
    for part in parts:
        blank = isinstance(part, Part) and part.item.startswith("blanks")
        if isinstance(part, Run) or not (part.role in _NUMBER or blank):
            yield part
        elif not done:
            done = True
            yield Part("word", "", _WRITTEN, _WRITTEN, None, True, (0, LONGEST), "word")


def _pattern(parts: Sequence[Part | Run], end: bytes) -> re.Pattern[bytes] | None:
    try:
        return re.compile(joined(parts, end).encode())
    except ValueError:  # it could not be said where a part ends
        return None
