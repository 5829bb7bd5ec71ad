"""The list of all audits as a file beside the ledger: derived, never a source.

One that is missing, damaged, of another ledger or release, or of a row that the ledger does not
have is made anew from the rows.
"""

import hashlib
import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path
from typing import Any, Final, Self

import apsw

from daq import __version__
from daq.audit.codec import UnknownEvent, decode
from daq.audit.events import AuditOpened, GaugeChecked
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.reads import Reads
from daq.ledger.schema import FileFormat, shape_of
from daq.records.listed import TYPES, AuditLine, opened, then
from daq.settings import SettingsError, build, plain
from daq.words import Event

INDEX_NAME: Final = "records.index"
SCHEMA_SQL: Final = Path(__file__).with_name("index.sql").read_text(encoding="utf-8")
SPAN: Final = 500
"""Rows of the ledger that one step looks at: so much is held in memory, and written at once."""

_BUSY_MS: Final = 2000
_DIFFERENT: Final = (
    "WITH RECURSIVE one (value) AS (SELECT min({0}) FROM {1} UNION ALL"
    " SELECT (SELECT min({0}) FROM {1} WHERE {0} > one.value) FROM one WHERE value IS NOT NULL)"
    " SELECT value FROM one WHERE value <> ''"
)
_TURN_STEPS: Final = 100_000
"""Steps of the database's machine: some ten milliseconds."""
_LINES: Final = "SELECT opened, line, digest FROM audits WHERE opened > ? ORDER BY opened LIMIT ?"


class Unusable(Exception):
    """This index is of no use; the text says why."""


