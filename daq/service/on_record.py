"""Audits as they are on record, read from the ledger's file when somebody asks."""

import threading
from collections import OrderedDict
from pathlib import Path
from typing import Final

from daq.audit.evidence import decode
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.view import LedgerView
from daq.records.find import find
from daq.records.read import read_from
from daq.records.record import AuditRecord
from daq.words import Sample, said

KEPT: Final = 2
"""So many of the audits read last are kept whole: whoever plays one asks for it again and again."""


class OnRecord:
    """Reads audits from the ledger in `data`. Any thread may ask; the writer never waits for it."""

    def __init__(self, data: Path) -> None:
        """Nothing is read before it is asked for."""
        self.data = data
        self._kept: OrderedDict[str, AuditRecord] = OrderedDict()
        self._lock = threading.Lock()

    def find(self, text: str) -> str:
        """Return the id of the audit that is meant. Raises LedgerError: none, or several are."""
        with LedgerView.open(self.data) as view:
            return find(view, text)

    def read(self, audit: str) -> AuditRecord:
        """Return an audit, by its id, each row held against its hash now. Raises LedgerError."""
        with LedgerView.open(self.data) as view:
            found = read_from(view, audit)
        with self._lock:
            self._kept[audit] = found
            self._kept.move_to_end(audit)
            while len(self._kept) > KEPT:
                self._kept.popitem(last=False)
        return found

    def kept(self, audit: str) -> AuditRecord:
        """The same as it was read last, a while ago or now. Raises LedgerError."""
        with self._lock:
            found = self._kept.get(audit)
        return self.read(audit) if found is None else found

    def samples(self, digest: str) -> tuple[Sample, ...]:
        """Return the samples of a piece of evidence. Raises LedgerError: there are none such."""
        with LedgerView.open(self.data) as view:
            chunk = view.chunk(digest)
        try:
            return decode(chunk)
        except (ValueError, KeyError, TypeError) as error:
            why = said("evidence-is-damaged", digest=digest)
            raise LedgerError(of_file(self.data, why)) from error
