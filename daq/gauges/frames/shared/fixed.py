"""Finding frames of fixed length in a stream of bytes.

A frame is known by the bytes that may stand at each of its places. Two ways to tell
frames apart are sound. By content: no frame's beginning can be another's end, so two
frames never share a byte, and each one sent is found whatever stands before and behind
it. Those that have a closing are more careful still: a frame must stand right behind
a closing, so that one with bytes too many shows it; what touches a frame then costs it.
By pause: a frame is what came between two silences, if that is exactly one frame. Once one came
so, what came is some frames, too, if it is exactly these: a busy computer hears a silence late.
"""

import re
from collections.abc import Callable, Sequence
from typing import Final, Literal, Protocol

Apart = Literal["content", "pause"]
Places = Sequence[frozenset[int]]
"""The bytes that may stand at each place of a frame."""

Holds = Callable[[bytes], bool]
"""Whether a frame's check value is right; so is that of a frame without one."""

_JOINED: Final = 4
"""So many frames at the most are taken out of what came without a silence."""
LONGEST: Final = 128
"""Bytes in the longest frame: what one byte may cost, and what is held back, stay small."""


class Finder(Protocol):
    """Cuts a stream into frames, however it is split; counts what belongs to none."""

    bad: int
    damaged: int

    def feed(self, data: bytes) -> list[bytes]:
        """Take the next bytes; return the frames that are now complete."""

    def gap(self) -> None:
        """Hear that the line fell silent."""


def _no_check(frame: bytes) -> bool:
    return True


def finder(places: Places, apart: Apart, closing: bytes = b"", holds: Holds = _no_check) -> Finder:
    """Return a finder that has seen nothing yet, of frames told apart in that way.

    `closing` is the end that all frames have in common, if there is one; it is part of
    them and of `places`. A frame that does not hold is none, and counted as damaged: behind
    its first byte another may begin.
    """
    if apart == "pause":
        return _ByPause(places, b"", holds)
    return _ByContent(places, closing, holds)


def check(places: Places, apart: Apart) -> None:
    """Refuse frames that are too long or could not be told apart.

    Raises:
        ValueError: in plain words, what was found and what is allowed.
    """
    if len(places) > LONGEST:
        raise ValueError(f"found a frame of {len(places)} bytes; allowed: at most {LONGEST}")
    if apart == "content" and not _told_apart(places):
        raise ValueError(
            "found frames whose beginning could be the end of another; allowed: a beginning or "
            "an end that can stand nowhere else in a frame, or, for a gauge that pauses after "
            'each frame, apart = "pause"'
        )


def _told_apart(places: Places) -> bool:
    """Return whether two frames that share bytes always disagree about one of these."""
    return all(
        any(places[at].isdisjoint(places[at + shift]) for at in range(len(places) - shift))
        for shift in range(1, len(places))
    )


class _Cutter:
    """What both finders share: the frame as a pattern, and the count of bad frames.

    Of bytes in a row that belong to no frame, each frame's length counts as a bad
    frame, a part of it as one more. On opening, one frame's length is free: it is the end
    of a frame that began before.
    """

    def __init__(self, places: Places, closing: bytes, holds: Holds) -> None:
        self.bad = 0
        self.damaged = 0
        self._holds = holds
        self._length = len(places)
        self._stray = -self._length  # bytes in a row that belong to no frame
        classes = (b"".join(b"\\x%02x" % byte for byte in sorted(each)) for each in places)
        frame = b"".join(b"[%b]" % each for each in classes)
        self._frame = re.compile(b"(?<=%b)" % re.escape(closing) + frame)

    def _skip(self, count: int) -> None:
        before = max(0, self._stray)
        self._stray += count
        self.bad += before // -self._length - max(0, self._stray) // -self._length


class _ByContent(_Cutter):
    """Finds frames by what stands in them."""

    def __init__(self, places: Places, closing: bytes, holds: Holds) -> None:
        super().__init__(places, closing, holds)
        self._rest = b""
        self._done = 0  # so many bytes at the beginning of `rest` are kept to look back at
        self._closing = closing
        self._fresh = True

    def feed(self, data: bytes) -> list[bytes]:
        block = self._rest + data
        found: list[bytes] = self._frame.findall(block)
        end = self._done + len(found) * self._length
        if (
            len(block) - end < self._length
            and block.startswith(b"".join(found), self._done)
            and all(map(self._holds, found))
        ):
            if found:
                self._stray = 0
        else:
            found, end = self._pass_over(block)
        self._done = min(len(self._closing), end)
        self._rest = block[end - self._done :]
        return found

    def gap(self) -> None:
        if len(self._rest) > self._done:
            self._skip(len(self._rest) - self._done)
            # What was closed before the silence lets a frame begin behind it.
            self._rest = self._closing if self._rest.endswith(self._closing) else b""
            self._done, self._fresh = len(self._rest), False
        elif self._fresh and not self._done:  # nothing was heard yet: what comes is a beginning
            self._rest, self._done = self._closing, len(self._closing)

    def _pass_over(self, block: bytes) -> tuple[list[bytes], int]:
        """Count what lies between the frames; return them, and where one may still begin."""
        found, at, end = [], 0, self._done
        while frame := self._frame.search(block, at):
            if not self._holds(frame[0]):
                self.damaged += 1
                at = frame.start() + 1
                continue
            found.append(frame[0])
            self._skip(frame.start() - end)
            self._stray, at, end = 0, frame.end(), frame.end()
        still = max(end, len(block) - self._length + 1)
        self._skip(still - end)
        return found, still


class _ByPause(_Cutter):
    """Finds frames between silences: each is given out once the silence behind it is heard."""

    def __init__(self, places: Places, closing: bytes, holds: Holds) -> None:
        super().__init__(places, closing, holds)
        self._held = b""
        self._lost = True  # no silence was heard since the last byte that belongs to no frame
        self._ready: list[bytes] = []
        self._most = self._length

    def feed(self, data: bytes) -> list[bytes]:
        ready, self._ready = self._ready, []
        if self._lost:
            self._skip(len(data))
        elif len(self._held) + len(data) > self._most:
            self._skip(len(self._held) + len(data))
            self._held, self._lost = b"", True
        else:
            self._held += data
        return ready

    def gap(self) -> None:
        size = self._length
        each = [self._held[at : at + size] for at in range(0, len(self._held), size)]
        whole = bool(each) and all(map(self._frame.fullmatch, each))
        if whole and all(map(self._holds, each)):
            self._ready += each
            self._most = _JOINED * size
        else:
            self.damaged += whole
            self._skip(len(self._held))
        self._held, self._lost, self._stray = b"", False, 0
