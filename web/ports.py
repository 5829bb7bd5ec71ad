"""What the pages need that only the practice mill has."""

from collections.abc import Mapping
from typing import Any, Protocol


class PracticePanel(Protocol):
    """The hands on the practice mill; there is none on a real machine.

    `state` gives, its words still codes: `position` (a place of the circle or "swinging"),
    `set_up` ("ring", or what else the gauge stands on), `contact` ("free" or not), `bolts` (axis to
    "tight" or "loose"), `plugged`, `fault` ("none" or its name), and `operations`, what can
    be done now: each with `say` (the button), `verb` and `args` (what to send). `picture` is how
    head and arm are drawn: `side_deg`, `nod_deg` and `azimuth_deg`, and whether the contact is
    `down`. `lesson` is what is to be said of the lesson under way, or None.
    """

    def state(self, machine: str) -> Mapping[str, Any]:
        """Return how the practice mill stands; KeyError for a machine that is none."""

    def do(self, machine: str, verb: str, args: Mapping[str, Any]) -> None:
        """Do one operation; SaidTrouble where there is none such."""

    def lessons(self, machine: str) -> Mapping[str, Any]:
        """Return the `lessons` there are, the run of `now` (or None), and all `runs`.

        A lesson has its key, its `name` and its `aim`; a run also its number `nth`, `learner`,
        `audit`, `state`, what to `say` of it, its `score` (None before it is signed), what was
        `lost` (points, row, what to say), and the `truth`, while it is `shown`.
        """

    def begin(self, machine: str, lesson: str, learner: str, error_mm: tuple[float, float]) -> None:
        """Begin a lesson; SaidTrouble where there is none such."""

    def show(self, machine: str, nth: int) -> None:
        """Let the truth of a signed run be seen, or with 0 of all that are."""
