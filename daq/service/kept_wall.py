"""Keeps a browser on the Pi's own wall: started once the service answers, ended once its page
draws no more, and started anew."""

import http.client
import os
import signal
import subprocess
import threading
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Final, Protocol

from daq.service.manager import Manager
from daq.service.own_line import OwnLine

LOOK_S: Final = 1.0
FIRST_S: Final = 90.0
"""A browser on a small Pi, its card cold, may take so long to its first page."""

STILL_S: Final = 20.0
"""Then a page that is drawn says so every 5 s; without a word for so long it is none."""

AGAIN_S: Final = 5.0
"""From one start of a browser to the next at least."""

LEAVES_S: Final = 3.0
"""A browser told to end has so long."""
KILLED_S: Final = 10.0
"""How long one that was killed may take to go: with a busy disk not at once."""


@dataclass(frozen=True)
class WallSeen:
    """What the service knows of the own wall: how long ago its page said that it is drawn.

    `since_s` None: not since the service began. `asked` False: the service asks nobody who they
    are, as without a record; then no page can say so.
    """

    since_s: float | None = None
    asked: bool = True


class OnWall(Protocol):
    """A browser on the wall."""

    @property
    def there(self) -> bool:
        """Whether it runs."""

    def end(self) -> None:
        """End it with all that it started."""


class WallKeeper:
    """Decides, look by look, when a browser is started and ended."""

    def __init__(
        self,
        start: Callable[[], OnWall],
        ask: Callable[[], WallSeen | None],
        mono_s: Callable[[], float] = time.monotonic,
    ) -> None:
        """`start` starts a browser; `ask` gives None where the service does not answer."""
        self._start = start
        self._ask = ask
        self._mono_s = mono_s
        self._browser: OnWall | None = None
        self._began_s = -AGAIN_S
        self._seen_s = 0.0
        self._drawn = False

    def turn(self) -> str:
        """Look once; say by a code how it stands, for the service manager."""
        wall, now_s = self._ask(), self._mono_s()
        if self._browser is not None and not self._browser.there:
            self.end()
        if self._browser is None:
            return self._begin(wall, now_s)
        if wall is None or not wall.asked:
            self._seen_s = now_s  # nobody can tell; the page says by itself that it stands still
            return "service-silent" if wall is None else "nobody-asked"
        if wall.since_s is not None and now_s - wall.since_s >= self._began_s:
            self._drawn, self._seen_s = True, max(self._seen_s, now_s - wall.since_s)
        if now_s - self._seen_s <= (STILL_S if self._drawn else FIRST_S):
            return "page-drawn" if self._drawn else "browser-starts"
        self.end()
        return "page-still"

    def end(self) -> None:
        """End the browser, if there is one."""
        browser, self._browser = self._browser, None
        if browser is not None:
            browser.end()

    def _begin(self, wall: WallSeen | None, now_s: float) -> str:
        if wall is None:
            return "waits-for-service"
        if now_s - self._began_s >= AGAIN_S:
            self._browser = self._start()
            self._began_s = self._seen_s = self._mono_s()
            self._drawn = False
        return "browser-starts"


class ShownBrowser:
    """A browser's process, with whatever it starts."""

    def __init__(self, command: Sequence[str], leaves_s: float = LEAVES_S) -> None:
        """Start it. Raises OSError."""
        self._leaves_s = leaves_s
        self._process = subprocess.Popen(command, stdin=subprocess.DEVNULL, process_group=0)

    @property
    def there(self) -> bool:
        """Whether it runs."""
        return self._process.poll() is None

    def end(self) -> None:
        """Have all of it end, and end what does not."""
        for number, wait_s in ((signal.SIGTERM, self._leaves_s), (signal.SIGKILL, KILLED_S)):
            with suppress(ProcessLookupError):
                os.killpg(self._process.pid, number)
            with suppress(subprocess.TimeoutExpired):
                self._process.wait(wait_s)


def keep(line: OwnLine, machine: str, browser: Sequence[str], manager: Manager) -> None:
    """Keep `browser` on the wall until SIGTERM or SIGINT; the link is its last argument.

    Raises:
        SaidTrouble: the own wall's key cannot be read, or the service does not know it.
        OSError: there is no such browser.
    """
    done = threading.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, lambda *_: done.set())
    keeper = WallKeeper(lambda: ShownBrowser([*browser, line.link(machine)]), lambda: seen_by(line))
    manager.tell("READY=1")
    try:
        said = ""
        while not done.wait(LOOK_S):
            status = keeper.turn()
            manager.tell("WATCHDOG=1", *([f"STATUS={status}"] if status != said else []))
            said = status
    finally:
        manager.tell("STOPPING=1")
        keeper.end()


def seen_by(line: OwnLine) -> WallSeen | None:
    """What the service says of the own wall; None where it does not answer. Raises SaidTrouble."""
    try:
        health = line.get("/healthz")
        if "wall" not in health:  # it does not know who asks: not yet, or not any more
            line.enter()
            health = line.get("/healthz")
        wall = health.get("wall")
        if wall is None:
            return WallSeen(asked=False)
        return WallSeen(None if wall["ms"] is None else wall["ms"] / 1000)
    except (OSError, http.client.HTTPException, ValueError, TypeError, KeyError):
        return None
