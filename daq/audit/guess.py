"""What may have happened where readings do not fit, by an audit's own head and readings."""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from daq.audit.head import doubt, learned, scatters, sees_mm
from daq.audit.move_events import Strange
from daq.audit.state import Job
from daq.squaring.recognise import TurnSeen
from daq.squaring.story import Story
from daq.squaring.surmise import Guess, Riddle, surmise
from daq.words import Axis, Figure

LIKELY = 0.5
"""Nothing less likely than all else together is asked about."""
_TOLD = 0.005
"""A smaller share is none in whole percent."""
_TWICE = 15.0
"""So much seldomer a knock is taken for the same angle once more than a swung ram is: angles
that differ by no more than `_SAME` are about that part of all that are sought."""
_SAME = math.radians(4.0)
"""Two angles of a ram that were guessed from a move each may differ by as much."""
_LEAST = math.radians(2.0)
"""A ram swung by less does less than couplings do anyhow."""


def guessed(
    job: Job, before: Story, since: Story, axis: Axis | None = None, turn: TurnSeen | None = None
) -> tuple[Guess, ...]:
    """What may have happened, the likeliest first; what hardly can have is not among it.

    `axis`: the one whose turn the readings follow, `turn`: what that was to do, and did. How far
    an adjuster lets its axis fall back is what the parked gauge would show of it.
    """
    machine, back_mm = job.setup.machine, 0.0
    if axis is not None:
        sees = max(sees_mm(job, axis), machine.sweep_radius)
        back_mm = (machine.axis(axis).adjust.backlash or 0.0) * machine.diameter / sees
    every = surmise(
        Riddle(
            before,
            since,
            learned(job).answering,
            machine.sweep_radius,
            doubt(job),
            scatters(job),
            axis if turn is not None else None,
            turn.expected_mm if turn is not None else 0.0,
            back_mm,
        )
    )
    every = _again(job, every)
    return (every[0], *(each for each in every[1:] if each.share >= _TOLD))


def _again(job: Job, guesses: tuple[Guess, ...]) -> tuple[Guess, ...]:
    """The guesses once a ram was guessed before by the same angle: no two knocks do that."""
    if not any(guess.kind == "swung" and is_named(job, guess) for guess in guesses):
        return guesses
    likelier = [g.share * (_TWICE if g.kind == "swung" else 1.0) for g in guesses]
    shared = (
        replace(guess, share=share / sum(likelier))
        for guess, share in zip(guesses, likelier, strict=True)
    )
    return tuple(sorted(shared, key=lambda guess: -guess.share))


def is_ram(guess: Guess) -> bool:
    """Whether a swung ram is likelier than all else together, and swung by enough to matter."""
    return guess.kind == "swung" and guess.share >= LIKELY and abs(guess.figure) >= _LEAST


def is_named(job: Job, guess: Guess) -> bool:
    """Whether the same was the likeliest the last time, by the same figure."""
    before = job.head.named
    if before is None or before.kind != guess.kind:
        return False
    return guess.kind != "swung" or abs(before.figure - guess.figure) <= _SAME


def comes_again(job: Job, guesses: Sequence[Guess]) -> Guess | None:
    """The ram that was named before, by the same figure: nobody is asked about it twice."""
    first = next(iter(guesses), None)
    return first if first is not None and is_ram(first) and is_named(job, first) else None


def angle(guess: Guess) -> Figure:
    """How far a ram is swung, in whole degrees."""
    return Figure(abs(math.degrees(guess.figure)), 0)


def way(guess: Guess) -> Literal["left", "right"]:
    """Which way it is swung, seen from above: left is anticlockwise."""
    return "left" if guess.figure > 0.0 else "right"


def went_back(odd: Strange, guesses: Sequence[Guess]) -> Strange:
    """A knock that is no more than the head going back as it was let go is called by its name."""
    kind = guesses[0].kind if guesses else "knocked"
    if odd in ("bumped", "astray") and (kind == "fell-back" or kind == "crept"):
        return kind
    return odd
