"""Whether the service was ended or cut off: by a small file that only a proper end takes away."""

import datetime
import json
import logging
import os
import threading
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Final, Literal

from daq.ledger.folder import flush_folder
from daq.service.clock import Clock
from daq.service.rights.store import write
from daq.service.turns import WAIT_S, Turns
from daq.settings import Range, SettingsError, build, plain
from daq.words import Said, Stamp, said

NAME: Final = "running.json"

EVERY_NS: Final = 300_000_000_000
"""How often it is written anew: each write wears the card."""

STOPS_S: Final = 1.0

LATEST_US: Final = 250_000_000_000_000_000
"""In the year 9892: calendars end soon after."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class LastSign:
    """The last sign of life of a run: of which start of the computer, which process and release."""

    boot: str
    pid: int
    engine: str
    utc_us: Annotated[int, Range(0, LATEST_US)]
    utc_trusted: bool


@dataclass(frozen=True, slots=True)
class CutOff:
    """The run before this one was not ended.

    `how`: with the whole computer ("power"), it alone ("killed"), or its file cannot be read
    ("unclear"). `after_us`: when it was seen alive last, UTC; None where no clock could be trusted.
    """

    how: Literal["power", "killed", "unclear"]
    after_us: int | None

    def say(self, now: Stamp) -> Said:
        """What happened; the day stands with the time unless it is known to be today."""
        at = "unknown" if self.after_us is None else _local(self.after_us, now)
        return said("cut-off", how=self.how, at=at)


class Alive:
    """Keeps the file while the service runs; on a thread of its own it is written now and then."""

    def __init__(self, data: Path, clock: Clock, engine: str, last: Stamp | None) -> None:
        """Nothing is read or written before `begin`. `last`: the stamp of the record's last row."""
        self._path = data / NAME
        self._clock = clock
        self._engine = engine
        self._last = last
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._work, name="alive", daemon=True)
        self._wrote_ns = 0
        self.cut_off: CutOff | None = None
        """How the run before this one ended, unless it was told to."""
        self.turns = Turns()

    def begin(self) -> None:
        """See how the run before this one ended, and write down that this one is under way.

        The data folder is locked: no other run is.
        """
        self.cut_off = self._before()
        if self.cut_off is not None:
            _log.warning("the run before this one was cut off (%s)", self.cut_off.how)
        self._write()

    def start(self) -> None:
        """Begin to write it anew now and then."""
        self._thread.start()

    def stop(self) -> None:
        """Write no more; a disk that holds it up is left behind."""
        self._ending.set()
        if self._thread.is_alive():
            self._thread.join(STOPS_S)

    def ended(self) -> None:
        """The service ends as it was told to: no trace is left."""
        try:
            self._path.unlink(missing_ok=True)
            flush_folder(self._path.parent)
        except OSError as error:  # the next start then takes it for cut off
            _log.warning("%s is not removed: %s", self._path, error)

    def turn(self) -> None:
        """Write it anew if it is time to."""
        self.turns.turn()
        if self._clock.mono_ns() - self._wrote_ns >= EVERY_NS:
            self._write()

    def _work(self) -> None:
        while not self._ending.wait(WAIT_S):
            self.turn()
        self.turns.rest()

    def _before(self) -> CutOff | None:
        try:
            text = self._path.read_text("utf-8")
        except FileNotFoundError:
            return None
        except (OSError, ValueError):
            return CutOff("unclear", None)
        try:
            sign = build(LastSign, json.loads(text), NAME, quantities="plain")
        except (ValueError, RecursionError, SettingsError):
            return CutOff("unclear", None)
        last = self._last
        times = [sign.utc_us] if sign.utc_trusted else []
        if last is not None and last.utc_trusted and last.boot == sign.boot:
            times.append(last.utc_us)
        now = self._clock.stamp()
        return CutOff("killed" if sign.boot == now.boot else "power", max(times, default=None))

    def _write(self) -> None:
        self._wrote_ns = self._clock.mono_ns()
        now = self._clock.stamp()
        sign = LastSign(now.boot, os.getpid(), self._engine, now.utc_us, now.utc_trusted)
        try:
            write(self._path, json.dumps(plain(sign)) + "\n")
        except OSError as error:  # a full disk has an alarm of its own
            _log.warning("%s is not written: %s", self._path, error)


def _local(us: int, now: Stamp) -> str:
    """By the computer's own time zone, as a clock beside it shows it."""
    then, today = (datetime.datetime.fromtimestamp(t / 1e6) for t in (us, now.utc_us))
    short = now.utc_trusted and then.date() == today.date()
    return f"{then:%H:%M}" if short else f"{then:%Y\u2011%m\u2011%d %H:%M}"  # unbroken
