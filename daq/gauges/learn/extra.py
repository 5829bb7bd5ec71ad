"""Bytes of a frame that may be no part of its number: a check, a counter, another channel."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

MOST: Final = 4
"""The longest check beside a number, in bytes."""
_LONGEST: Final = 24
_APART: Final = b" ,;:*=/|#&@%_<>\t"


@dataclass(frozen=True, slots=True)
class Extra:
    """So many bytes at the beginning of a frame or, `behind`, before its last `tail` bytes.

    `beside` tells that nothing parts them from the number: they might be digits of it.
    """

    size: int
    behind: bool
    beside: bool
    tail: int = 0

    def of(self, frame: bytes) -> bytes:
        """Return these bytes of a frame."""
        start, stop = self._span(len(frame))
        return frame[start:stop]

    def at(self, length: int) -> frozenset[int]:
        """Return their places in a frame of that length."""
        return frozenset(range(*self._span(length)))

    def without(self, frame: bytes) -> bytes:
        """Return the frame without them and what is beyond them."""
        start, stop = self._span(len(frame))
        return frame[:start] if self.behind else frame[stop:]

    def _span(self, length: int) -> tuple[int, int]:
        if self.behind:
            return max(0, length - self.tail - self.size), max(0, length - self.tail)
        return self.tail, self.tail + self.size


def in_text(lines: Sequence[bytes]) -> Iterator[Extra]:
    """Yield what may stand before or behind the number of lines of text."""
    shortest = min(map(len, lines), default=0)
    for behind in (True, False):
        for size in range(1, min(shortest - 1, _LONGEST)):
            inner = {line[-size - 1] if behind else line[size] for line in lines}
            outer = {line[-size if behind else size - 1] for line in lines}
            parted = len(inner) == 1 and inner <= set(_APART) and not outer <= set(_APART)
            cut = [line[-size:] if behind else line[:size] for line in lines]
            if parted or (size <= MOST and all(each.isalnum() for each in cut)):
                beside = not parted and any(chr(each).isdigit() for each in inner)
                yield Extra(size, behind, beside)


def in_bytes(frames: Sequence[bytes]) -> Iterator[Extra]:
    """Yield what may stand at either end of what changes in frames of one length."""
    changed = [at for at, column in enumerate(zip(*frames, strict=True)) if len(set(column)) > 1]
    if not changed:
        return
    length = len(frames[0])
    for size in range(1, MOST + 1):
        if size < changed[-1] - changed[0] + 1:
            yield Extra(size, True, True, length - 1 - changed[-1])
            yield Extra(size, False, True, changed[0])