class Index:
    """The list, through one connection. One thread each."""

    def __init__(self, connection: apsw.Connection) -> None:
        """Ask through `connection`."""
        self._connection = connection

    @classmethod
    def in_memory(cls) -> Self:
        """An empty one, of no row yet, that is written nowhere."""
        connection = apsw.Connection(":memory:")
        connection.execute(SCHEMA_SQL)
        return cls(connection)

    @classmethod
    def at(cls, path: Path) -> Self:
        """The one in a file, for reading alone. Raises Unusable."""
        if not path.exists():
            raise Unusable("there is none")
        try:
            connection = apsw.Connection(str(path), flags=apsw.SQLITE_OPEN_READONLY)
        except apsw.Error as error:
            raise Unusable(str(error)) from error
        connection.set_busy_timeout(_BUSY_MS)
        return cls(connection)

    @classmethod
    def written_at(cls, path: Path) -> Self:
        """The one in a file, to be written to; an empty file is made where there is none.

        Raises Unusable.
        """
        try:
            connection = apsw.Connection(str(path))
            connection.set_busy_timeout(_BUSY_MS)
            if not connection.pragma("page_count"):
                connection.execute(f"BEGIN IMMEDIATE;{SCHEMA_SQL}COMMIT")
        except apsw.Error as error:
            raise Unusable(str(error)) from error
        return cls(connection)

    def asks(self, turn: Callable[[], None]) -> None:
        """Call `turn` in the midst of whatever lasts."""

        def go_on() -> bool:
            turn()
            return False

        self._connection.set_progress_handler(go_on, _TURN_STEPS)

    def in_a_copy(self) -> "Index":
        """The same in memory. Raises Unusable."""
        there = apsw.Connection(":memory:")
        try:
            with there.backup("main", self._connection, "main") as copying:
                copying.step()
        except apsw.Error as error:
            raise Unusable(str(error)) from error
        return Index(there)

    @property
    def row(self) -> int:
        """The ledger's row up to which it says everything; 0 for none."""
        found = self.rows("SELECT at FROM made")
        return int(found[0][0]) if found else 0

    def require_fit(self, ledger: Reads, *, whole: bool) -> None:
        """Raise Unusable unless it is of this ledger as it stands, by this release.

        `whole`: every page and every line of it is looked at, too. Raises LedgerError if the
        ledger cannot be asked.
        """
        try:
            if shape_of(self._connection) != _own_shape():
                raise Unusable("its format is another one")
        except (apsw.Error, ValueError) as error:
            raise Unusable(str(error)) from error
        made = self.rows("SELECT ledger, engine, at, hash FROM made")
        if made:
            name, engine, at, kept = made[0]
            if (name, engine) != (ledger.name(), __version__):
                raise Unusable(f"it is of ledger {name}, made by headsweep {engine}")
            if ledger.hash_of(at) != kept:
                raise Unusable(f"row {at} is not the one it was made at")
        if whole:
            self._require_sound()

    def _require_sound(self) -> None:
        found = self.rows("PRAGMA integrity_check(1)")[0][0]
        if found != "ok":
            raise Unusable(str(found))
        top = 0
        while lines := self.rows(_LINES, (top, SPAN)):
            for top, line, digest in lines:
                if _digest(line) != digest:
                    raise Unusable(f"the line of row {top} is not as it was written")

    def catch_up(self, ledger: Reads, turn: Callable[[int], bool] = lambda _: False) -> None:
        """Read the ledger's rows after its own, step by step; each step is kept whole or not.

        `turn` is told the row after each one; when it says true, that is enough for now.

        Raises:
            LedgerError: the ledger cannot be read, or not by this release.
            Unusable: the index cannot be read, or not be written.
        """
        last = ledger.last()
        end, at = 0 if last is None else last[0], self.row
        while at < end:
            to = min(at + SPAN, end)
            with self._kept():
                for event in ledger.of_types(TYPES, at, to):
                    self._take(ledger, event)
                made = (ledger.name(), __version__, to, ledger.hash_of(to))
                self.rows("INSERT OR REPLACE INTO made VALUES (1, ?, ?, ?, ?)", made)
            at = to
            if turn(at):
                return

    def _take(self, ledger: Reads, event: Event) -> None:
        """One more row."""
        try:
            data = decode(event)
            if isinstance(data, GaugeChecked):
                check = (event.seq, data.gauge, data.serial_number, data.day, data.passed)
                self.rows("INSERT INTO checks VALUES (?, ?, ?, ?, ?)", check)
            elif isinstance(data, AuditOpened):
                self._put(opened(event, data))
            elif (line := self.line(event.audit)) is not None:
                self._put(then(line, event, data))
        except UnknownEvent as error:
            raise LedgerError(of_file(ledger.path, error.said)) from error

    def _put(self, line: AuditLine) -> None:
        row = line.opened.row
        text = json.dumps(plain(line), ensure_ascii=False, separators=(",", ":"))
        self.rows(
            "INSERT OR REPLACE INTO audits (opened, line, digest) VALUES (?, ?, ?)",
            (row, text, _digest(text)),
        )
        self.rows("DELETE FROM gauges WHERE opened = ?", (row,))
        for each in line.gauges:
            used = (row, each.key, each.number, each.calibrated_on)
            self.rows("INSERT INTO gauges VALUES (?, ?, ?, ?)", used)
        for person in line.people:
            self.rows("INSERT OR IGNORE INTO people VALUES (?, ?)", (person, row))

    def line(self, audit: str) -> AuditLine | None:
        """An audit's line, None where there is none. Raises Unusable."""
        found = self.rows("SELECT line, digest FROM audits WHERE audit = ?", (audit,))
        return built(*found[0]) if found else None

    def different(self, column: str) -> tuple[str, ...]:
        """Give what stands in a column of `audits` or `gauges`, each once, sorted.

        At the cost of so many steps along its index. Raises Unusable.
        """
        table = "gauges" if column in ("number", "key") else "audits"
        return tuple(value for (value,) in self.rows(_DIFFERENT.format(column, table)))

    def rows(self, sql: str, values: tuple[Any, ...] = ()) -> list[Any]:
        """What the file answers. Raises Unusable."""
        try:
            return self._connection.execute(sql, values).fetchall()
        except (apsw.Error, ValueError) as error:  # a text that is none, too
            raise Unusable(str(error)) from error

    @contextmanager
    def _kept(self) -> Iterator[None]:
        self.rows("BEGIN IMMEDIATE")
        try:
            yield
            self.rows("COMMIT")
        except BaseException:
            with suppress(Unusable):
                self.rows("ROLLBACK")
            raise

    def close(self) -> None:
        """Close the connection."""
        self._connection.close()

    def __enter__(self) -> Self:
        """Give the index itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close it."""
        self.close()


def built(line: str, digest: str) -> AuditLine:
    """A line as it was put in. Raises Unusable for one that is not."""
    if _digest(line) != digest:
        raise Unusable("a line is not as it was written")
    try:
        return build(AuditLine, json.loads(line), INDEX_NAME, quantities="plain", limits=False)
    except (SettingsError, ValueError) as error:
        raise Unusable(f"a line cannot be read ({error})") from error


def _digest(line: str) -> str:
    return hashlib.sha256(line.encode()).hexdigest()


@cache
def _own_shape() -> FileFormat:
    with Index.in_memory() as own:
        return shape_of(own._connection)
