"""One way out: a thread that delivers what is owed, and tries again after growing pauses."""

import logging
import queue
import threading
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Final

from daq.service.delivery.owed import Book
from daq.service.turns import WAIT_S, Turns
from daq.words import Said, SaidTrouble, said

FIRST_WAITS, MOST_WAITS = 10, 1200
"""The pauses, counted in waits of half a second: from 5 s, doubled each time, to 10 minutes."""
STOPS_S: Final = 0.5
"""How long what is under way may hold up the end: owed it is delivered after the next start."""

_log = logging.getLogger(__name__)


class NotDelivered(SaidTrouble):
    """It did not come through; `said` is why."""

    def __init__(self, why: Said, *, alone: bool = False) -> None:
        """`alone`: others may come through all the same."""
        super().__init__(why)
        self.alone = alone


@dataclass(frozen=True)
class WayOut:
    """How a way out is doing: whereto, how many rows are owed, and why the last try failed."""

    to: str
    owed: int
    why: Said | None = None


def waits_after(failures: int) -> int:
    """So many waits until the next try."""
    doubled = FIRST_WAITS << min(failures - 1, MOST_WAITS.bit_length())
    return min(doubled, MOST_WAITS)


class Courier:
    """Delivers rows one after the other, the oldest first."""

    def __init__(self, way: str, to: str, book: Book, deliver: Callable[[int], None]) -> None:
        """`deliver` takes a row's number and raises NotDelivered; nothing runs before `start`."""
        self._to = to
        self._book = book
        self._deliver = deliver
        self._rows: queue.SimpleQueue[tuple[int, ...] | None] = queue.SimpleQueue()
        self._thread = threading.Thread(target=self._work, name=f"to-{way}", daemon=True)
        self._failures = 0
        self._why: Said | None = None
        self._ending = False
        self.turns = Turns()

    @property
    def standing(self) -> WayOut:
        """As it is now; any thread may ask."""
        return WayOut(self._to, len(self._book.owed.rows), self._why)

    def start(self) -> None:
        """Begin, with what was owed before."""
        self._thread.start()

    def tell(self, rows: Iterable[int]) -> None:
        """These rows were committed; returns at once."""
        self._rows.put(tuple(rows))

    def stop(self) -> None:
        """Begin nothing more; what is under way and does not end is left behind."""
        self._ending = True
        self._rows.put(None)
        if self._thread.is_alive():
            self._thread.join(STOPS_S)

    def round(self) -> bool:
        """Try everything that is owed, once; return whether all of it came through."""
        try:
            return self._tried()
        finally:
            self._book.save()

    def _tried(self) -> bool:
        why: Said | None = None
        for row in self._book.owed.rows:
            if self._ending:
                return False
            try:
                self._deliver(row)
            except NotDelivered as error:
                why = why or error.said
                if not error.alone:
                    break
            except Exception as error:
                _log.exception("row %d is not delivered to %s", row, self._to)
                why = why or said("not-delivered-of-itself", row=row, why=type(error).__name__)
            else:
                self._book.delivered(row)
        self._failures = self._failures + 1 if why is not None else 0
        self._why = why
        return why is None

    def _work(self) -> None:
        waits = 0
        while not self._ending:
            self.turns.rest()  # a folder or an address far away may take its time
            waits = 0 if self.round() or self._ending else waits_after(self._failures)
            self._hear(waits)
        self.turns.rest()

    def _hear(self, waits: int) -> None:
        """Until more is owed, or so many waits are over; 0: for as long as nothing is."""
        counted = 0
        while not waits or counted < waits:
            self.turns.turn()
            try:
                rows = self._rows.get(timeout=WAIT_S)
            except queue.Empty:
                counted += 1
                continue
            if rows is not None:
                self._book.more(rows)
            return
