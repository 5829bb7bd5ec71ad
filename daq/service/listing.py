"""The list of all audits, kept beside the ledger while the service runs, and asked by pages."""

import logging
import queue
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.records.index import INDEX_NAME, SPAN, Index, Unusable
from daq.records.listed import TYPES
from daq.service.committed import Committed
from daq.service.turns import Turns
from daq.words import SaidTrouble, said

AWAITED_S: Final = 1.0
"""Whoever asks right after a commit waits so long for its rows to be in the list."""

STOPS_S: Final = 1.0

_log = logging.getLogger(__name__)


class NoList(SaidTrouble):
    """There is no list to be asked now."""


class Listing:
    """Follows the ledger on a thread of its own: nobody who presses waits for it.

    Any thread may ask.
    """

    def __init__(self, folder: Path, last: int) -> None:
        """Nothing runs before `start`. `last`: the ledger's last row."""
        self._folder = folder
        self._path = folder / INDEX_NAME
        self._due = last
        self._row = 0
        self._there = False
        self._moved = threading.Condition()
        self._inbox: queue.SimpleQueue[bool | None] = queue.SimpleQueue()
        self._ending = threading.Event()
        self._thread = threading.Thread(target=self._work, name="listing", daemon=True)
        self._since = 0.0
        self.turns = Turns()

    def start(self) -> None:
        """Begin with a look at the list there is."""
        self._inbox.put(True)
        self._thread.start()

    def stop(self) -> None:
        """Stop; what is not in the list yet is read after the next start."""
        self._ending.set()
        self._inbox.put(None)
        if self._thread.is_alive():
            self._thread.join(STOPS_S)

    def committed(self, what: Committed) -> None:
        """Follow; of most rows the list says nothing."""
        rows = [event.seq for event in what.events if event.type in TYPES]
        if rows:
            self._due = rows[-1]
            self._inbox.put(False)

    @property
    def behind(self) -> int:
        """How many of the ledger's rows may still have to be read into the list."""
        return max(0, self._due - self._row)

    @contextmanager
    def asked(self) -> Iterator[Index]:
        """The list as far as it goes, to be asked in the block. What was just recorded is in it.

        Raises:
            NoList: it is not there yet, or cannot be read: it is then made anew.
        """
        with self._moved:
            self._moved.wait_for(self._worth_asking, AWAITED_S)
            if not self._there:
                raise NoList(said("list-is-made", behind=self.behind))
        try:
            with Index.at(self._path) as index:
                yield index
        except Unusable as unusable:
            _log.warning("%s is made anew: %s", self._path, unusable)
            self._inbox.put(True)
            raise NoList(said("list-is-made", behind=self._due)) from unusable

    def _worth_asking(self) -> bool:
        """Whether it is complete, or will not be for long."""
        return self._there and (not self.behind or self.behind > SPAN)

    def _work(self) -> None:
        while (whole := self.turns.next(self._inbox)) is not None:
            try:
                self._go_on(whole=whole)
            except (LedgerError, Unusable, OSError) as error:
                _log.warning("%s cannot be kept: %s", self._path, error)
        self.turns.rest()

    def _go_on(self, *, whole: bool) -> None:
        """Read what is not in the list yet; `whole`: all that is there is looked at first."""
        with LedgerView.open(self._folder) as view, self._kept(view, whole=whole) as index:
            self._reached(index.row)
            self._since = time.monotonic()
            index.catch_up(view, self._turn)

    def _kept(self, view: LedgerView, *, whole: bool) -> Index:
        """The list there is, if it is of use, or an empty one in its place."""
        try:
            return self._opened(view, whole=whole)
        except Unusable as unusable:
            _log.info("%s is made anew: %s", self._path, unusable)
        with self._moved:
            self._there = False
        for path in (self._path, self._path.with_name(f"{INDEX_NAME}-journal")):
            path.unlink(missing_ok=True)
        return self._opened(view, whole=False)

    def _opened(self, view: LedgerView, *, whole: bool) -> Index:
        index = Index.written_at(self._path)
        try:
            index.asks(self.turns.turn)
            index.require_fit(view, whole=whole)
        except BaseException:
            index.close()
            raise
        return index

    def _turn(self, row: int) -> bool:
        """One step is done: rest as long as it took. Whether the end has come."""
        self._reached(row)
        self.turns.turn()
        if self.behind:
            self._ending.wait(time.monotonic() - self._since)
        self._since = time.monotonic()
        return self._ending.is_set()

    def _reached(self, row: int) -> None:
        with self._moved:
            self._row, self._there = row, True
            self._moved.notify_all()
