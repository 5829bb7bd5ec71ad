"""What the person at the gauge is told, and asked to do or to say."""

from collections.abc import Callable
from typing import Literal, Protocol, TextIO

Step = Literal["work", "rest", "push", "key"]


class Attendant(Protocol):
    """Whoever handles the gauge."""

    def tell(self, text: str) -> None:
        """Say something."""

    def do(self, step: Step, text: str) -> None:
        """Have something done with the gauge; returns when it is begun, or done."""

    def asked(self, text: str, proposed: str) -> str:
        """Return the answer to a question, or what is proposed."""


class Silent:
    """A person who answers nothing: all that is proposed is accepted."""

    def __init__(self, out: TextIO) -> None:
        """Tell everything to `out`."""
        self._out = out

    def tell(self, text: str) -> None:
        """Print it."""
        self._out.write(text + "\n")
        self._out.flush()

    def do(self, step: Step, text: str) -> None:
        """Print it; that it is done shows in the numbers."""
        self.tell(text)

    def asked(self, text: str, proposed: str) -> str:
        """Return what is proposed."""
        return proposed


class AtTerminal(Silent):
    """A person who reads and types."""

    def __init__(self, out: TextIO, answer: Callable[[], str]) -> None:
        """Tell everything to `out`; `answer` waits for a line to be typed."""
        super().__init__(out)
        self._answer = answer

    def do(self, step: Step, text: str) -> None:
        """Print it; wait for Enter where the number must not be taken too early."""
        self.tell(text)
        if step in ("rest", "push"):
            self.tell("Then press Enter.")
            self._answer()

    def asked(self, text: str, proposed: str) -> str:
        """Ask, until there is an answer or Enter for what is proposed."""
        self._out.write(f"{text} [{proposed}] ")
        self._out.flush()
        return self._answer().strip() or proposed
