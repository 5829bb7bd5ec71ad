"""The questions a ledger answers, the same for the writer and for read-only views."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import apsw

from daq.ledger.body import decode
from daq.ledger.chain import GENESIS_PREV, digest_bytes, digest_of
from daq.ledger.errors import LedgerError, LetGo, because, of_file, struck
from daq.ledger.schema import fault_in, shape_of
from daq.words import Event, Said, said

DB_NAME: Final = "ledger.db"

PAGE_ROWS: Final = 256
"""Rows fetched at a time: a reader that dawdles must not hold the write-ahead log open."""

_AUDITS: Final = (
    "SELECT audit FROM (WITH RECURSIVE one (audit) AS (SELECT min(audit) FROM events"
    " WHERE audit > ? OR audit = ? UNION ALL"
    " SELECT (SELECT min(audit) FROM events WHERE audit > one.audit) FROM one"
    " WHERE audit IS NOT NULL) SELECT audit FROM one) WHERE audit <> '' LIMIT 256"
)
"""From id to id along the index: an audit's rows are passed over however many it has."""


class Reads:
    """Reading through one connection. Use an object from one thread only."""

    def __init__(self, path: Path, connection: apsw.Connection) -> None:
        """Read the database file `path` through `connection`."""
        self.path = path
        self._connection = connection

    def events(
        self, after: int = 0, machine: str | None = None, audit: str | None = None
    ) -> Iterator[Event]:
        """Give the events with a sequence number above `after`, in order.

        `machine` and `audit` pick out one of each; None takes all, and the
        ledger's own first row with them. Raises LedgerError if a row cannot be read.
        """
        picked = {k: v for k, v in (("machine", machine), ("audit", audit)) if v is not None}
        sql = (
            "SELECT seq, CAST(body AS BLOB) FROM events WHERE seq > ?"
            + "".join(f" AND {key} = ?" for key in picked)
            + f" ORDER BY seq LIMIT {PAGE_ROWS}"
        )
        while True:
            rows = self._rows(sql, (after, *picked.values()))
            for seq, body in rows:
                yield self._event(seq, body)
            if len(rows) < PAGE_ROWS:
                return
            after = rows[-1][0]

    def of_types(self, types: tuple[str, ...], after: int, to: int) -> Iterator[Event]:
        """Give the events of these types in the rows above `after` up to `to`, in order.

        No other row of them is made an event. Raises LedgerError.
        """
        rows = self._rows(
            "SELECT seq, CAST(body AS BLOB) FROM events WHERE seq > ? AND seq <= ?"
            " AND type IN (SELECT value FROM json_each(?)) ORDER BY seq",
            (after, to, json.dumps(types)),
        )
        for seq, body in rows:
            yield self._event(seq, body)

    def event(self, seq: int) -> Event | None:
        """Give the event of a row, or None if there is no such row. Raises LedgerError."""
        rows = self._rows("SELECT seq, CAST(body AS BLOB) FROM events WHERE seq = ?", (seq,))
        return self._event(*rows[0]) if rows else None

    def first(self, audit: str) -> Event | None:
        """Give the first event of an audit, or None if there is none. Raises LedgerError."""
        rows = self._rows(
            "SELECT seq, CAST(body AS BLOB) FROM events WHERE audit = ? ORDER BY seq LIMIT 1",
            (audit,),
        )
        return self._event(*rows[0]) if rows else None

    def audits(self, begins: str = "") -> Iterator[str]:
        """Give every audit's id, or those that begin so, sorted, at the cost of so many steps."""
        page = self._rows(_AUDITS, (begins, begins))
        while page:
            for (audit,) in page:
                if not audit.startswith(begins):
                    return
                yield audit
            page = self._rows(_AUDITS, (page[-1][0], None))

    def latest(self, machine: str, after: int, most: int) -> tuple[Event, ...]:
        """Give the last events of a machine, at most `most` and all above `after`, in order.

        The cost is that of these events, however many there are. Raises LedgerError.
        """
        rows = self._rows(
            "SELECT seq, CAST(body AS BLOB) FROM events INDEXED BY events_by_machine"
            " WHERE machine = ? AND seq > ? ORDER BY seq DESC LIMIT ?",
            (machine, after, most),
        )
        return tuple(self._event(seq, body) for seq, body in reversed(rows))

    def count(self, machine: str, after: int, most: int) -> int:
        """Count a machine's events above `after`, up to `most`, at the cost of so many."""
        rows = self._rows(
            "SELECT count(*) FROM (SELECT 1 FROM events INDEXED BY events_by_machine"
            " WHERE machine = ? AND seq > ? LIMIT ?)",
            (machine, after, most),
        )
        return int(rows[0][0])

    def last_of(self, kind: str) -> Event | None:
        """Give the last event of a type among those of no machine. Raises LedgerError."""
        rows = self._rows(
            "SELECT seq, CAST(body AS BLOB) FROM events INDEXED BY events_by_machine"
            " WHERE machine = '' AND type = ? ORDER BY seq DESC LIMIT 1",
            (kind,),
        )
        return self._event(*rows[0]) if rows else None

    def by_cause(self, cause: str) -> tuple[Event, ...]:
        """Give the events that the command with id `cause` led to."""
        rows = self._rows(
            "SELECT seq, CAST(body AS BLOB) FROM events WHERE cause = ? ORDER BY seq", (cause,)
        )
        return tuple(self._event(seq, body) for seq, body in rows)

    def chunk(self, digest: str) -> bytes:
        """Give the evidence stored under `digest` (hex), its hash checked on the way out.

        Raises LedgerError if it is missing or no longer what was stored, LetGo if it was let go.
        """
        sql = "SELECT bytes, let_go FROM chunks WHERE digest = ?"
        rows = self._rows(sql, (digest_bytes(digest),))
        if not rows:
            raise LedgerError(of_file(self.path, said("evidence-not-there", digest=digest)))
        found, row = rows[0]
        if found is None:
            gone = said("evidence-let-go", digest=digest, row=str(row))
            raise LetGo(of_file(self.path, gone), row)
        if digest_of(found) != digest:
            raise LedgerError(of_file(self.path, said("evidence-is-damaged", digest=digest)))
        return bytes(found)

    def gone_by(self, digest: str) -> int | None:
        """Give the row by which evidence was let go, None for what is there or never was."""
        sql = "SELECT let_go FROM chunks WHERE digest = ?"
        rows = self._rows(sql, (digest_bytes(digest),))
        return rows[0][0] if rows else None

    def let_go_by(self, row: int) -> tuple[bytes, ...]:
        """Give the digests of what was let go by a row, in their order."""
        sql = "SELECT digest FROM chunks WHERE let_go = ? ORDER BY digest"
        return tuple(digest for (digest,) in self._rows(sql, (row,)))

    def rows(self, after: int = 0) -> Iterator[tuple[int, bytes, bytes]]:
        """Give (seq, body exactly as stored, hash) of the rows above `after`, in order."""
        while page := self._rows(
            "SELECT seq, CAST(body AS BLOB), hash FROM events"
            f" WHERE seq > ? ORDER BY seq LIMIT {PAGE_ROWS}",
            (after,),
        ):
            yield from page
            after = page[-1][0]

    def rows_of(self, audit: str) -> Iterator[tuple[Event, bytes, bytes, bytes]]:
        """Give an audit's rows: event, body as stored, hash, and the hash of the row before."""
        sql = (
            "SELECT e.seq, CAST(e.body AS BLOB), e.hash, before.hash FROM events AS e"
            " LEFT JOIN events AS before ON before.seq = e.seq - 1"
            f" WHERE e.audit = ? AND e.seq > ? ORDER BY e.seq LIMIT {PAGE_ROWS}"
        )
        after = 0
        while page := self._rows(sql, (audit, after)):
            for seq, body, stored, before in page:
                yield self._event(seq, body), body, stored, before or GENESIS_PREV
            after = page[-1][0]

    def spare_bytes(self) -> int:
        """Give how much of the file is free for what comes: evidence that was let go, mostly."""
        ((pages,),) = self._rows("PRAGMA freelist_count", ())
        ((size,),) = self._rows("PRAGMA page_size", ())
        return int(pages * size)

    def evidence(self) -> tuple[int, int]:
        """Count the pieces of evidence, and those among them that were let go."""
        ((chunks, let_go),) = self._rows("SELECT count(*), count(let_go) FROM chunks", ())
        return chunks, let_go

    def ends(self) -> tuple[int, int]:
        """Give the number of the last row, and that of the chunk stored last, at one moment."""
        sql = "SELECT coalesce((SELECT max(seq) FROM events), 0), coalesce(max(rowid), 0)"
        ((row, chunk),) = self._rows(f"{sql} FROM chunks", ())
        return row, chunk

    def chunks(self, last: int) -> Iterator[tuple[bytes, bytes | None, int | None]]:
        """Give (digest, bytes, row) of every chunk up to the `last`, as they were stored.

        Of one that was let go there are no bytes, and the row that says so.
        """
        after = 0
        while page := self._rows(
            "SELECT rowid, digest, bytes, let_go FROM chunks"
            " WHERE rowid > ? AND rowid <= ? ORDER BY rowid LIMIT 1",
            (after, last),
        ):
            after = page[0][0]
            yield page[0][1:]

    def people(self) -> dict[str, str]:
        """Give the name of everybody a row names, by id."""
        return dict(self._rows("SELECT id, name FROM people ORDER BY name, id", ()))

    def renamed(self) -> frozenset[str]:
        """Give the ids of those whose name is no longer the one that was typed."""
        return frozenset(
            person for (person,) in self._rows("SELECT id FROM people WHERE renamed", ())
        )

    def name(self) -> str:
        """Give the ledger's UUID, as its first row has it. Raises LedgerError."""
        rows = self._rows("SELECT seq, CAST(body AS BLOB) FROM events ORDER BY seq LIMIT 1", ())
        if not rows:
            raise LedgerError(of_file(self.path, said("ledger-has-no-rows")))
        return self._event(*rows[0]).ledger

    def hash_of(self, seq: int) -> str | None:
        """Give the hash of a row, hex, or None if there is no such row. Raises LedgerError."""
        rows = self._rows("SELECT hash FROM events WHERE seq = ?", (seq,))
        return bytes(rows[0][0]).hex() if rows else None

    def hashes_of(self, type: str, after: int = 0) -> Iterator[tuple[int, str]]:
        """Give (seq, hash) of the rows above `after` that hold an event of a type, in order."""
        sql = (
            "SELECT seq, hash FROM events WHERE seq > ? AND type = ?"
            f" ORDER BY seq LIMIT {PAGE_ROWS}"
        )
        while page := self._rows(sql, (after, type)):
            yield from ((seq, stored.hex()) for seq, stored in page)
            after = page[-1][0]

    def last(self) -> tuple[int, bytes] | None:
        """Give (seq, hash) of the last row, or None in an empty ledger."""
        rows = self._rows("SELECT seq, hash FROM events ORDER BY seq DESC LIMIT 1", ())
        return rows[0] if rows else None

    def file_fault(self, pragma: str) -> Said | None:
        """What is wrong with the file around the rows: its schema, pages, indexes.

        `pragma` is "integrity_check" or the shorter "quick_check", which leaves
        the indexes out, or "" for the schema alone.
        """
        try:
            fault = fault_in(shape_of(self._connection))
            if pragma and not fault:
                found = str(self._connection.execute(f"PRAGMA {pragma}(1)").fetchall()[0][0])
                fault = None if found == "ok" else because(said("file-is-damaged"), found)
        except apsw.Error as error:
            return struck(self.path, error)
        return None if fault is None else of_file(self.path, fault)

    def _rows(self, sql: str, values: tuple[Any, ...]) -> list[Any]:
        try:
            return self._connection.execute(sql, values).fetchall()
        except apsw.Error as error:
            raise LedgerError(struck(self.path, error)) from error

    def _event(self, seq: int, body: bytes) -> Event:
        try:
            return decode(body)
        except ValueError as error:
            why = because(said("row-cannot-be-read", seq=seq), error)
            raise LedgerError(of_file(self.path, why)) from error
