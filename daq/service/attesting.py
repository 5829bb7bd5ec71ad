"""What people signed, signed with the shop's key as well: after its commit, on a thread of its own.

The rows it makes go through whoever decides, as all rows do, between one press and the next.
What was signed while nothing did this is signed after a start.
"""

import logging
import queue
import threading
import uuid
from collections import deque
from pathlib import Path
from typing import Final, Protocol

from daq.audit.attested import AuditAttested
from daq.audit.codec import encode
from daq.ledger.attested import SIGNED_TYPE, statement
from daq.ledger.errors import LedgerError
from daq.ledger.view import LedgerView
from daq.service.committed import Committed
from daq.service.shop_key import NAME, ShopKey, key
from daq.service.turns import Turns
from daq.words import Draft, SaidTrouble, Stamp

AT_ONCE: Final = 16
"""Rows of one commit, so that a press which comes meanwhile waits for no more."""

READY: Final = 256
"""So many wait for their commit; the next ones are made when there is room."""

STOPS_S: Final = 1.0

_log = logging.getLogger(__name__)


class Attests(Protocol):
    """What whoever decides asks."""

    def due(self, stamp: Stamp, engine: str) -> list[Draft]:
        """The rows to be recorded next, by that release; of the same things until they were."""

    def recorded(self, count: int) -> None:
        """The first so many of it stand in the record."""


class Nobody:
    """There is no key."""

    def due(self, stamp: Stamp, engine: str) -> list[Draft]:
        """Nothing."""
        return []

    def recorded(self, count: int) -> None:
        """Nothing was due."""


class Attester:
    """Signs with the shop's key, if there is one, the rows after `upto` that people signed."""

    def __init__(self, folder: Path, ledger: str, upto: int) -> None:
        """Nothing runs before `start`."""
        self._folder = folder
        self._ledger = ledger
        self._upto = upto
        self._ready: deque[AuditAttested] = deque()
        self._asked: queue.SimpleQueue[bool] = queue.SimpleQueue()
        self._thread = threading.Thread(target=self._work, name="attester", daemon=True)
        self._ending = False
        self.turns = Turns()

    def start(self) -> None:
        """Begin with what was signed and never attested.

        A key that cannot be read is logged and not used.
        """
        if (self._folder / NAME).exists():
            self._thread.start()
            self._asked.put(True)

    def stop(self) -> None:
        """Stop; what is not recorded yet is made again after the next start."""
        self._ending = True
        if self._thread.is_alive():
            self._asked.put(False)
            self._thread.join(STOPS_S)

    def committed(self, what: Committed) -> None:
        """Look for what was signed, once there is anything."""
        if any(event.type == SIGNED_TYPE for event in what.events):
            self._asked.put(True)

    def due(self, stamp: Stamp, engine: str) -> list[Draft]:
        """The rows to be recorded next, by that release; of the same things until they were."""
        ready = [self._ready[each] for each in range(min(AT_ONCE, len(self._ready)))]
        cause = {"id": str(uuid.uuid4()), "kind": "attested", "payload": {}, "engine": engine}
        return [
            Draft(kind, version, "", "", stamp, "service", cause, fields)
            for kind, version, fields in map(encode, ready)
        ]

    def recorded(self, count: int) -> None:
        """The first so many of it stand in the record."""
        for _ in range(count):
            self._ready.popleft()
        if not self._ready:
            self._asked.put(True)  # there may be more than there was room for

    def _work(self) -> None:
        by = _read(self._folder)
        while by is not None and self.turns.next(self._asked) and not self._ending:
            try:
                self._look(by)
            except (
                LedgerError
            ) as error:  # it has an alarm of its own; the next signature asks again
                _log.warning("not attested: %s", error)
        self.turns.rest()

    def _look(self, by: ShopKey) -> None:
        with LedgerView.open(self._folder) as view:
            for row, head in view.hashes_of(SIGNED_TYPE, self._upto):
                if self._ending or len(self._ready) >= READY:
                    return
                signature = by.sign(statement(self._ledger, row, head))
                self._ready.append(AuditAttested(row, head, by.public, signature))
                self._upto = row
                self.turns.turn()


def _read(folder: Path) -> ShopKey | None:
    try:
        return key(folder)
    except SaidTrouble as error:
        _log.error("no audit is signed with the shop's key: %s", error.said)
        return None
