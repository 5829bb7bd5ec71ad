"""What is owed: the rows that are to be delivered and were not yet, kept beside the ledger.

Rows are looked for in the ledger; the file says up to which that was done and which of them are
left. Should it be written too late for a power cut, a row is delivered twice and none is lost.
"""

import json
import logging
import os
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.ledger.folder import flush_folder
from daq.settings import SettingsError, build, plain

NAME: Final = "owed-{way}.json"
_log = logging.getLogger(__name__)

RowsAfter = Callable[[int], Iterable[int]]
"""The rows after one that are to be delivered."""


@dataclass(frozen=True)
class Owed:
    """Of a ledger, by its UUID: the `rows` still to be delivered, of all up to the row `seen`."""

    ledger: str
    seen: int
    rows: tuple[int, ...] = ()


class Book:
    """The file of one way out. One thread writes; any may read `owed`."""

    def __init__(
        self, data: Path, way: str, ledger: str, last: int, after: RowsAfter, in_order: int = 0
    ) -> None:
        """Begin with what the file and the ledger say.

        A way out that is new owes nothing from before `last`, the ledger's last row; on a ledger
        begun anew all of it is owed. `in_order`: none comes through before those before it, so
        that one number tells what is owed; it is written after so many rows, which may then come
        once more after a power cut. 0: each may come through alone, and is written down.
        """
        self._in_order, self._unwritten = in_order, 0
        self._path = data / NAME.format(way=way)
        known = self._read() or Owed(ledger, last)
        if known.ledger != ledger:
            known = Owed(ledger, 0)
        self.owed = Owed(ledger, last, (*known.rows, *after(known.seen)))
        self._write()

    def more(self, rows: Iterable[int]) -> None:
        """These rows are owed as well."""
        new = tuple(row for row in rows if row > self.owed.seen)
        if new:
            self.owed = Owed(self.owed.ledger, new[-1], (*self.owed.rows, *new))
            if not self._in_order:
                self._write()

    def delivered(self, row: int) -> None:
        """That row came through."""
        there = self.owed.rows
        left = there[1:] if there[0] == row else tuple(each for each in there if each != row)
        self.owed = Owed(self.owed.ledger, self.owed.seen, left)
        self._unwritten += 1
        if self._unwritten >= self._in_order:
            self._write()

    def save(self) -> None:
        """Have written down all that came through."""
        if self._unwritten:
            self._write()

    def _read(self) -> Owed | None:
        try:
            text = self._path.read_text("utf-8")
            return build(Owed, json.loads(text), self._path.name, quantities="plain")
        except FileNotFoundError:
            return None
        except (OSError, ValueError, RecursionError, SettingsError) as error:
            _log.warning("%s cannot be read (%s): owed from now on", self._path, error)
            return None

    def _write(self) -> None:
        self._unwritten, kept = 0, self.owed
        if self._in_order:
            kept = Owed(kept.ledger, kept.rows[0] - 1 if kept.rows else kept.seen)
        new = self._path.with_name(f"{self._path.name}.new")
        try:
            with new.open("w", encoding="utf-8") as file:
                json.dump(plain(kept), file)
                file.flush()
                os.fsync(file.fileno())
            new.replace(self._path)
            flush_folder(self._path.parent)
        except OSError as error:  # a full disk has an alarm of its own
            _log.warning("%s is not written: %s", self._path, error)


def forget(data: Path, way: str) -> None:
    """A way out is shut: once opened again it owes nothing from before."""
    (data / NAME.format(way=way)).unlink(missing_ok=True)
