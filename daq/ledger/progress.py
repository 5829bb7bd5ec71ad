"""How far long work has come, told where mistakes are told: a live line, or now and then a line."""

import os
import time
from collections.abc import Callable
from types import TracebackType
from typing import Final, Self, TextIO

SILENT_S: Final = 2.0
"""Work that is over by then is told nothing of."""

LIVE_S: Final = 0.2
LINES_S: Final = 10.0
"""So often at most: a live line on a terminal is written anew; elsewhere a line is added."""

MEGA: Final = 1_000_000
FILE_NEXT: Final = "now the file itself"
"""After the rows, which a check counts, its pages and indexes, which it does not."""

_CLEAR: Final = "\r\x1b[K"


class Progress:
    """One piece of work, phase after phase; `clear` before anything else is written."""

    def __init__(
        self, out: TextIO | None = None, mono_s: Callable[[], float] = time.monotonic
    ) -> None:
        """Tell `out`, a terminal or not; None tells nobody. `mono_s`: a clock that only grows."""
        self._out = out
        self._mono_s = mono_s
        self._live = out is not None and out.isatty() and os.environ.get("TERM") != "dumb"
        self._next_s = mono_s() + SILENT_S
        self._shown = False
        self.begin("", 0)

    def begin(self, what: str, of: int, unit: str = "rows", then: str = "") -> None:
        """A phase begins: `what` is done to each of so many; `then` follows when all are done."""
        self._what, self._of, self._unit, self._then = what, of, unit, then
        self._began_s = self._mono_s()

    def at(self, done: int) -> None:
        """So many are done; it is told if it is time to."""
        if self._out is None or (now_s := self._mono_s()) < self._next_s:
            return
        self._next_s = now_s + (LIVE_S if self._live else LINES_S)
        text = self._text(done, now_s - self._began_s)
        if self._live:
            text = f"{_CLEAR}{text[: self._columns() - 1]}"
        self._out.write(text if self._live else f"{text}\n")
        self._out.flush()
        self._shown = self._live

    def clear(self) -> None:
        """Take the live line away."""
        if self._shown and self._out is not None:
            self._out.write(_CLEAR)
            self._out.flush()
            self._shown = False

    def __enter__(self) -> Self:
        """Give it itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """However it ended, nothing of it stays on the terminal."""
        self.clear()

    def _text(self, done: int, took_s: float) -> str:
        start = f"{self._what}: {done:,} of {self._of:,} {self._unit}"
        if done >= self._of:
            return f"{start}{self._then and f'; {self._then}'}"
        share = 100 * done / self._of
        left = f", {_long(took_s * (self._of - done) / done)} left" if done else ""
        return f"{start}, {share:.{0 if share >= 10 else 1}f} %{left}"

    def _columns(self) -> int:
        assert self._out is not None
        try:
            return os.get_terminal_size(self._out.fileno()).columns or 80
        except OSError:
            return 80


def _long(seconds: float) -> str:
    """How long, as precisely as it can be foreseen."""
    if seconds < 60:
        return f"{max(1, round(seconds))} s"
    minutes = round(seconds / 60)
    return f"{minutes} min" if minutes < 60 else f"{minutes // 60} h {minutes % 60} min"


SILENT: Final = Progress()
"""Tells nobody."""
