"""Where the fold starts, and where it is written down for the next start."""

import logging
import queue
import threading
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.audit import seal as fold_seal
from daq.audit.apply import fold
from daq.audit.codec import UnknownEvent
from daq.audit.seal import Sealed
from daq.audit.state import Shop
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.opening import refuse_unsound
from daq.ledger.seal import SEAL_NAME, Seal, remove_seal, write_seal
from daq.ledger.store import Ledger
from daq.service.committed import Committed
from daq.service.turns import Turns

EVERY_ROWS: Final = 500
"""So many rows after a seal the next one is due, though no audit was closed."""

STOPS_S: Final = 1.0
"""How long the last seal may hold up the end: a start without it only takes longer."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Begun:
    """The state at a ledger's last row, and what of it was taken on trust.

    `sealed`: the state that its seal gave, after row `at`; None and 0 where every row was read.
    """

    shop: Shop
    sealed: Sealed | None = None
    at: int = 0


def begin(ledger: Ledger) -> Begun:
    """Fold the ledger, from its seal if that is of use.

    Raises:
        LedgerError: the ledger cannot be read, or not by this release.
    """
    seal = ledger.seal
    if seal is not None:
        try:
            what = fold_seal.decode(seal.text)
            shop = fold_seal.restored(what, seal.seq, lambda audit: ledger.events(audit=audit))
            return Begun(fold(ledger.events(after=seal.seq), shop), what, seal.seq)
        except ValueError as error:  # rows that do not follow from it, too
            _log.warning("%s is not used: %s; every row is read", SEAL_NAME, error)
            refuse_unsound(ledger)
    try:
        return Begun(fold(ledger.events()))
    except UnknownEvent as error:
        raise LedgerError(of_file(ledger.path, error.said)) from error
    except ValueError as error:
        raise LedgerError(of_file(ledger.path, str(error))) from error


class Sealer:
    """Writes seals on a thread of its own: who decides waits for none of it."""

    def __init__(self, folder: Path, ledger: Ledger, engine: str, begun: Begun) -> None:
        """Nothing runs before `start`; `begun` is how the ledger was folded."""
        self._folder = folder
        self._ledger = ledger.uuid
        self._engine = engine
        self._latest = (begun.shop, ledger.seq, ledger.head)
        self._asked = begun.at
        self._inbox: queue.SimpleQueue[tuple[Shop, int, str] | None] = queue.SimpleQueue()
        self._thread = threading.Thread(target=self._work, name="sealer", daemon=True)
        self._void = False
        self.turns = Turns()

    def start(self) -> None:
        """Begin; a ledger that was read from its first row is sealed at once."""
        self._thread.start()
        if not self._asked:
            self._ask()

    def committed(self, what: Committed) -> None:
        """The state after a commit; it is sealed when an audit was closed or many rows came."""
        before, seq = what.before.machines, what.events[-1].seq
        self._latest = (what.after, seq, what.head)
        closed = any(
            key in before and before[key].last is not state.last
            for key, state in what.after.machines.items()
        )
        if closed or seq - self._asked >= EVERY_ROWS:
            self._ask()

    def void(self) -> None:
        """Nothing is sealed from now on, and the seal there is holds no longer."""
        self._void = True
        self._inbox.put(None)

    def stop(self) -> None:
        """Seal where the ledger ends and stop; a disk that holds it up is left behind."""
        if self._thread.is_alive():
            if self._latest[1] > self._asked:
                self._ask()
            self._inbox.put(None)
            self._thread.join(STOPS_S)

    def _ask(self) -> None:
        self._asked = self._latest[1]
        self._inbox.put(self._latest)

    def _work(self) -> None:
        while (item := self.turns.next(self._inbox)) is not None:
            self._write(*item)
        if self._void:
            self._remove()
        self.turns.rest()

    def _write(self, shop: Shop, seq: int, head: str) -> None:
        text = fold_seal.encode(fold_seal.sealed(shop))
        try:
            write_seal(self._folder, Seal(self._ledger, seq, head, self._engine, text))
        except OSError as error:  # a full disk has an alarm of its own
            _log.warning("%s is not written: %s", SEAL_NAME, error)

    def _remove(self) -> None:
        try:
            remove_seal(self._folder)
        except OSError as error:
            _log.warning("%s is not removed: %s", SEAL_NAME, error)
