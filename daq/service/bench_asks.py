"""Whom the check of a gauge is talked through with, and whatever is asked of them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol, TextIO

from daq.words import Said, SaidTrouble, Unit, said
from daq.words.gauge_check import BenchChoice, BenchLine

Words = Callable[[Said], str]


class GivenUp(SaidTrouble):
    """The person left, or the gauge cannot be relied on: nothing is recorded."""


@dataclass(frozen=True, slots=True)
class BenchQuestion:
    """A question, how it is answered at a keyboard, and its answers, the usual one first.

    Without answers anything may be typed.
    """

    say: Said
    keys: Said | None = None
    choices: tuple[BenchChoice, ...] = ()


class Asks(Protocol):
    """Who is asked: somebody at a terminal, or at a page."""

    def say(self, what: Said) -> None:
        """Tell something."""

    def ask(self, question: BenchQuestion) -> str:
        """Return what is answered, as it is typed.  Raises GivenUp: they left."""

    def table(self, unit: Unit, lines: Sequence[BenchLine]) -> None:
        """Show every length with its reading and error."""


class Terminal:
    """Somebody who reads and types lines."""

    def __init__(self, heard: TextIO, out: TextIO, words: Words) -> None:
        """Ask on `out`, hear a line on `heard` for each question."""
        self._heard = heard
        self._out = out
        self._words = words

    def say(self, what: Said) -> None:
        """Write a line."""
        self._line(self._words(what))

    def _line(self, text: str) -> None:
        self._out.write(f"{text}\n")
        self._out.flush()

    def ask(self, question: BenchQuestion) -> str:
        """Return the line typed; the end of the input or a "q" leaves the check."""
        keys = self._words(question.keys) if question.keys else ""
        self._out.write(f"{self._words(question.say)}{keys}: ")
        self._out.flush()
        line = self._heard.readline()
        if not line:
            raise GivenUp(said("bench-input-ended"))
        if line.strip().lower() == "q":
            raise GivenUp(said("bench-left"))
        return line.strip()

    def table(self, unit: Unit, lines: Sequence[BenchLine]) -> None:
        """Write the lines under each other."""
        heads = [self._words(said("paper-column", of=of)) for of in ("length", "read", "error")]
        since = self._words(said("bench-from-first", unit=unit))
        self._line(f"\n{heads[0]:>12} {'':<4} {heads[1]:>12} {heads[2]:>12}   {since}")
        for each in lines:
            self._line(f"{each.length:>12} {each.way:<4} {each.read:>12} {each.error:>12}")
