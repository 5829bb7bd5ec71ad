"""What the pages need that only the practice mill has."""

from collections.abc import Mapping
from typing import Any, Protocol


class PracticePanel(Protocol):
    """The hands on the practice mill; there is none on a real machine.

    `state` gives, its words still codes: `position` (a place of the circle or "swinging"),
    `set_up` ("ring", or what else the gauge stands on), `contact` ("free" or not), `bolts` (axis to
    "tight" or "loose"), `plugged`, `fault` ("none" or its name), and `operations`, what can
    be done now: each with `say` (the button), `verb` and `args` (what to send).
    """

    def state(self, machine: str) -> Mapping[str, Any]:
        """Return how the practice mill stands; KeyError for a machine that is none."""

    def do(self, machine: str, verb: str, args: Mapping[str, Any]) -> None:
        """Do one operation; SaidTrouble where there is none such."""
