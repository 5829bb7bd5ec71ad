"""From the command line's flags, and questions where they are missing, to a gauge's file."""

import argparse
import datetime
import re
import time
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import partial
from itertools import pairwise
from math import gcd
from typing import Final, NamedTuple

from daq import units
from daq.gauges.config import GaugeConfig, from_table
from daq.gauges.learn import judge
from daq.gauges.learn.live.ear import Opener, opened
from daq.gauges.learn.live.person import Attendant, nothing
from daq.gauges.learn.live.search import SPEEDS, Patience
from daq.gauges.learn.live.session import Session
from daq.gauges.learn.live.ways import LearnedGauge, Sought
from daq.gauges.learn.writing import Particulars, file
from daq.gauges.talk import Talk
from daq.settings import quoted
from daq.words import Said, said

_UNKNOWN_TRAVEL_MM: Final = 25.4
_STEPS: Final = {5: 6, 2: 12}
"""So many unlike steps between numbers that are all fives, or even, are no chance: a hand that goes
evenly takes one and the same step many times."""
_FILLED: Final = {
    "name": "New gauge", "serial_number": "not told", "travel": "200 mm", "max_error": "1 mm",
    "calibration_due": datetime.date(2099, 12, 31),
}  # fmt: skip
"""What stands for a key that is still missing while the file is tried."""
_OVER_NETWORK: Final = re.compile(r"(?:socket|spy\+socket|keys|hid)://")
"""Where a port has no speed."""


class Made(NamedTuple):
    """A file's text, what is missing in it, and what it was learned from."""

    text: str
    missing: tuple[str, ...]
    learned: LearnedGauge
    config: GaugeConfig


def learn(
    args: argparse.Namespace,
    person: Attendant,
    *,
    patience: Patience | None = None,
    opener: Opener = opened,
    now_ns: Callable[[], int] = time.monotonic_ns,
) -> Made:
    """Return the file of the gauge at `args.port`, tried with the file's own reader.

    Raises:
        LearnError: the gauge was not understood, or the file did not read it.
        LinkError: the port cannot be used.
        ValueError: a flag is not what it must be.
        SettingsError: the file is none.
    """
    patience = patience or Patience()
    session = Session(args.port, person, patience=patience, opener=opener, now_ns=now_ns)
    session.reachable()
    for key in _ASKED:
        if (given := getattr(args, key)) is not None:
            _ASKED[key].checked(given)
    travel = _told(args, person, "travel")
    travel_mm = units.parse(travel, "length") if travel else _UNKNOWN_TRAVEL_MM
    learned = session.learn(
        Sought(travel_mm, _request(args.request), args.key, _speeds(args, person))
    )
    about = _particulars(args, person, learned, travel)
    line = replace(learned.found.line, port=args.port)
    text = file(about, line, learned.habits, learned.encoding.table, learned.notes)
    table = tomllib.loads(text)
    whole = {key: _FILLED[key] for key in about.missing} | table
    config = from_table(whole, "learned.toml")
    session.try_out(config, learned)
    return Made(text, about.missing, learned, config)


def _particulars(
    args: argparse.Namespace, person: Attendant, learned: LearnedGauge, travel: str | None
) -> Particulars:
    """Return what flags and answers tell besides the wire, the step of the last digit among it."""
    seen = step_seen(learned)
    told = args.resolution or ("" if seen.sure else _told(args, person, "resolution"))
    return Particulars(
        _told(args, person, "name"),
        _told(args, person, "serial_number"),
        _told(args, person, "kind") or "plunger",
        learned.counts_up,
        told or seen.step,
        travel,
        _told(args, person, "max_error"),
        _told(args, person, "calibration_due"),
        step_sure=bool(told) or seen.sure,
    )


@dataclass(frozen=True)
class _Asked:
    """One thing that no wire tells: what is asked, and how an answer is checked."""

    say: Said
    checked: Callable[[str], object]


def _kind(text: str) -> None:
    if text not in _KINDS:
        raise ValueError(f"found {quoted(text)}; allowed: {' or '.join(_KINDS)}")


_KINDS: Final = ("plunger", "lever")
_length = partial(units.parse, kind="length")
_ASKED: Final[Mapping[str, _Asked]] = {
    "travel": _Asked(said("learn-travel"), _length),
    "name": _Asked(said("learn-name"), str),
    "serial_number": _Asked(said("learn-serial"), str),
    "kind": _Asked(said("learn-kind"), _kind),
    "resolution": _Asked(said("learn-resolution"), _length),
    "max_error": _Asked(said("learn-max-error"), _length),
    "calibration_due": _Asked(said("learn-due"), datetime.date.fromisoformat),
}


def _told(args: argparse.Namespace, person: Attendant, key: str) -> str | None:
    """Return a flag, or what is answered, asked again until it can be; None: it is not known."""
    given: str | None = getattr(args, key)
    if given is not None:
        return given
    say = _ASKED[key].say
    while answer := person.asked("told", say, nothing):
        try:
            _ASKED[key].checked(answer)
        except ValueError:
            say = said("learn-no-answer-that", typed=answer, asked=_ASKED[key].say)
            continue
        return answer
    return None


def _speeds(args: argparse.Namespace, person: Attendant) -> tuple[int, ...]:
    """Return the speeds to try: the given one, none but one where there are none."""
    if _OVER_NETWORK.match(args.port):
        return SPEEDS[:1]
    if args.baud:
        return tuple(args.baud)
    say = said("learn-speed")
    while answer := person.asked("told", say, nothing):
        if answer.isdecimal():
            return (int(answer),)
        say = said("learn-no-answer-that", typed=answer, asked=said("learn-speed"))
    return SPEEDS


def _request(text: str | None) -> bytes:
    return Talk(1.0, "asks", text).asked if text else b""


class StepSeen(NamedTuple):
    """The smallest step that was seen, such as "0.001 mm", and whether it is its step for sure."""

    step: str
    sure: bool


def step_seen(learned: LearnedGauge) -> StepSeen:
    """Return by how much the number goes on; by one of its last digit, where that is not sure."""
    face = learned.faces[0]
    read = judge.decoded(learned.encoding.table, learned.heard.pieces) or []
    seen = [round(each.value * 10**face.places) for each in read]
    common, steps = gcd(*seen), {after - before for before, after in pairwise(seen)} - {0}
    fits = {step: len(steps) >= least for step, least in _STEPS.items() if common % step == 0}
    step = next((each for each, enough in fits.items() if enough), 1)
    sure = step != 1 or not fits
    return StepSeen(f"{Decimal(step).scaleb(-face.places):f} {face.unit}", sure)
