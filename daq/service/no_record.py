"""The service while its data folder cannot be used: the pages say why, and nothing is recorded."""

import threading
from collections.abc import Callable
from concurrent.futures import Future
from pathlib import Path
from typing import Final

from daq.ledger.room import room
from daq.screens.no_record import no_record
from daq.service.hub import Hub
from daq.service.rights import store, wall
from daq.words import Ack, Command, Said, Snapshot, said

LOOK_S: Final = 1.0
"""How often the folder is looked at: whoever mends it need not start the service anew."""


class NoRecord:
    """Answers every press with why there is no record, until the folder looks otherwise.

    `again`: it does, so the record may be opened once more. It stands where the inbox does.
    """

    def __init__(self, hub: Hub, data: Path, why: Said, *, passing: bool = False) -> None:
        """Show it on every machine's screens. `why` is what opening the folder came to.

        `passing`: by itself it is over soon, and leaves nothing behind that looks otherwise.
        """
        self.failed: object = None
        self.when_failed: Callable[[], None] = lambda: None
        self.again = False
        self._hub = hub
        self._data = data
        self._why = why
        self._seen = None if passing else _looks(data)
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._work, name="no-record", daemon=True)
        hub.record(False, said("recording-failed", why=why))
        for machine in hub.machines():
            pages = no_record(machine.say, why)
            shown = Snapshot(machine.key, 0, "", dict(pages), (), hub.recording)
            hub.publish(shown, None, machine.gauge)

    def start(self) -> None:
        """Begin to look."""
        self._thread.start()

    def end(self) -> None:
        """Begin to stop for good, without waiting for it: may be called by a signal handler."""
        self.again, self.failed = False, None
        self._ending.set()

    def stop(self) -> None:
        """Stop looking."""
        self._ending.set()
        self._thread.join()

    def hand_in(self, command: Command) -> "Future[Ack]":
        """Nothing is carried out."""
        reply: Future[Ack] = Future()
        why = said("was-not-recorded", why=self._why)
        reply.set_result(Ack(command.id, False, (), "not-recorded", why))
        return reply

    def _work(self) -> None:
        before = self._seen
        while not self._ending.wait(LOOK_S):
            self._hub.beat()
            now = _looks(self._data)
            # A copy on its way back changes at every look.
            if now == before != self._seen:
                self.again = True
                self.failed = "another look"
                self.when_failed()
                return
            before = now


def _looks(data: Path) -> object:
    """Everything by which a mended folder differs: its disk, its rights, its files, its room."""
    there = next(each for each in (data, *data.absolute().parents) if each.exists())
    files = sorted(there.glob("ledger.*")) if there.is_dir() else []
    files += [there / store.NAME, there / wall.NAME]
    return there, bool(room(there)), [_identity(each) for each in (there, *files)]


def _identity(path: Path) -> tuple[object, ...]:
    try:
        found = path.stat()
    except OSError:
        return (path,)
    return path, found.st_dev, found.st_ino, found.st_mode, found.st_size, found.st_ctime_ns
