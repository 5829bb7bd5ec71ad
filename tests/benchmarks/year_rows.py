"""What years of audits cost: rows 9 and 10, and how everything grows with the ledger's length.

    python tests/benchmarks/year_rows.py [--audits 0 300 1000 10000]

The ledgers are made of one audit's rows, put through the real store again with new names; their
evidence is kept small. An exponent of 0 is a cost that does not grow, of 1 one in proportion. The
start without a seal and the check behind the start are as long as the ledger is; ten thousand
audits take a quarter of an hour.
"""

import argparse
import hashlib
import http.client
import json
import math
import os
import sys
import tempfile
import time
import uuid
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from statistics import median
from time import perf_counter

from daemon import HOST, Running, running, service
from one_audit import MACHINE, one_audit

from daq import __version__
from daq.audit.history import History
from daq.audit.state import MachineState, Shop
from daq.ledger import Ledger, LedgerView
from daq.ledger.verify import verify
from daq.service.clock import SystemClock
from daq.service.sealing import Sealer, begin
from daq.service.trends import Trends, _signed

AUDITS = (0, 300, 1000, 10_000)
BRIEF = 3
"""Samples a decision: the evidence of ten thousand audits at 50 Hz would be 20 GB."""

REACH_ONE = 10.0
REACH_CHECKED = 2.5
REACH_TREND = 0.2
SHOWN = 100
ASKED = 15

Row = tuple[str, float, float, float]

READINGS = """
SELECT audit, group_concat(body ->> '$.data.reading.mean_mm') FROM events
WHERE machine = ? AND type = 'ReadingTaken' GROUP BY audit
"""


def measure(folder: Path, audits: int, repeats: int) -> list[Row]:
    """Rows 9 and 10, on a ledger of so many audits."""
    with Ledger.open(folder) as ledger:
        one_audit(BRIEF, BRIEF).put(ledger, range(audits))
    trend = whole_trend(folder, repeats)
    return [*one_of_many(folder, repeats), trend]


def one_of_many(folder: Path, repeats: int) -> list[Row]:
    """Row 9: everything of one audit, evidence at 50 Hz, against as many bytes of a file.

    These as they are, and with their hash computed and the events parsed as the ledger does.
    """
    past = one_audit()
    with Ledger.open(folder) as ledger:
        past.put(ledger, [ledger.seq])
        audit = next(iter(ledger.latest(MACHINE, 0, 1))).audit
    with LedgerView.open(folder) as view:

        def read() -> Iterator[bytes]:
            events = list(view.events(audit=audit))
            named = dict.fromkeys(digest for each in events for digest in each.evidence)
            return map(view.chunk, named)

        def own() -> None:
            for _ in read():
                pass

        rows = view._rows("SELECT body FROM events WHERE audit = ?", (audit,))
        bodies = [body for (body,) in rows]
        same = folder / "same"
        # Into memory that is there already: fresh memory costs up to ten times the reading.
        room = bytearray(same.write_bytes("".join(bodies).encode() + b"".join(read())))

        def bare() -> None:
            with same.open("rb", buffering=0) as file:
                file.readinto(room)

        def checked() -> None:
            bare()
            hashlib.sha256(room).digest()
            for body in bodies:
                json.loads(body)

        label = "one audit's events and evidence / as many bytes of a file"
        return [
            (label, *_both(repeats, own, bare), REACH_ONE),
            (f"{label}, hashed and parsed", *_both(repeats, own, checked), REACH_CHECKED),
        ]


def whole_trend(folder: Path, repeats: int) -> Row:
    """Row 10: a page of the trend, by the limits of all audits, against joining their readings."""
    history = History()
    with LedgerView.open(folder) as view:
        last = view.last()
        assert last is not None
        for done in reversed(list(_signed(view, MACHINE, last[0]))):
            history = history.then(done)
        shop = Shop({MACHINE: MachineState(MACHINE, history=history)})
        trends = Trends({}, shop, SystemClock(), folder)
        own, bare = _both(
            repeats,
            lambda: trends.of(MACHINE, SHOWN),
            lambda: view._rows(READINGS, (MACHINE,)),
        )
    return (f"trend of {history.audits} audits / join over their readings", own, bare, REACH_TREND)


def _both(
    repeats: int, own: Callable[[], object], bare: Callable[[], object]
) -> tuple[float, float]:
    """The median seconds of the processor for each, taking turns; both once beforehand.

    What they read is in memory by then: they wait for nothing but a busy machine.
    """
    found: tuple[list[float], list[float]] = ([], [])
    for turn in range(repeats + 1):
        for kept, do in zip(found, (own, bare), strict=True):
            begin_s = time.thread_time()
            do()
            if turn:
                kept.append(time.thread_time() - begin_s)
    return median(found[0]), median(found[1])


