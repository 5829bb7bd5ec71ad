"""What the ledger's tests share: drafts, a filled ledger, a hand inside the file, a child."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import apsw
import pytest

from daq.ledger import Ledger, digest_of
from daq.words import Draft, Stamp

ROOT = Path(__file__).resolve().parents[2]


def make_draft(n: int, **changes: Any) -> Draft:
    """A plain draft; `n` tells them apart."""
    fields: dict[str, Any] = {
        "type": "ReadingTaken",
        "v": 1,
        "machine": "mill",
        "audit": "7b0c",
        "stamp": Stamp(1_000_000 * n, 1_700_000_000_000_000 + n, "boot-1", True),
        "actor": "console",
        "cause": {"id": f"command-{n}", "kind": "take", "payload": {}},
        "data": {"n": n, "mean_mm": 1.2 + n / 1000},
    }
    return Draft(**(fields | changes))


def make_filled(folder: Path, rows: int) -> tuple[str, ...]:
    """A closed ledger with `rows` events after its first row; gives the hash of every row.

    The event in row 3 names a chunk of evidence.
    """
    chunk = b"samples of one window" * 400
    heads = []
    with Ledger.open(folder) as ledger:
        heads.append(ledger.head)
        for n in range(rows):
            named = {"evidence": (digest_of(chunk),)} if n == 1 else {}
            ledger.append([make_draft(n, **named)], [chunk] if named else [])
            heads.append(ledger.head)
    return tuple(heads)


@contextmanager
def raw_hand(folder: Path) -> Iterator[apsw.Connection]:
    """A connection that gets past the triggers and puts them back afterwards."""
    connection = apsw.Connection(str(folder / "ledger.db"))
    triggers = connection.execute(
        "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'"
    ).fetchall()
    for name, _ in triggers:
        connection.execute(f"DROP TRIGGER {name}")
    yield connection
    for _, sql in triggers:
        connection.execute(sql)
    connection.close()


def start_child(code: str, *args: str, before: Sequence[str] = ()) -> "subprocess.Popen[str]":
    """Run `code` in another process, `before` in front of the interpreter's own command line."""
    path = os.pathsep.join([str(ROOT), *filter(None, [os.environ.get("PYTHONPATH")])])
    return subprocess.Popen(
        [*before, sys.executable, "-c", code, *args],
        env=os.environ | {"PYTHONPATH": path},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


@pytest.fixture(scope="session")
def draft() -> Callable[..., Draft]:
    return make_draft


@pytest.fixture(scope="session")
def filled() -> Callable[[Path, int], tuple[str, ...]]:
    return make_filled


@pytest.fixture(scope="session")
def hand() -> Callable[[Path], Any]:
    return raw_hand


@pytest.fixture(scope="session")
def child() -> Callable[..., "subprocess.Popen[str]"]:
    return start_child


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "data"
