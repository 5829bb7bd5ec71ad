"""Learning one gauge from its first byte to its file."""

import time
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from typing import Final

from daq.gauges.config import GaugeConfig
from daq.gauges.errors import LearnError
from daq.gauges.learn import judge
from daq.gauges.learn.evidence import Evidence, Pieces, Proposal
from daq.gauges.learn.live.ear import Asking, Ear, Heard, Opener, opened
from daq.gauges.learn.live.person import Attendant
from daq.gauges.learn.live.search import (
    REQUESTS,
    SPEEDS,
    Patience,
    Search,
    Understood,
    spoken,
)
from daq.gauges.learn.live.trial import tried
from daq.gauges.learn.propose import propose
from daq.gauges.learn.writing import Habits

_LEAST: Final = 0.5
_STILL: Final = 0.01
"""A number that moves by less of its range than this is at rest."""
_MOVED: Final = 0.05
_PRESSES: Final = 3
_SHORTEST_PAUSE_S, _LONGEST_PAUSE_S = 0.01, 0.2
_MOST_INTERVAL_S: Final = 60.0
_LONGER: Final = 1.5
_MIXED: Final = (
    "Its frames hold digits that do not move with the hand (a check, a counter, another "
    "channel?), and its number could not be told from them. Nothing is written: describe the "
    "frames by hand, as in example-inch.toml, with its manual."
)
_UNPROVED: Final = (
    "It was not seen that the last digit of its number moves with the hand: it may be a check. "
    "Nothing is written: learn again, and work the contact slowly, over a short way."
)


@dataclass(frozen=True, slots=True)
class Sought:
    """What is known before: requests to try, and what concerns the one push."""

    push_mm: float
    travel_mm: float
    request: bytes = b""
    minus_at_rest: bool | None = None
    key: bool = False
    speeds: tuple[int, ...] = SPEEDS


@dataclass(frozen=True, slots=True)
class AllHeard:
    """All that the wire told."""

    found: Understood
    habits: Habits
    proposal: Proposal


