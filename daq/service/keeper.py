"""Who watches the watchers: a thread that looks whether every other one goes round.

It tells the service manager so only while all do, names those that do not, and sees to it
that the end comes, whatever hangs.
"""

import faulthandler
import os
import select
import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final, Protocol

from daq.service.manager import Manager

LOOK_S: Final = 0.25
END_LOOKS: Final = 18
"""So many looks after it was told to end, the process ends. Looks, so that a process which is
itself held up has as many turns for an orderly end as any other."""

SIGNALS: Final = (signal.SIGINT, signal.SIGTERM)

Tell = Callable[[tuple[str, ...]], None]


class Watched(Protocol):
    """A thread's turns."""

    @property
    def still(self) -> bool:
        """Whether it should have turned by now and has not."""


class Keeper:
    """Watches threads by their names."""

    def __init__(
        self,
        tell: Tell,
        manager: Manager | None = None,
        mono_ns: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        """Nothing is watched before `start`; `tell` is told who stands still, when that changes."""
        self._tell = tell
        self.beside: Callable[[], None] = lambda: None
        """Called at each look; it must not wait."""
        self._manager = Manager() if manager is None else manager
        self._mono_ns = mono_ns
        self._watched: dict[str, Watched] = {}
        self._held: tuple[str, ...] = ()
        self._pinged_ns: int | None = None
        self._ending = False
        self._looks_left: int | None = None
        self._heard, self._signal = os.pipe2(os.O_NONBLOCK | os.O_CLOEXEC)
        self._done = threading.Event()
        self._thread = threading.Thread(target=self._work, name="keeper", daemon=True)

    def watch(self, name: str, thread: Watched) -> None:
        """Look after one more thread; any thread may ask that."""
        self._watched = {**self._watched, name: thread}

    def start(self) -> None:
        """Begin to look."""
        self._thread.start()

    def ready(self, status: str) -> None:
        """The service is up: only now is anything expected of it."""
        self._manager.tell("READY=1", f"STATUS={status}")

    def end(self) -> None:
        """The service ends: nobody is expected to go on."""
        if not self._ending:
            self._ending = True
            self._manager.tell("STOPPING=1")

    def stop(self) -> None:
        """Look no more: the end has come by itself."""
        self.end()
        self._done.set()
        if self._thread.is_alive():
            self._thread.join()
        os.close(self._heard)
        os.close(self._signal)

    @contextmanager
    def heeding(self) -> Iterator[None]:
        """From a signal to end on, the end comes, even where the main thread cannot heed it."""
        before = signal.set_wakeup_fd(self._signal, warn_on_full_buffer=False)
        try:
            yield
        finally:
            signal.set_wakeup_fd(before)

    def turn(self) -> None:
        """One look: say who stands still, or that nobody does."""
        if self._ending:
            return
        held = tuple(name for name, thread in self._watched.items() if thread.still)
        if held != self._held:
            self._held = held
            self._tell(held)
            status = f"stands still: {', '.join(held)}" if held else "goes on"
            self._manager.tell(f"STATUS={status}")
        now_ns, ping_ns = self._mono_ns(), self._manager.ping_ns
        due = self._pinged_ns is None or now_ns - self._pinged_ns >= ping_ns
        if ping_ns and due and not held:
            self._pinged_ns = now_ns
            self._manager.tell("WATCHDOG=1")

    def _work(self) -> None:
        while not self._done.wait(LOOK_S):
            self._hear()
            self.beside()
            self.turn()
            if self._looks_left is not None:
                self._looks_left -= 1
                if self._looks_left <= 0:
                    _end_here()

    def _hear(self) -> None:
        """Whether a signal to end came: its number is in the pipe, whatever the others do."""
        while select.select([self._heard], [], [], 0)[0]:
            if self._looks_left is None and set(os.read(self._heard, 64)) & set(SIGNALS):
                self._looks_left = END_LOOKS
                self.end()


def _end_here() -> None:
    """Say where every thread is, and end: at the latest soon, should nobody take what is said."""
    threading.Timer(LOOK_S, os._exit, (1,)).start()
    faulthandler.dump_traceback()
    os._exit(1)
