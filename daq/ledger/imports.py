"""An export with its evidence, read back into a database file: each line as it was, or none."""

import base64
import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Final

import apsw

from daq.ledger.body import decode
from daq.ledger.chain import GENESIS_PREV, digest_bytes, digest_of, link
from daq.ledger.errors import LedgerError, NotSound, because, of_file, struck
from daq.ledger.progress import MEGA, SILENT, Progress
from daq.ledger.schema import SCHEMA_SQL
from daq.words import said

_ROW: Final = {"seq": int, "hash": str, "body": str}
_CHUNK: Final = {"digest": str, "bytes": str}
_LET_GO: Final = {"digest": str, "let_go": int}


def read_export(path: Path, database: Path, progress: Progress = SILENT) -> None:
    """Write every row and chunk of the export `path` into the new file `database`, flushed.

    Of a chunk that was let go only that is written. What an export does not hold is not there:
    the names of people. Raises LedgerError for what is no export, NotSound for a line that was
    altered.
    """
    try:
        connection = apsw.Connection(str(database))
    except apsw.Error as error:
        raise LedgerError(struck(database, error)) from error
    try:
        connection.execute("BEGIN")
        connection.execute(SCHEMA_SQL)
        with path.open("rb") as lines:
            progress.begin("read", max(1, path.stat().st_size // MEGA), "MB")
            _Reader(path, connection).read(lines, progress)
        connection.execute("COMMIT")
    except apsw.Error as error:
        raise LedgerError(struck(path, error)) from error
    except OSError as error:
        raise LedgerError(of_file(path, because(said("cannot-be-read"), error.strerror))) from error
    finally:
        connection.close()


class _Reader:
    """Puts line after line where it belongs."""

    def __init__(self, path: Path, connection: apsw.Connection) -> None:
        self._path = path
        self._connection = connection
        self._seq, self._head = 0, GENESIS_PREV
        self._rows_over = False

    def read(self, lines: Iterable[bytes], progress: Progress) -> None:
        size = 0
        for number, line in enumerate(lines, 1):
            try:
                self._put(json.loads(line))
            except (ValueError, TypeError, RecursionError) as error:
                why = because(said("no-line-of-an-export", line=number), error)
                raise LedgerError(of_file(self._path, why)) from error
            size += len(line)
            progress.at(size // MEGA)

    def _put(self, line: Mapping[str, Any]) -> None:
        if _is(line, _ROW) and not self._rows_over:
            self._row(line)
        elif _is(line, _CHUNK):
            self._chunk(line["digest"], base64.b64decode(line["bytes"], validate=True), None)
        elif _is(line, _LET_GO):
            self._chunk(line["digest"], None, line["let_go"])
        else:
            raise ValueError("allowed: rows, then evidence")

    def _row(self, line: Mapping[str, Any]) -> None:
        seq, body = self._seq + 1, line["body"].encode()
        if line["seq"] != seq:
            raise NotSound(of_file(self._path, said("row-is-missing", seq=seq)))
        head = link(self._head, body)
        if head.hex() != line["hash"]:
            raise NotSound(of_file(self._path, said("row-is-altered", seq=seq)))
        decode(body)
        row = (seq, line["body"], head)
        self._connection.execute("INSERT INTO events (seq, body, hash) VALUES (?, ?, ?)", row)
        self._seq, self._head = seq, head

    def _chunk(self, digest: str, chunk: bytes | None, row: int | None) -> None:
        self._rows_over = True
        if chunk is not None and digest_of(chunk) != digest:
            raise NotSound(of_file(self._path, said("evidence-is-damaged", digest=digest)))
        values = (digest_bytes(digest), chunk, row)
        sql = "INSERT INTO chunks (digest, bytes, let_go) VALUES (?, ?, ?)"
        self._connection.execute(sql, values)


def _is(line: object, shape: Mapping[str, type]) -> bool:
    """Whether a line has these keys, of these kinds, and no other."""
    return (
        isinstance(line, dict)
        and line.keys() == shape.keys()
        and all(type(line[key]) is kind for key, kind in shape.items())
    )
