"""Finding frames of any length: between terminators, one line or several, or between silences."""

from collections import deque
from collections.abc import Callable

from daq.gauges.frames.shared.fixed import Holds

Whole = Callable[[bytes], object]
"""Whether bytes have the form of a frame."""

Other = Callable[[bytes], bool]
"""Whether bytes that are no frame are one of another channel, and so not bad."""


def too_long(rest: bytes, end: bytes, limit: int) -> tuple[bytes, int]:
    """Return what to hold back of bytes no terminator closes yet, and how many frames were lost.

    No more is held back than a frame may have: what is longer is bad.
    """
    sure = len(rest) - len(end) + 1  # the last bytes may belong to a terminator
    over = max(0, sure - 1) // limit
    return rest[over * limit :], over


class LineFinder:
    """Finds frames of so many lines, each closed by the terminator.

    A line counts once: those that belong to no frame are bad, as many as a frame has together.
    Those before the first frame are free on opening, but for one whole frame of them. No more
    is kept than the lines of a frame, none longer than the limit.
    """

    def __init__(
        self, end: bytes, lines: int, limit: int, whole: Whole, holds: Holds, other: Other
    ) -> None:
        """Begin in the middle of a frame, as an opened port does."""
        self.bad = 0
        self.damaged = 0
        self._end = end
        self._limit = limit
        self._whole = whole
        self._holds = holds
        self._other = other
        self._lines: deque[bytes] = deque(maxlen=lines)
        self._count = lines
        self._stray = 1 - lines  # lines in a row that belong to no frame
        self._rest = b""
        self._lost = True  # the start of the line whose end is awaited was not seen
        self._fresh = True

    def feed(self, data: bytes) -> list[bytes]:
        """Take the next bytes; return the frames that are now complete."""
        *closed, rest = (self._rest + data).split(self._end)
        found = []
        for line in closed:
            if self._lost or len(line) > self._limit:
                self.bad += max(0, len(line) - 1) // self._limit
                self._lost = False
                self._lines.clear()
            elif frame := self._added(line):
                found.append(frame)
        self._rest, over = too_long(rest, self._end, self._limit)
        self.bad += over
        self._lost |= over > 0
        return found

    def gap(self) -> None:
        """Drop a line begun before a silence: what comes after may not belong to it."""
        if self._rest:
            self.bad += not self._lost
            self._rest, self._lost, self._fresh = b"", True, False
            self._lines.clear()
        elif self._fresh:
            self._lost = False

    def _added(self, line: bytes) -> bytes | None:
        """Return the frame that a line completes."""
        lines = self._lines
        lines.append(line)
        frame = self._end.join(lines)
        if len(lines) == self._count and self._whole(frame):
            if self._holds(frame):
                lines.clear()
                self._stray = 0
                return frame
            self.damaged += 1
        elif len(lines) == self._count and self._other(frame):
            self._stray = min(0, self._stray)
            return None
        self._stray += self._count > 1 or bool(line)
        if self._stray == self._count:
            self.bad += 1
            self._stray = 0
        return None


class SilenceFinder:
    """Finds frames between silences: each is given out once the silence behind it is heard."""

    def __init__(self, limit: int, whole: Whole, holds: Holds, other: Other) -> None:
        """Begin in the middle of a frame, as an opened port does."""
        self.bad = 0
        self.damaged = 0
        self._limit = limit
        self._whole = whole
        self._holds = holds
        self._other = other
        self._held = b""
        self._lost = True
        self._ready: list[bytes] = []

    def feed(self, data: bytes) -> list[bytes]:
        """Take the next bytes; return the frames that were complete before them."""
        ready, self._ready = self._ready, []
        if not self._lost:
            self._held += data
            if len(self._held) > self._limit:
                self.bad += 1
                self._held, self._lost = b"", True
        return ready

    def gap(self) -> None:
        """Hear that the line fell silent: what was held is a frame, or none."""
        whole = self._held and self._whole(self._held)
        if whole and self._holds(self._held):
            self._ready.append(self._held)
        elif whole or not self._other(self._held):
            self.damaged += bool(whole)
            self.bad += bool(self._held)
        self._held, self._lost = b"", False
