"""Audits of a pure bench, as the ledger would hand them out."""

from daq.audit.evidence import decode
from daq.ledger.errors import LedgerError, of_file
from daq.records.record import AuditRecord, StoredRow, record
from daq.words import Sample, said
from tests.audit.conftest import Bench


class Shelf:
    """Stands where the record's reader does: every audit that a bench made."""

    def __init__(self, *benches: Bench) -> None:
        self.reads = 0
        self._kept: dict[str, AuditRecord] = {}
        self._chunks: dict[str, bytes] = {}
        self._rows: dict[str, list[StoredRow]] = {}
        for bench in benches:
            self._chunks |= bench.chunks
            for event in bench.events:
                if event.audit:
                    kept = StoredRow(event, f"{event.seq:064x}", f"{event.seq - 1:064x}")
                    self._rows.setdefault(event.audit, []).append(kept)

    @property
    def audits(self) -> list[str]:
        return list(self._rows)

    def find(self, text: str) -> str:
        if text not in self._rows:
            raise LedgerError(of_file("ledger.db", said("no-such-audit", audit=text)))
        return text

    def read(self, audit: str) -> AuditRecord:
        self.reads += 1
        self._kept[audit] = record(self._rows[audit])
        return self._kept[audit]

    def kept(self, audit: str) -> AuditRecord:
        return self._kept.get(audit) or self.read(self.find(audit))

    def samples(self, digest: str) -> tuple[Sample, ...]:
        return decode(self._chunks[digest])
