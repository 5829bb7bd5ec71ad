"""The one writer of a ledger."""

import contextlib
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import Final, Self

import apsw

from daq.ledger.body import decode, encode
from daq.ledger.chain import digest_bytes, digest_of, link
from daq.ledger.errors import LedgerError, NotKnown, NotRecorded, of_file, struck
from daq.ledger.lock import FolderLock
from daq.ledger.opening import open_database
from daq.ledger.place import Place
from daq.ledger.reads import Reads
from daq.ledger.room import WANTED_BYTES, Room, room
from daq.ledger.schema import own_format
from daq.ledger.seal import Seal
from daq.ledger.version import require_sqlite
from daq.words import Draft, Event, Stamp, said

_NOBODY: Final[Mapping[str, str]] = {}
_Row = tuple[int, str, bytes]
"""A row's number, body and hash."""


class Ledger(Reads):
    """A ledger open for appending. All methods belong to one thread; others use LedgerView."""

    def __init__(
        self, folder: Path, lock: FolderLock, reads: Reads, seal: Seal | None = None
    ) -> None:
        """Take over an opened database and the lock on its folder; see `open`."""
        super().__init__(reads.path, reads._connection)
        self.seal = seal
        self._folder = folder
        self._lock = lock
        self.uuid = self.name()
        """The ledger's UUID, in its first row and in every row after."""
        last = self.last()
        assert last is not None
        self._seq, self._head = last
        self._place = Place(reads.path)  # by now the log has been opened, too

    @classmethod
    def open(
        cls, folder: Path, *, stamp: Stamp | None = None, previous: str = "", engine: str = ""
    ) -> Self:
        """Open the ledger in `folder`, beginning one if there is none.

        `stamp` and `previous` go into the first row of a ledger begun now: when
        that was, and the ledger it carries on from, which may be the one begun here
        before. With a seal of release `engine`
        that fits, what the rows before it are like is left to be looked at later. Raises
        LedgerError if another process has the folder, the SQLite library is too
        old, the folder cannot be written to, or the file is damaged, foreign or
        gone; nothing is altered then.
        """
        require_sqlite()
        lock = FolderLock(folder)
        try:
            known = "" if previous else lock.ledger
            reads, seal = open_database(folder, known, stamp, previous, engine)
            ledger = cls(folder, lock, reads, seal)
        except BaseException:
            lock.release()
            raise
        # On a full disk the name stays unwritten until the next opening.
        with contextlib.suppress(OSError):
            lock.name_ledger(ledger.uuid)
        return ledger

    @property
    def seq(self) -> int:
        """Sequence number of the last committed event."""
        return self._seq

    @property
    def head(self) -> str:
        """Hash of the last committed event, hex."""
        return self._head.hex()

    def append(
        self,
        drafts: Sequence[Draft],
        chunks: Sequence[bytes] = (),
        people: Mapping[str, str] = _NOBODY,
    ) -> tuple[Event, ...]:
        """Commit `drafts` and the evidence they name, all or nothing, with one flush.

        `people`: the names of those the drafts are the first to name, by id. On return the
        events are on the disk. Evidence that is stored already is
        not stored twice. Raises NotRecorded when the disk is full or fails, or the
        ledger's files are no longer in their place: the ledger is then as before, and
        appending may be tried again; NotKnown where a restart may find what failed. Raises
        ValueError or TypeError for a draft that cannot be written as JSON or
        names evidence nobody has.
        """
        rows, events = self._made(drafts)
        if rows or chunks:
            named = [digest_bytes(digest) for draft in drafts for digest in draft.evidence]
            packed = [(digest_bytes(digest_of(chunk)), chunk) for chunk in chunks]
            self._write(rows, packed, named, people)
        self._ends_with(rows)
        return events

    def let_go(self, draft: Draft, digests: Sequence[str]) -> Event:
        """Commit the row that says so, and let the bytes of that evidence go; the digests stay.

        Raises NotRecorded as `append` does, ValueError for evidence that is not there.
        """
        rows, (event,) = self._made([draft])
        with self._transaction():
            self._insert(rows)
            for digest in digests:
                self._connection.execute(
                    "UPDATE chunks SET bytes = NULL, let_go = ?"
                    " WHERE digest = ? AND bytes IS NOT NULL",
                    (rows[0][0], digest_bytes(digest)),
                )
                if not self._connection.changes():
                    raise ValueError(f"evidence {digest} is not stored")
        self._ends_with(rows)
        return event

    def _made(self, drafts: Sequence[Draft]) -> tuple[list[_Row], tuple[Event, ...]]:
        """The rows that drafts are to be, and their events."""
        head, rows = self._head, []
        for seq, draft in enumerate(drafts, self._seq + 1):
            body = encode(draft, self.uuid, seq)
            head = link(head, body.encode("utf-8"))
            rows.append((seq, body, head))
        return rows, tuple(decode(body) for _, body, _ in rows)

    def _ends_with(self, rows: Sequence[_Row]) -> None:
        if rows:
            self._seq, _, self._head = rows[-1]

    def rename(self, person: str, name: str) -> None:
        """Put a person's name right; no row changes.

        Raises LedgerError when nobody has that id, ValueError for no name, NotRecorded as
        `append` does.
        """
        if not name.strip():
            raise ValueError("name: found nothing; allowed: a name")
        if person not in self.people():
            raise LedgerError(of_file(self.path, said("nobody-has-the-id", id=person)))
        with self._transaction():
            values = (name.strip(), person)
            self._connection.execute("UPDATE people SET name = ?, renamed = 1 WHERE id = ?", values)

    def require_in_place(self) -> None:
        """Raise NotRecorded if the open files are no longer those that bear the ledger's names."""
        self._place.require()

    def probe(self) -> None:
        """Find out whether the disk still takes a commit; it leaves no row and no change.

        The file's format number is written anew as it was, in a transaction of its own: the
        same log, write and flush as an event's. Raises NotRecorded as `append` does.
        """
        with self._transaction():
            self._write_nothing()

    def room(self, wanted_bytes: int = WANTED_BYTES) -> Room:
        """Say whether the disk has room for the next audits."""
        return room(self._folder, wanted_bytes)

    def close(self) -> None:
        """Close the file and let the folder go."""
        try:
            self._connection.close()
        finally:
            self._lock.release()

    def __enter__(self) -> Self:
        """Give the ledger itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close it."""
        self.close()

    def _write(
        self,
        rows: list[_Row],
        chunks: list[tuple[bytes, bytes]],
        named: list[bytes],
        people: Mapping[str, str],
    ) -> None:
        many = self._connection.executemany
        with self._transaction():
            many("INSERT INTO chunks (digest, bytes) VALUES (?, ?)", chunks)
            self._require_evidence(named)
            many("INSERT INTO people (id, name) VALUES (?, ?)", people.items())
            self._insert(rows)

    def _insert(self, rows: Sequence[_Row]) -> None:
        sql = "INSERT INTO events (seq, body, hash) VALUES (?, ?, ?)"
        self._connection.executemany(sql, rows)

    @contextlib.contextmanager
    def _transaction(self) -> Iterator[None]:
        """Commit what the block writes, or leave nothing of it. Raises NotRecorded, NotKnown."""
        committing = False
        try:
            self.require_in_place()
            self._roll_back()
            self._connection.execute("BEGIN IMMEDIATE")
            self._require_own_end()
            yield
            committing = True
            self._connection.execute("COMMIT")
            self.require_in_place()
        except apsw.Error as error:
            self._roll_back_quietly()
            gone = not committing or self._written_over()
            # A write that found no room ended before the mark of the commit; a flush did not.
            known = gone or not isinstance(error, apsw.IOError)
            raise (NotRecorded if known else NotKnown)(struck(self.path, error)) from error
        except NotRecorded as error:
            self._roll_back_quietly()
            if committing:  # it is in a file that nobody can find now
                raise NotKnown(error.said) from error
            raise
        except BaseException:
            self._roll_back_quietly()
            raise

    def _written_over(self) -> bool:
        """Whether the frames of a commit that failed are gone from the log.

        They may all be in it: the next start would take them for rows. One small commit in
        their place is enough, as every frame's checksum goes on from the one before.
        """
        try:
            self.require_in_place()
            self._connection.execute("BEGIN IMMEDIATE")
            self._write_nothing()
            self._connection.execute("COMMIT")
            self.require_in_place()
        except (apsw.Error, NotRecorded):
            self._roll_back_quietly()
            return False
        return True

    def _write_nothing(self) -> None:
        """The file's format number, anew as it was: a page and its frame, and no change."""
        self._connection.pragma("user_version", own_format().format)

    def _require_own_end(self) -> None:
        """Refuse to go on from a row this writer knows nothing of."""
        for found in self._connection.execute(
            "SELECT seq, hash FROM events ORDER BY seq DESC LIMIT 1"
        ):
            if found == (self._seq, self._head):
                return
        raise NotRecorded(of_file(self.path, said("file-ends-elsewhere", seq=self._seq)))

    def _require_evidence(self, named: list[bytes]) -> None:
        for digest in named:
            if not self._connection.execute(
                "SELECT 1 FROM chunks WHERE digest = ? AND bytes IS NOT NULL", (digest,)
            ).fetchall():
                raise ValueError(f"evidence {digest.hex()} is neither stored nor handed over")

    def _roll_back(self) -> None:
        if self._connection.in_transaction:
            self._connection.execute("ROLLBACK")

    def _roll_back_quietly(self) -> None:
        """Undo what was begun; what stands in the way is met again, and said, at the next try."""
        with contextlib.suppress(apsw.Error):
            self._roll_back()
