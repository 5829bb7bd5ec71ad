"""The events that close an audit, let it rest or hand it over, and those after it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from daq.audit.answers import GoodEnough
from daq.audit.parts import (
    Anew,
    AxisResult,
    AxisShift,
    LeftAlone,
    Listed,
    Next,
    Unsafe,
    Verdict,
    Whole,
)
from daq.audit.rounds import Round
from daq.audit.stated import BorneOut, Stated
from daq.checks.sweep.by_mark import ByMark
from daq.metrology.rule import Rule
from daq.words import Both, Said


@dataclass(frozen=True)
class HandedOver:
    """The open audit is in other hands from here on, both by their ids; nothing of it changes."""

    left_by: str
    taken_by: str


@dataclass(frozen=True)
class Handed:
    """A handing over, and when that was: UTC, of a clock that a time server had set or not."""

    what: HandedOver
    day: str
    time: str
    utc_trusted: bool


@dataclass(frozen=True)
class Signed:
    """The verdict, signed. The audit is closed.

    `done_by`, `reviewed_by`: the ids of people. `as_found` is None when the head was off the
    gauge's scale; `off_scale` then says how far. Or it had been `set_back` by its scale, after
    angled work. `left_alone`: what was not to be moved. `sweeps` lists every full sweep; the first
    before anything was loosened is the as-found and the first after the last tightening the
    as-left, another one only with `as_found_why` or `as_left_why`. `shifts`: what each
    tightening did to its axis, across the sweep. `whole`: the as-left lean as one vector, where
    it was judged so. `round`: what another check than the sweep came to; nothing is then said
    of the axes. `against`: what speaks against the gauge or the dates, `all_the_same`: why it was
    signed for all that; `noted`: what else is to be known of the dates. `rule`: by which it was
    judged; `measurand`: what the verdict is of. `stated`: what the next as-found is held against;
    `borne_out`: how this one's bore out what the signature before it had stated. `known`: what
    is known from now on of each ring that was turned, by its name, and of the spindle ("").
    `handed`: through whose hands it went.
    """

    done_by: str
    reviewed_by: str
    note: str
    last_good: str
    disposition: str
    verdict: Verdict
    as_found: Both[AxisResult] | None
    as_left: Both[AxisResult] | None
    moves: int
    off_scale: Said | None = None
    set_back: bool = False
    left_alone: tuple[LeftAlone, ...] = ()
    as_left_why: str = ""
    sweeps: tuple[Listed, ...] = ()
    shifts: tuple[AxisShift, ...] = ()
    as_found_why: str = ""
    whole: Whole | None = None
    round: Round | None = None
    against: tuple[Said, ...] = ()
    all_the_same: str = ""
    noted: tuple[Said, ...] = ()
    rule: Rule | None = None
    measurand: Said | None = None
    stated: Stated | None = None
    borne_out: BorneOut | None = None
    known: Mapping[str, ByMark] = field(default_factory=dict)
    handed: tuple[Handed, ...] = ()


@dataclass(frozen=True)
class Abandoned:
    """The audit is closed without a verdict; `unsafe`: what is left to do before power is back.

    `put_right`: what somebody said is done of that already.
    """

    why: str
    unsafe: Unsafe | None = None
    put_right: Unsafe | None = None


@dataclass(frozen=True)
class PutAside:
    """A hot job comes between: the audit is to rest.

    `tag`: how far it came. `unsafe`: what is to be done before power is back. `anew`: where it
    goes on if that is not done. `read`: a sweep from now on is not as found, because the head was
    read, or was off scale, before. `card`: what was still to be read before anything was done.
    """

    why: str
    tag: Said
    unsafe: Unsafe | None
    anew: Anew
    read: bool
    card: Next | None
    next: Next


@dataclass(frozen=True)
class MadeSafe:
    """What an abandoned audit left loose is tight, the arm out, the wrench off the drawbar."""


@dataclass(frozen=True)
class AnswerKept:
    """Whether the head was good enough for a job, by the last sweep, as a person was shown it."""

    answer: GoodEnough


@dataclass(frozen=True)
class ReportAmended:
    """Another report of a signed audit is issued, of which nothing changes. It is never taken back.

    `of`: the audit's id; `signed`: the row of its signature; `nth`: which report of it that is, and
    `because` of what the one before it is replaced; `done_by`: a person's id. `kept`: the SHA-256
    of the replaced one's PDF, which is this row's evidence.
    """

    of: str
    signed: int
    nth: int
    because: str
    done_by: str
    kept: str


AddendumKind = Literal["gauge-number", "name", "finding", "other"]


@dataclass(frozen=True)
class Addendum:
    """What a person has to add to a signed audit, of which nothing changes. It is never taken back.

    `of`: the audit's id; `signed`: the row of its signature; `done_by`: a person's id.
    """

    of: str
    signed: int
    kind: AddendumKind
    text: str
    done_by: str
