"""What a program and a page are told of whether a head is good enough for a job."""

from dataclasses import dataclass

from daq.words.choices import Unit, Word
from daq.words.said import Text


@dataclass(frozen=True)
class EnoughView:
    """The answer in words and numbers.

    `say`: the answer; `basis`: the sweep it rests on, signed how long ago; `since`: what that
    cannot know; `alone`: what the head's part leaves out. `does_mm` over the callout, `doubt_mm`
    its expanded uncertainty, `zone_mm` what the drawing allows. `audit`: whose sweep it is, to be
    handed in with the answer when it is kept.
    """

    word: Word
    say: Text
    basis: Text
    since: Text
    alone: Text
    does_mm: float
    doubt_mm: float
    zone_mm: float
    unit: Unit
    audit: str
    day: str
    days: int
