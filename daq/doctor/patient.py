"""What the doctor is told: where files, record and system lie, and what a running service knows."""

import subprocess
import threading
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from daq.service.clock import Clock, SystemClock
from daq.service.files import ShopFiles, what_is_good
from daq.words import Said

ANSWERS_S: Final = 5.0
"""So long a command of the system, or the service, has to answer."""

Ask = Callable[[Sequence[str]], str | None]
"""A command of the system and its arguments, to what it prints; None where there is none such."""


def asked(command: Sequence[str]) -> str | None:
    """What the command prints, whatever its exit code; None where there is none such.

    Raises subprocess.TimeoutExpired where it does not answer.
    """
    try:
        done = subprocess.run(
            command, stdin=subprocess.DEVNULL, capture_output=True, text=True, errors="replace",
            timeout=ANSWERS_S, check=False,
        )  # fmt: skip
    except OSError:
        return None
    return done.stdout


@dataclass(frozen=True)
class GaugeHeard:
    """How a gauge's reader is doing: its code, "ok" or a fault's name, and what there is to say."""

    code: str
    say: Said | str


@dataclass(frozen=True)
class AtWork:
    """What only a running service knows.

    `screens` are the open ones, `most_screens` how many may be; `held` the threads that stand
    still, `dropped` the followers of the ledger that are told no more; `unrecorded` why nothing is
    recorded, by machine.
    """

    gauges: Mapping[str, GaugeHeard] = field(default_factory=dict)
    screens: int = 0
    most_screens: int = 0
    held: tuple[str, ...] = ()
    dropped: tuple[str, ...] = ()
    unrecorded: Mapping[str, Said | str] = field(default_factory=dict)


def at_work(service: Mapping[str, Any], screens: int, most_screens: int) -> AtWork:
    """What `Hub.health` tells, or `/healthz` of it under `service`, as the looks use it."""
    gauges = service.get("gauges", {})
    recording = service.get("recording", {})
    return AtWork(
        {key: GaugeHeard(str(each["code"]), each["say"]) for key, each in gauges.items()},
        screens,
        most_screens,
        tuple(service.get("held", ())),
        tuple(service.get("dropped", ())),
        {key: each.get("say") or "" for key, each in recording.items() if not each["ok"]},
    )


@dataclass(frozen=True)
class Patient:
    """A place to be examined.

    `config` and `data` are the folders that the service is given, `running` what it knows, None
    where none runs. `root` is where `/sys`, `/proc`, `/dev` and `/etc` hang; `ask` runs a command
    of the system.
    """

    config: Path
    data: Path
    running: AtWork | None = None
    root: Path = Path("/")
    ask: Ask = asked
    clock: Clock = field(default_factory=SystemClock)
    _reads: threading.Lock = field(default_factory=threading.Lock, init=False, repr=False)
    _read: list[ShopFiles] = field(default_factory=list, init=False, repr=False)

    @property
    def files(self) -> ShopFiles:
        """The shop's files as far as they can be used: read once, however many looks ask."""
        with self._reads:
            if not self._read:
                self._read.append(what_is_good(self.config))
            return self._read[0]

    def at(self, path: str | Path) -> Path:
        """Where an absolute path of this system lies."""
        return self.root / str(path).lstrip("/")

    def read(self, path: str | Path) -> str | None:
        """The text of a small file of the system, without blanks around; None where it is not."""
        try:
            return self.at(path).read_text(encoding="utf-8", errors="replace").strip()
        except OSError:
            return None

    def number(self, path: str | Path) -> int | None:
        """The whole number in such a file; None where there is none."""
        text = self.read(path)
        return int(text) if text is not None and text.lstrip("-").isdecimal() else None
