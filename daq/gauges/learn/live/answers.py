"""From the command line's flags, and questions where they are missing, to a gauge's file."""

import argparse
import datetime
import time
import tomllib
from collections.abc import Callable
from dataclasses import replace
from typing import Final

from daq import units
from daq.gauges.config import from_table
from daq.gauges.errors import LearnError
from daq.gauges.learn.live.ear import Opener, opened
from daq.gauges.learn.live.person import Attendant, Silent
from daq.gauges.learn.live.search import SPEEDS, Patience
from daq.gauges.learn.live.session import AllHeard, Session, Sought
from daq.gauges.learn.writing import Particulars, file
from daq.gauges.talk import Talk

_PUSH: Final = "1.000 mm"
_TRAVEL: Final = "12.7 mm"
_UNATTENDED: Final = Patience(still_s=2.5)
"""Nobody presses Enter: a number must stand still for longer to be at rest."""


def learn(
    args: argparse.Namespace,
    person: Attendant,
    today: datetime.date,
    *,
    patience: Patience | None = None,
    opener: Opener = opened,
    now_ns: Callable[[], int] = time.monotonic_ns,
) -> str:
    """Return the text of the file of the gauge at `args.port`, tried with the file's own reader.

    Raises:
        LearnError: the gauge was not understood, the file did not read it, or was not accepted.
        LinkError: the port cannot be used.
        ValueError: a flag is not what it must be.
        SettingsError: what was answered does not make a file.
    """
    guessed: list[str] = []

    def ask(key: str, text: str, proposed: str) -> str:
        given: str | None = getattr(args, key)
        if given is not None:
            return given
        answer = person.asked(text, proposed)
        if answer == proposed:
            guessed.append(key)
        return answer

    push = args.push or person.asked("How long is the block that you will push with?", _PUSH)
    travel = ask("travel", "How far can the contact move?", _TRAVEL)
    sought = _sought(args, person, push, travel)
    patience = patience or (_UNATTENDED if type(person) is Silent else Patience())
    session = Session(args.port, person, patience=patience, opener=opener, now_ns=now_ns)
    found = session.learn(sought, push)
    text = _written(args, found, travel, ask, today, guessed)
    session.try_out(from_table(tomllib.loads(text), "the learned file"))
    return _accepted(text, person)


def _sought(args: argparse.Namespace, person: Attendant, push: str, travel: str) -> Sought:
    minus = args.minus_at_rest or person.asked(
        "Does the gauge's face show a minus while the contact is free (yes or no)?", "unknown"
    )
    return Sought(
        units.parse(push, "length"),
        units.parse(travel, "length"),
        Talk(1.0, "asks", args.request).asked if args.request else b"",
        {"yes": True, "no": False}.get(minus),
        args.key,
        tuple(args.baud or SPEEDS),
    )


def _written(
    args: argparse.Namespace,
    found: AllHeard,
    travel: str,
    ask: Callable[[str, str, str], str],
    today: datetime.date,
    guessed: list[str],
) -> str:
    resolution = args.resolution or found.proposal.resolution
    number, _, unit = resolution.partition(" ")
    steps = f"{2.0 * float(number):.9f}".rstrip("0") + f" {unit}"
    about = Particulars(
        ask("name", "What is it called?", "New gauge"),
        ask("serial_number", "What is the number on its housing?", "not told"),
        ask("kind", "Is it a plunger or a lever?", "plunger"),
        resolution,
        travel,
        ask("max_error", "How much may it be wrong over its whole travel?", steps),
        ask("calibration_due", "Until when is its calibration good?", today.isoformat()),
        tuple(guessed),
    )
    line = replace(found.found.line, port=args.port)
    return file(about, line, found.habits, found.proposal)


def _accepted(text: str, person: Attendant) -> str:
    """Show the file, and have it accepted."""
    person.tell(text)
    if person.asked("Is that right (yes or no)?", "yes") != "yes":
        raise LearnError("Not accepted: nothing is written.")
    return text