def grow(data: Path, audits: int) -> dict[str, float]:
    """Put audits in until there are so many, and seal; what every row took once more."""
    past = one_audit(BRIEF, BRIEF)
    with Ledger.open(data) as ledger:
        past.put(ledger, range((ledger.seq - 1) // len(past.events), audits))
    with Ledger.open(data) as ledger:
        begin_s = time.process_time()
        begun = begin(ledger)
        fold_s = time.process_time() - begin_s
        sealer = Sealer(data, ledger, __version__, begun)
        sealer.start()
        sealer.stop()
    begin_s = time.process_time()
    assert verify(data).ok
    found = {"fold of every row, CPU s": fold_s, "verify, CPU s": time.process_time() - begin_s}
    found["ledger, MB"] = (data / "ledger.db").stat().st_size / 1e6
    found["seal, kB"] = (data / "ledger.seal").stat().st_size / 1e3
    return found


def started(data: Path) -> dict[str, float]:
    """A start from the seal, and what is asked of the service then."""
    began = perf_counter()
    with (
        running(service(data)) as daemon,
        closing(http.client.HTTPConnection(HOST, daemon.port, timeout=60)) as line,
    ):
        _ask(daemon, line, "GET", f"/api/machines/{MACHINE}/snapshot")
        found = {
            "start to first answer, s": perf_counter() - began,
            "start, CPU s": _cpu(daemon),
        }
        found["memory, MB"] = daemon.memory() / 1e6
        machine = f"/api/machines/{MACHINE}"
        page = _ask(daemon, line, "GET", f"{machine}/trend")
        older = f"{machine}/trend?before={page['more']}" if page["more"] else f"{machine}/trend"
        found["snapshot, ms"] = _timed(daemon, line, "GET", f"{machine}/snapshot")
        found["trend, latest page, ms"] = _timed(daemon, line, "GET", f"{machine}/trend")
        found["trend, older page, ms"] = _timed(daemon, line, "GET", older)
        found["stale press, ms"] = _timed(daemon, line, "POST", f"{machine}/commands")
        found["memory then, MB"] = daemon.memory() / 1e6
    return found


def _cpu(daemon: Running) -> float:
    fields = Path(f"/proc/{daemon.pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def _ask(daemon: Running, line: http.client.HTTPConnection, method: str, path: str) -> dict:
    late = {"id": str(uuid.uuid4()), "kind": "abandon", "payload": {"why": "x"}, "expects_seq": 0}
    body = json.dumps(late) if method == "POST" else None
    line.request(method, path, body, daemon.headers)
    with line.getresponse() as answer:
        return json.loads(answer.read())


def _timed(daemon: Running, line: http.client.HTTPConnection, method: str, path: str) -> float:
    took = []
    for _ in range(ASKED):
        begin_s = perf_counter()
        _ask(daemon, line, method, path)
        took.append(1000 * (perf_counter() - begin_s))
    return median(took)


def exponent(smaller: tuple[int, float], larger: tuple[int, float]) -> str:
    """How a cost grows between two numbers of audits."""
    if not smaller[0] or smaller[1] <= 0.0 or larger[1] <= 0.0:
        return ""
    return f"{math.log(larger[1] / smaller[1]) / math.log(larger[0] / smaller[0]):.2f}"


def table(found: dict[int, dict[str, float]]) -> str:
    """A line a figure, a column a number of audits, and the exponent of the last step."""
    counts = list(found)
    lines = [["audits", *map(str, counts), "exponent"]]
    for name in found[counts[-1]]:
        values = [found[count][name] for count in counts]
        grows = exponent(*[(c, found[c][name]) for c in counts[-2:]]) if counts[1:] else ""
        lines.append([name, *(f"{value:.3g}" for value in values), grows])
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    return "\n".join(
        "  ".join(
            c.rjust(w) if at else c.ljust(w)
            for at, (c, w) in enumerate(zip(line, widths, strict=True))
        )
        for line in lines
    )


def main() -> None:
    """Measure at each number of audits, and print the table."""
    parser = argparse.ArgumentParser(description="What years of audits cost.")
    parser.add_argument("--audits", type=int, nargs="+", default=list(AUDITS))
    wanted = sorted(parser.parse_args().audits)
    found: dict[int, dict[str, float]] = {}
    with tempfile.TemporaryDirectory() as place:
        data = Path(place) / "data"
        for audits in wanted:
            found[audits] = grow(data, audits) | started(data)
            sys.stderr.write(f"{audits} audits: {found[audits]}\n")
        rows = one_of_many(data, 15)
    sys.stdout.write(table(found) + "\n")
    for label, own, bare, reach in rows:
        sys.stdout.write(f"{label}: {own / bare:.2f} (reach {reach:g})\n")


if __name__ == "__main__":
    main()
