"""What the list of audits, one of them and an export cost, and how that grows.

    PYTHONPATH=. python tests/benchmarks/records_rows.py [--audits 1000 3000 10000] [--readings 200]

One audit's rows, its readings taken again and again until there are so many, are put into a
ledger's own file as text under new names, chained as the ledger does; the evidence is that of the
first, stored once. What is left out of that is time, not rows. Bare: the same lines taken from the
index by one statement and parsed; a file of as many bytes hashed and parsed; the rows read and
written out.
"""

import argparse
import json
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from dataclasses import replace
from pathlib import Path
from statistics import median

import apsw
from flask.testing import FlaskClient
from one_audit import MACHINE, one_audit
from year_rows import table

from daq import __version__
from daq.audit.state import Shop
from daq.ledger import Ledger, LedgerView
from daq.ledger.body import encode
from daq.ledger.chain import link
from daq.ledger.commands import export
from daq.records.index import INDEX_NAME, SPAN, Index
from daq.records.read import read
from daq.records.wanted import Wanted, answer
from daq.report.files import report_of
from daq.says import language, words
from daq.service.clock import SystemClock
from daq.service.listing import Listing
from daq.service.trends import Trends
from daq.words import Draft, Event
from tests.web.conftest import FakeHub, FakeInbox
from web.app import create_app

AUDITS = (1000, 3000, 10_000)
ASKED = 15
DAY_US = 24 * 3600 * 1_000_000
SEQ, UTC, AUDIT, NUMBER = 987_654_321_987, 987_654_321_986, "@audit", "@number"
MACHINES = (MACHINE, "mill-1", "mill-2", "mill-3")
AT_ONCE = 200
"""So many audits are committed at a time."""


class Rows:
    """One audit's rows as texts with places in them."""

    def __init__(self, readings: int) -> None:
        """Its readings are repeated until there are so many."""
        past = one_audit(1, 1)
        (self.audit,) = {event.audit for event in past.events}
        self.chunks = list(past._chunks.values())
        self._events = list(_with(past.events, readings))

    def texts(self, ledger: str) -> list[str]:
        """The bodies."""
        return [self._text(event, ledger) for event in self._events]

    def _text(self, event: Event, ledger: str) -> str:
        stamp = replace(event.stamp, utc_us=UTC)
        cause = {**event.cause, "id": f"{AUDIT}-{event.seq}"}
        fields = ("type", "v", "machine", "audit", "actor", "data", "evidence")
        draft = Draft(stamp=stamp, cause=cause, **{key: getattr(event, key) for key in fields})
        text = encode(draft, ledger, SEQ).replace(self.audit, AUDIT)
        return text.replace('"serial_number":"P-1"', f'"serial_number":"{NUMBER}"')


def _with(events: tuple[Event, ...], readings: int) -> Iterator[Event]:
    """An audit's rows; before its first sweep was done its readings are taken again and again."""
    taken = [event for event in events if event.type == "ReadingTaken"]
    more = readings - len(taken)
    for event in events:
        if event.type == "SweepDone" and more:
            for n in range(more):
                yield taken[n % 4]
            more = 0
        yield event


def grow(data: Path, rows: Rows, audits: int) -> None:
    """Put audits in until there are so many."""
    with Ledger.open(data) as ledger:
        texts, there = rows.texts(ledger.uuid), (ledger.seq - 1) // len(rows._events)
        if not there:
            ledger.append((), rows.chunks)
        seq, head = ledger.seq, bytes.fromhex(ledger.head)
    with closing(apsw.Connection(str(data / "ledger.db"))) as connection:
        connection.pragma("synchronous", 0)
        for start in range(there, audits, AT_ONCE):
            found = []
            for n in range(start, min(start + AT_ONCE, audits)):
                for text in _named(texts, n):
                    seq += 1
                    body = text.replace(f'"seq":{SEQ}', f'"seq":{seq}')
                    head = link(head, body.encode())
                    found.append((seq, body, head))
            with connection:
                connection.executemany("INSERT INTO events (seq, body, hash) VALUES (?,?,?)", found)


def _named(texts: list[str], n: int) -> Iterator[str]:
    """The n-th audit: another id, day, gauge and machine; one in fifty does not conform."""
    audit, utc = f"{n:08x}-2330-5bc6-89f5-c09f2fe67543", str(1_700_000_000_000_000 + n * DAY_US)
    for text in texts:
        new = text.replace(AUDIT, audit).replace(str(UTC), utc).replace(NUMBER, f"G-{n % 7}")
        new = new.replace(f'"{MACHINE}"', f'"{MACHINES[n % 4]}"')
        yield new if n % 50 else new.replace('"conforms"', '"does-not-conform"')


def measured(data: Path) -> dict[str, float]:
    """Every question, of a ledger of so many audits."""
    with suppress(FileNotFoundError):
        (data / INDEX_NAME).unlink()
    found = made(data) | asked(data) | served(data)
    with LedgerView.open(data) as view:
        last = next(iter(view.latest(MACHINE, 0, 1))).audit
    found["one audit read, ms"] = _ms(lambda: read(data, last), 5)
    found["one audit / as many bytes hashed and parsed"] = _ratio(
        lambda: read(data, last), _bare_audit(data, last), 5
    )
    return found | reported(data, last) | exported(data)


def reported(data: Path, audit: str) -> dict[str, float]:
    """One report of it."""
    found = {}
    with LedgerView.open(data) as view:
        for ending in ("html", "pdf"):
            made = lambda ending=ending: report_of(view, audit, ending, language(), __version__)  # noqa: E731
            found[f"report as {ending}, ms"] = _ms(made, 3)
    return found


