"""Why a shop opens an audit, and everything that a reason changes: said here, asked elsewhere."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from daq.audit.stated import NotCounted

Reason = Literal[
    "after-angled-work",
    "crash",
    "before-job",
    "bad-work",
    "moved",
    "maintenance",
    "scheduled",
    "check-only",
    "practice",
]


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a reason changes.

    `asks`: the stage that comes before the machine is prepared, "" for none. `expected_out`:
    found out of tolerance, it says nothing about earlier work. `as_found`: how the head was
    found shows how it kept square; else it was put so on purpose. `counts`: that makes the
    trend's limits; else its cause is known, and limits made with it would hide the next.
    `kept`: anything of it is, in the trend and in what the head taught. `squares`: an axis that
    is out is moved; else only when somebody says so. `stirs`: what may have moved the head since
    any sweep before, or why that is to be thought. `known`: that is no guess, so how it was found
    says nothing of how sure the audit before it was; bad work may say just that.
    """

    asks: str = ""
    expected_out: bool = False
    as_found: bool = True
    counts: bool = True
    kept: bool = True
    squares: bool = True
    stirs: Literal["", "moved", "crash"] = ""
    known: NotCounted | None = None


REASONS: Final[Mapping[Reason, Meaning]] = {
    "after-angled-work": Meaning(
        asks="angled",
        expected_out=True,
        as_found=False,
        counts=False,
        stirs="moved",
        known="after-angled-work",
    ),
    "crash": Meaning(asks="crashed", counts=False, stirs="crash", known="crash"),
    "before-job": Meaning(),
    "bad-work": Meaning(stirs="moved"),
    "moved": Meaning(
        asks="levelled", expected_out=True, counts=False, stirs="moved", known="moved"
    ),
    "maintenance": Meaning(stirs="moved", known="maintenance"),
    "scheduled": Meaning(),
    "check-only": Meaning(squares=False),
    "practice": Meaning(expected_out=True, kept=False),
}
