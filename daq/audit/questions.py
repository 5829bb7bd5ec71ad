"""What a person is asked in the middle of a step, and the ways to answer it."""

from dataclasses import dataclass

from daq.words import Said


@dataclass(frozen=True)
class Answer:
    """One way to answer a question; `usual`: the one that Enter and the pedal give."""

    key: str
    said: Said
    usual: bool = False


ON_PURPOSE = "on-purpose"
PRESS_AGAIN = "press-again"
"""The answer that it was brought back: where the turn ends is read as it stands then."""
TURN_ON = "turn-on"
"""The answer that a stop was not meant: the turn goes on, and nothing has changed."""


@dataclass(frozen=True)
class Question:
    """Asked when the parked reading does not agree with the sweep: no stop-at until answered.

    Or when a stop was pressed too far from the stop-at, which stands meanwhile.
    """

    said: Said
    answers: tuple[Answer, ...]