class Session:
    """One gauge at one port, and one person at the gauge."""

    def __init__(
        self,
        url: str,
        person: Attendant,
        *,
        patience: Patience,
        opener: Opener = opened,
        now_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        """Prepare; nothing is opened before `learn`."""
        self._now_ns = now_ns
        self._ear = Ear(url, opener, now_ns)
        self._person = person
        self._patience = patience

    def learn(self, sought: Sought, length: str) -> AllHeard:
        """Return what the gauge is like; `length` is the push in the person's own words.

        Raises:
            LearnError: nothing made sense, or the push was not seen.
            LinkError: the port cannot be used.
        """
        search = Search(self._ear, self._person, sought.speeds, self._patience)
        found = search.found(REQUESTS, Asking(sought.request), sought.key)
        if found is None:
            raise LearnError(
                "What came was not understood at any usual speed, or nothing came: is the gauge "
                "on, is its cable in, and what does its manual say about requests (--request)?"
            )
        self._person.tell(f"It is understood at {spoken(found.line)}.")
        worked = self._worked(found)
        # While it was searched for, it may have shown one sign only.
        proposal = _again(worked)
        if proposal is None:
            raise LearnError(_MIXED)
        found = replace(found, proposal=proposal)
        rest = self._at_rest(found, worked)
        pushed = self._pushed(found, worked, rest, length)
        return _concluded(found, sought, (worked, rest, pushed))

    def try_out(self, config: GaugeConfig) -> None:
        """Read the gauge by its written file for a while.

        Raises:
            LearnError: the file does not read it, or not well.
            LinkError: the port cannot be used.
        """
        if config.talk.mode == "key":
            self._person.do("key", "Now press the gauge's key once, as for a reading.")
        with closing(self._ear.open(config.line)) as port:
            good, bad = tried(config, port, self._now_ns, self._patience.key_s)
        self._person.tell(f"Its own file was tried: {good} good frames, {bad} bad.")

    def _worked(self, found: Understood) -> Heard:
        self._person.do("work", "Go on working the contact slowly, through zero.")
        due_s = self._patience.work_s

        def unbroken(heard: Heard) -> Heard:
            # A key is pressed when it is pressed: its frames have no rhythm that could break.
            return heard if found.mode == "key" else heard.unbroken

        def proved(heard: Heard) -> bool:
            nonlocal due_s
            heard = unbroken(heard)
            if heard.seconds < due_s:
                return False
            best = _again(heard)
            if best is not None and best.proved:
                return True
            if due_s == self._patience.work_s:
                self._person.tell("Go on, over a short way: is its last digit moved by the hand?")
            due_s = heard.seconds * _LONGER
            return False

        heard = self._hear(found, self._patience.push_s, proved)
        part = unbroken(heard)
        return part if part.seconds >= self._patience.work_s else heard

    def _at_rest(self, found: Understood, worked: Heard) -> Heard:
        self._person.do("rest", "Now let go of the contact, and leave it free.")
        return self._still(found, worked, None)

    def _pushed(self, found: Understood, worked: Heard, rest: Heard, length: str) -> Heard:
        before = _number(found, rest)
        self._person.do(
            "push", f"Now push the contact in by exactly {length}, on a gauge block, and hold it."
        )
        return self._still(found, worked, before)

    def _still(self, found: Understood, worked: Heard, other_than: float | None) -> Heard:
        """Listen until the number stands still, elsewhere than before."""
        values = _values(found, worked.pieces)
        reach = max(values, default=0.0) - min(values, default=0.0)

        def still(heard: Heard) -> bool:
            seen = _values(found, self._last(heard, found).pieces)
            moved = other_than is None or (
                bool(seen) and abs(seen[-1] - other_than) > _MOVED * reach
            )
            calm = len(seen) > 1 and max(seen) - min(seen) <= _STILL * reach
            return (
                moved and calm and (found.mode == "key" or heard.seconds > self._patience.still_s)
            )

        heard = self._hear(found, self._patience.push_s, still)
        if not still(heard):
            raise LearnError("The number did not come to rest, or did not change with the push.")
        return self._last(heard, found)

    def _last(self, heard: Heard, found: Understood) -> Heard:
        """Return the end of a recording, as long as a number must stand still."""
        if found.mode == "key":
            return heard.last(_PRESSES)
        since = heard.blocks[-1][0] - self._patience.still_s if heard.blocks else 0.0
        return replace(heard, blocks=tuple(each for each in heard.blocks if each[0] >= since))

    def _hear(self, found: Understood, most_s: float, enough: Callable[[Heard], bool]) -> Heard:
        return self._ear.hear(found.line, most_s, enough, found.asking)


def _again(worked: Heard) -> Proposal | None:
    proposals = propose(Evidence(worked.pieces, paused=worked.silence_s > 0.0))
    return proposals[0] if proposals else None


def _values(found: Understood, pieces: Pieces) -> list[float]:
    decoded = judge.decoded(found.proposal.table, pieces) or []
    return [each.value for each in decoded]


def _number(found: Understood, heard: Heard) -> float | None:
    return judge.middle(found.proposal.table, heard.pieces)


def _concluded(found: Understood, sought: Sought, heard: Sequence[Heard]) -> AllHeard:
    worked, rest, pushed = (each.pieces for each in heard)
    silence_s = heard[0].silence_s
    evidence = Evidence(
        worked,
        rest,
        pushed,
        sought.push_mm,
        sought.minus_at_rest,
        sought.travel_mm,
        silence_s > 0.0,
    )
    best = next(iter(propose(evidence)), None)
    if best is None or best.score < _LEAST:
        raise LearnError(_MIXED)
    if best.counts_up is None or not best.resolution:
        raise LearnError(" ".join(best.notes))
    if not best.proved:
        raise LearnError(_UNPROVED)
    return AllHeard(found, _habits(found, best, heard[0]), best)


def _habits(found: Understood, best: Proposal, worked: Heard) -> Habits:
    good = len(_values_of(best, worked))
    interval_s = worked.seconds / max(1, good - 1) or 1.0
    if found.mode == "asks":
        interval_s = found.asking.interval_s
    pause_s = None
    if best.table.get("apart") == "pause":
        pause_s = min(max(worked.silence_s / 2.0, _SHORTEST_PAUSE_S), _LONGEST_PAUSE_S)
    interval_s = min(interval_s, _MOST_INTERVAL_S)
    return Habits(found.mode, interval_s, found.asking.request, pause_s)


def _values_of(best: Proposal, heard: Heard) -> list[float]:
    return [each.value for each in judge.decoded(best.table, heard.pieces) or []]
