"""The gate on the SQLite library's version."""

from typing import Final

import apsw

from daq.ledger.errors import LedgerError
from daq.words import said

OLDEST: Final = (3, 51, 3)
"""The first version in which a write-ahead log that starts over cannot lose committed rows
(SQLite's own release notes, from memory)."""


def require_sqlite() -> None:
    """Raise LedgerError if the SQLite inside apsw is older than the ledger can trust."""
    found = apsw.sqlite_lib_version()
    if tuple(int(part) for part in found.split(".")[:3]) < OLDEST:
        oldest = ".".join(map(str, OLDEST))
        raise LedgerError(said("sqlite-too-old", found=found, oldest=oldest))
