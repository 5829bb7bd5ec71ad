"""What the pages ask of rights: who this is, pairing, and people's PINs."""

import datetime
import hashlib
import secrets
import threading
import uuid
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final, Literal

from daq.service.clock import Clock
from daq.service.rights.codes import PairingCode, ShownCode
from daq.service.rights.limits import Buckets
from daq.service.rights.pins import PersonalPins
from daq.service.rights.store import Kept, Screen, Store
from daq.service.rights.wall import OwnWall, made_key

Right = Literal["nothing", "look", "work", "own"]
"""Each is worth more than the one before: nothing until a screen is paired; what anybody on the
network may then; what a paired screen may; what the Pi's own wall may, which shows the code."""

RANK: Final[dict[Right, int]] = {"nothing": 0, "look": 1, "work": 2, "own": 3}

UNUSED_DAYS = 30
"""A pairing ends when its screen has not been used for so long."""

MOST_SCREENS = 100
"""With one more, the one unused for longest is unpaired."""

LONGEST_NAME = 40


@dataclass(frozen=True)
class RightsNow:
    """What whoever asks may do; `screen` and `name` of a paired one."""

    right: Right
    screen: str = ""
    name: str = ""


class Access:
    """One service's rights; any thread may ask."""

    def __init__(self, data: Path, clock: Clock) -> None:
        """Kept in the data folder, which must be there.

        Raises:
            SaidTrouble: what is kept there cannot be read, or the wall's key can be by everybody.
        """
        self._clock = clock
        self.store = Store(data)
        self.store.kept()
        self._wall = OwnWall(made_key(data), clock.mono_ns)
        self._drawn_ns: int | None = None
        self._code = PairingCode(clock.mono_ns)
        self._lock = threading.Lock()
        self.pins = PersonalPins(self.store, clock.mono_ns)
        self.presses = Buckets(200, 0.2, clock.mono_ns)
        self.pairings = Buckets(5, 12.0, clock.mono_ns)
        self.askings = Buckets(5, 12.0, clock.mono_ns)

    def standing(self, token: str) -> RightsNow:
        """What whoever keeps this token may do."""
        if token and self._wall.knows(token):
            return RightsNow("own")
        kept = self.store.kept()
        hashed = _hashed(token)
        found = next((each for each in kept.screens if each.token == hashed), None)
        if found is not None and not self._ended(found):
            self._seen(found)
            return RightsNow("work", found.id, found.name)
        return RightsNow("look" if kept.screens else "nothing")

    def admit_wall(self, ticket: str) -> str | None:
        """What the own wall's browser is to keep, for a ticket."""
        with self._lock:
            return self._wall.token() if self._wall.admits(ticket) else None

    def drawn(self) -> None:
        """The own wall's page is drawn."""
        self._drawn_ns = self._clock.mono_ns()

    @property
    def drawn_ms(self) -> int | None:
        """How long ago the own wall's page was last known to be drawn; None: not since a start."""
        drawn_ns = self._drawn_ns
        return None if drawn_ns is None else (self._clock.mono_ns() - drawn_ns) // 1_000_000

    def ask_code(self) -> int:
        """See to it that the own wall shows a code: 0, or in how many seconds it may."""
        return self._code.make()

    @property
    def shown(self) -> ShownCode | None:
        """The code that the own wall shows; for nobody else."""
        return self._code.shown()

    def pair(self, code: str, name: str) -> str | None:
        """What the screen is to keep whose person typed the code; None where it is wrong."""
        if not self._code.spend(code):
            return None
        token, today = secrets.token_urlsafe(32), self._day()
        called = printable(name)[:LONGEST_NAME]
        seen = today if self._clock.stamp().utc_trusted else ""

        def put(kept: Kept) -> Kept:
            called_so = called or f"{len(kept.screens) + 1}"
            new = Screen(str(uuid.uuid4()), called_so, _hashed(token), today, seen)
            latest = sorted(kept.screens, key=lambda each: each.last)[-(MOST_SCREENS - 1) :]
            return replace(kept, screens=(*latest, new))

        self.store.change(put)
        return token

    def unpair(self, screen: str) -> bool:
        """Take a screen's right away; whether there was one."""
        there = any(each.id == screen for each in self.store.kept().screens)
        self.store.change(
            lambda kept: replace(
                kept, screens=tuple(each for each in kept.screens if each.id != screen)
            )
        )
        return there

    def _ended(self, screen: Screen) -> bool:
        """Whether it was not used for too long. A clock that nobody set tells nothing."""
        if not (screen.seen and self._clock.stamp().utc_trusted):
            return False
        unused = datetime.date.fromisoformat(self._day()) - datetime.date.fromisoformat(screen.seen)
        return unused.days > UNUSED_DAYS

    def _seen(self, screen: Screen) -> None:
        """Note that it was used: once a day, for each write wears the card."""
        today = self._day()
        if not self._clock.stamp().utc_trusted or screen.seen >= today:
            return
        try:
            self.store.change(
                lambda kept: replace(
                    kept,
                    screens=tuple(
                        replace(each, seen=today) if each.id == screen.id else each
                        for each in kept.screens
                    ),
                )
            )
        except OSError:
            return  # the disk is full: it may look and work all the same

    def _day(self) -> str:
        moment = datetime.datetime.fromtimestamp(self._clock.stamp().utc_us / 1e6, datetime.UTC)
        return moment.date().isoformat()


def printable(name: str) -> str:
    """A name without what a terminal obeys, or no file can hold."""
    return " ".join("".join(each if each.isprintable() else " " for each in name).split())


def _hashed(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
