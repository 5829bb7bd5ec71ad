"""Opening the database file for writing: refuse it untouched, or find it sound, or begin it."""

import logging
import time
import uuid
from pathlib import Path
from typing import Final

import apsw

from daq.ledger.body import encode
from daq.ledger.chain import GENESIS_PREV, link
from daq.ledger.emptied import refuse_emptied
from daq.ledger.errors import LedgerError, of_file, struck
from daq.ledger.reads import DB_NAME, Reads
from daq.ledger.schema import SCHEMA_SQL, own_format, shape_of
from daq.ledger.seal import SEAL_NAME, Seal, Unfit, read_seal, require_fit
from daq.ledger.verify import walk
from daq.words import Draft, Stamp, said

CHECKED_ROWS: Final = 1000
"""How many of the last rows are checked, evidence included, before the first append."""

GENESIS_TYPE: Final = "LedgerBegan"

_log = logging.getLogger(__name__)

_BUSY_MS: Final = 1000
_FULL: Final = 2


def open_database(
    folder: Path, known: str, stamp: Stamp | None, previous: str, engine: str
) -> tuple[Reads, Seal | None]:
    """Open the database in `folder`, beginning a ledger if there is none; give its seal, too.

    `known` is the UUID the lock file names, or "". With a seal of `engine` that fits only the
    rows after it are checked. Raises LedgerError for a file
    that is damaged, foreign or emptied; such a file is left exactly as it is.
    """
    path = folder / DB_NAME
    refuse_emptied(path, known)
    try:
        connection = apsw.Connection(str(path))
    except apsw.Error as error:
        raise LedgerError(struck(path, error)) from error
    try:
        _refuse_read_only(connection, path)
        reads = Reads(path, connection)
        _settle(connection)
        if not shape_of(connection).objects:
            _begin(connection, path, known, stamp, previous)
        seal = _fitting(folder, reads, engine)
        refuse_unsound(reads, seal)
        _refuse_stranger(reads, known)
        _require_durable(connection, path)
        connection.config(apsw.SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0)
    except apsw.Error as error:
        connection.close()
        raise LedgerError(struck(path, error)) from error
    except BaseException:
        connection.close()
        raise
    return reads, seal


def _refuse_read_only(connection: apsw.Connection, path: Path) -> None:
    """Where a file cannot be opened for writing the database opens it for reading, and says so
    to the first who writes."""
    if connection.readonly("main"):
        raise LedgerError(of_file(path, said("file-is-read-only")))


def _settle(connection: apsw.Connection) -> None:
    """Set what holds for the whole connection.

    Until the file has been found sound, closing it must not write the log back into it.
    """
    connection.config(apsw.SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1)
    connection.config(apsw.SQLITE_DBCONFIG_DEFENSIVE, 1)
    connection.set_busy_timeout(_BUSY_MS)
    connection.pragma("trusted_schema", False)
    connection.pragma("synchronous", _FULL)


def _begin(
    connection: apsw.Connection, path: Path, known: str, stamp: Stamp | None, previous: str
) -> None:
    """Make the tables and the first row in one transaction: all of it is there, or nothing."""
    if known:
        raise LedgerError(of_file(path, said("begun-ledger-gone", known=known)))
    if connection.pragma("page_count") > 1:
        raise LedgerError(of_file(path, said("pages-but-no-tables")))
    _require_durable(connection, path)
    ledger = str(uuid.uuid4())
    draft = Draft(
        type=GENESIS_TYPE,
        v=1,
        machine="",
        audit="",
        stamp=stamp or _now(),
        actor="ledger",
        cause={},
        data={"format": own_format().format, "previous": previous},
    )
    body = encode(draft, ledger, 1)
    connection.execute("BEGIN IMMEDIATE")
    connection.execute(SCHEMA_SQL)
    connection.execute(
        "INSERT INTO events (seq, body, hash) VALUES (1, ?, ?)",
        (body, link(GENESIS_PREV, body.encode("utf-8"))),
    )
    connection.execute("COMMIT")


def _now() -> Stamp:
    """Give the time for a first row whose opener handed over none: UTC untrusted."""
    boot = Path("/proc/sys/kernel/random/boot_id").read_text(encoding="ascii").strip()
    return Stamp(time.monotonic_ns(), time.time_ns() // 1000, boot, utc_trusted=False)


def _fitting(folder: Path, reads: Reads, engine: str) -> Seal | None:
    """Give the seal if it is of use; a seal that is of none costs time and is said, no more."""
    if not engine:
        return None
    try:
        seal = read_seal(folder, engine)
        require_fit(seal, reads)
    except (Unfit, LedgerError) as unfit:
        _log.info("%s is not used: %s; every row is read", folder / SEAL_NAME, unfit)
        return None
    return seal


def refuse_unsound(reads: Reads, seal: Seal | None = None) -> None:
    """Check the pages of the file and the chain of its last rows; after a seal, those alone.

    Raises LedgerError.
    """
    fault = reads.file_fault("quick_check" if seal is None else "")
    if fault:
        raise LedgerError(said("left-as-it-is", fault=fault))
    last = reads.last()
    start = max(1, last[0] - CHECKED_ROWS + 1) if last else 1
    report = walk(reads, start=start if seal is None else seal.seq + 1)
    if not report.ok:
        raise LedgerError(said("left-as-it-is", fault=report.say))


def _refuse_stranger(reads: Reads, known: str) -> None:
    found = reads.name()
    if known and found != known and not _carries_on(reads, known):
        what = said("other-ledger-begun", found=found, known=known)
        raise LedgerError(of_file(reads.path, what))


def _carries_on(reads: Reads, known: str) -> bool:
    """Whether the ledger says that it follows the one begun here; a cut may come before its name
    is written down."""
    first = reads.event(1)
    return first is not None and str(first.data.get("previous")).startswith(known)


def _require_durable(connection: apsw.Connection, path: Path) -> None:
    """Turn on what makes a commit outlive a power cut, and read it back."""
    mode = connection.pragma("journal_mode", "wal")
    synchronous = connection.pragma("synchronous")
    if mode != "wal" or synchronous != _FULL:
        what = said("not-durable", mode=str(mode), synchronous=str(synchronous), full=_FULL)
        raise LedgerError(of_file(path, what))