def made(data: Path) -> dict[str, float]:
    """The index made from the rows, and one audit caught up with."""
    path = data / INDEX_NAME
    with LedgerView.open(data) as view, Index.written_at(path) as index:
        before, began = _resident(), time.process_time()
        index.catch_up(view)
        cpu_s = time.process_time() - began
        found = {
            "index made from the rows, CPU s": cpu_s,
            "memory more by that, MB": (_resident() - before) / 1e6,
        }
        began = time.process_time()
        for at in range(0, index.row, SPAN):
            for _ in view._rows(_TYPES, (at, at + SPAN)):
                pass
        found["of that finding the rows by type, CPU s"] = time.process_time() - began
    found["index, MB"] = path.stat().st_size / 1e6
    return found


_TYPES = "SELECT body FROM events WHERE seq > ? AND seq <= ? AND type IN ('AuditOpened', 'Signed')"


def asked(data: Path) -> dict[str, float]:
    """Questions to the index, each beside 25 lines taken from it and parsed."""
    questions = {
        "list": Wanted(limit=25),
        "a machine's": Wanted(machine=MACHINE, limit=25),
        "machine, verdict and gauge": Wanted(machine=MACHINE, verdict="out", gauge="G-3", limit=25),
        "the oldest page": Wanted(before=60 * SPAN, limit=25),
    }
    found = {}
    with Index.at(data / INDEX_NAME) as index:

        def bare() -> None:
            for line, _ in index.rows(_NEWEST):
                json.loads(line)

        before = _resident()
        for name, wanted in questions.items():
            ask = lambda wanted=wanted: answer(index, wanted, {})  # noqa: E731
            found[f"{name}, ms"] = _ms(ask, ASKED)
            found[f"{name} / 25 lines parsed"] = _ratio(ask, bare, ASKED)
        found["memory more by these, MB"] = (_resident() - before) / 1e6
    return found


_NEWEST = "SELECT line, digest FROM audits ORDER BY opened DESC LIMIT 25"


def served(data: Path) -> dict[str, float]:
    """The pages."""
    with LedgerView.open(data) as view:
        last = view.last()
    assert last is not None
    listing = Listing(data, last[0])
    listing.start()
    trends = Trends({}, Shop(), SystemClock(), data)
    client = create_app(FakeHub(), FakeInbox(), trends=trends, listing=listing).test_client()
    try:
        paths = {
            "page of records, ms": "/records",
            "page of a machine's records, ms": f"/machines/{MACHINE}/records",
            "API, 25 of a machine, ms": f"/api/records?machine={MACHINE}&limit=25",
        }
        while client.get("/api/records").status_code != 200:
            time.sleep(0.1)
        return {name: _ms(lambda path=path: _got(client, path), 7) for name, path in paths.items()}
    finally:
        listing.stop()


def _got(client: FlaskClient, path: str) -> None:
    assert client.get(path).status_code == 200


def exported(data: Path) -> dict[str, float]:
    """Every row checked and written out, beside reading and writing the same rows."""
    with Path(os.devnull).open("w", encoding="utf-8") as out:
        before, began = _resident(), time.process_time()
        assert export(data, out, words) == 0
        own_s = time.process_time() - began
        more = (_resident() - before) / 1e6
        began = time.process_time()
        with LedgerView.open(data) as view:
            for seq, body, stored in view.rows():
                out.write(f'{{"seq":{seq},"hash":"{stored.hex()}","body":{body.decode()}}}\n')
        bare_s = time.process_time() - began
    return {
        "export, CPU s": own_s,
        "export / rows read and written": own_s / bare_s,
        "memory more by the export, MB": more,
        "ledger, MB": (data / "ledger.db").stat().st_size / 1e6,
    }


def _bare_audit(data: Path, audit: str) -> Callable[[], None]:
    with LedgerView.open(data) as view:
        bodies = [body for _, body, _, _ in view.rows_of(audit)]

    def bare() -> None:
        head = bytes(32)
        for body in bodies:
            head = link(head, body)
            json.loads(body)

    return bare


def _ms(act: Callable[[], object], times: int) -> float:
    """The median of the processor's time, after one turn that brings what is read into memory."""
    took = []
    for turn in range(times + 1):
        began = time.process_time()
        act()
        if turn:
            took.append(1000 * (time.process_time() - began))
    return median(took)


def _ratio(own: Callable[[], object], bare: Callable[[], object], times: int) -> float:
    return _ms(own, times) / max(1e-6, _ms(bare, times))


def _resident() -> int:
    pages = Path("/proc/self/statm").read_text(encoding="ascii").split()[1]
    return int(pages) * os.sysconf("SC_PAGE_SIZE")


def main() -> None:
    """Measure at each number of audits, and print the table."""
    parser = argparse.ArgumentParser(description="What the list of audits costs.")
    parser.add_argument("--audits", type=int, nargs="+", default=list(AUDITS))
    parser.add_argument("--readings", type=int, default=200, help="of each audit (200)")
    asked_for = parser.parse_args()
    found: dict[int, dict[str, float]] = {}
    with tempfile.TemporaryDirectory() as place:
        data, rows = Path(place) / "data", Rows(asked_for.readings)
        for audits in sorted(asked_for.audits):
            grow(data, rows, audits)
            found[audits] = measured(data)
            sys.stderr.write(f"{audits} audits: {found[audits]}\n")
    sys.stdout.write(f"{__version__}, {asked_for.readings} readings an audit\n{table(found)}\n")


if __name__ == "__main__":
    main()
