"""What the person at the gauge is told and shown, and asked to do and to say."""

import os
import select
from collections.abc import Callable
from typing import Final, Literal, Protocol, TextIO

from daq.gauges.errors import LearnError
from daq.gauges.learn.live.large import large
from daq.words import Said, said

Step = Literal["free", "pushed", "elsewhere", "again", "key", "told"]
"""What is done with the contact when something is asked; "told": nothing, it is in the papers."""

Meanwhile = Callable[[], None]
"""What goes on while an answer is waited for: called again and again, returns soon."""

_WAIT_S: Final = 0.01
_BLOCK: Final = 4096


class Attendant(Protocol):
    """Whoever handles the gauge."""

    def tell(self, say: Said) -> None:
        """Say something."""

    def show(self, number: str) -> None:
        """Show the number that is believed to stand on the face, large, as of now."""

    def skipped(self) -> bool:
        """Return whether the step that goes on is to be left out; asks nobody."""

    def asked(self, step: Step, say: Said, meanwhile: Meanwhile) -> str:
        """Ask, and return the answer, "" for none.  Raises LearnError when nobody answers."""


def nothing() -> None:
    """Nothing goes on meanwhile."""


class AtTerminal:
    """A person who reads and types."""

    def __init__(self, out: TextIO, words: Callable[[Said], str], keyboard: TextIO) -> None:
        """Tell all to `out` by `words`; `keyboard` is where lines are typed."""
        self._out = out
        self._words = words
        self._keyboard = keyboard
        self._typed = b""
        self._shown = ""

    def tell(self, say: Said) -> None:
        """Print it."""
        self._out.write(self._words(say) + "\n")
        self._out.flush()

    def show(self, number: str) -> None:
        """Print it large when it has changed."""
        if number != self._shown:
            self._shown = number
            self._out.write(f"\n{large(number)}\n")
            self._out.flush()

    def asked(self, step: Step, say: Said, meanwhile: Meanwhile) -> str:
        """Ask, and wait for a line."""
        self._out.write(self._words(say) + " ")
        self._out.flush()
        while b"\n" not in self._typed:
            if not self._read(_WAIT_S):
                meanwhile()
        return self._line()

    def skipped(self) -> bool:
        """Return whether Enter was pressed meanwhile."""
        while self._read(0.0):
            continue
        return b"\n" in self._typed and not self._line()

    def _read(self, wait_s: float) -> bool:
        """Take what was typed.  Raises LearnError when nobody types any more."""
        typed = self._keyboard.fileno()
        if not select.select([typed], [], [], wait_s)[0]:
            return False
        block = os.read(typed, _BLOCK)
        if not block:
            raise LearnError(said("learn-nobody"))
        self._typed += block
        return True

    def _line(self) -> str:
        line, _, self._typed = self._typed.partition(b"\n")
        return line.decode("utf-8", "replace").strip()
