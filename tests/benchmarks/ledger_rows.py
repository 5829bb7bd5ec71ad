"""Rows 6 to 8: a commit beside a bare flush, the chain's part of it, and an audit's bytes.

Row 6: one event committed with its hash, against overwriting 4 KiB and flushing it. Row 7: the
same with and without the hash, one event a commit and a thousand.
"""

import os
from pathlib import Path
from statistics import median
from time import perf_counter

from one_audit import one_audit

from daq.ledger import Ledger, chain, store
from daq.words import Draft, Stamp

BLOCK = 4096
REACH_P50 = 2.0
REACH_P99 = 2.5
AT_ONCE = 1000
REACH_CHAINED = {1: 1.2, AT_ONCE: 1.3}
REACH_BYTES = 3_000_000
ADDED = 4
NO_HASH = bytes(32)

Row = tuple[str, float, float, float]


def _draft(n: int) -> Draft:
    """A reading, about as long as those of a real audit."""
    data = {
        "position": "front",
        "gauge": "sweep-gauge",
        "run": "0b8f1d52-6f7e-4f0a-9a53-5d0c8d8f7b11",
        "first_n": 50 * n,
        "last_n": 50 * n + 24,
        "mean_mm": 1.2345 + n / 1e6,
        "sd_mm": 0.0004,
        "count": 25,
        "mid_ns": 10**9 * n,
    }
    cause = {"id": f"{n:08x}-2c55-4c7a-8e3e-4b8d1f0a6c01", "kind": "take", "actor": "console"}
    boot = "b5d9a8a4-1c1b-4f0e-8c5a-1e2f3a4b5c6d"
    stamp = Stamp(10**9 * n, 1_700_000_000_000_000 + n, boot, True)
    audit = "7b0c3a52-93d4-4a0e-8f27-a8c0de5a1f10"
    return Draft("ReadingTaken", 1, "practice-mill", audit, stamp, "console", cause, data)


def _at(seconds: list[float], share: float) -> float:
    return sorted(seconds)[min(len(seconds) - 1, int(share * len(seconds)))]


def measure(folder: Path, events: int) -> list[Row]:
    """Return (label, own seconds, anchor seconds, reach) for the median and the 99th percentile.

    Both sides take turns on the same disk, event by event. `folder` must be new.
    """
    folder.mkdir(parents=True)
    own: list[float] = []
    anchor: list[float] = []
    block = os.urandom(BLOCK)
    handle = os.open(folder / "anchor", os.O_RDWR | os.O_CREAT)
    try:
        os.write(handle, block)
        os.fsync(handle)
        with Ledger.open(folder / "ledger") as ledger:
            for n in range(events):
                begin = perf_counter()
                os.pwrite(handle, block, 0)
                os.fdatasync(handle)
                between = perf_counter()
                ledger.append([_draft(n)])
                own.append(perf_counter() - between)
                anchor.append(between - begin)
    finally:
        os.close(handle)
    return [
        ("one event committed, median", _at(own, 0.5), _at(anchor, 0.5), REACH_P50),
        ("one event committed, 99th percentile", _at(own, 0.99), _at(anchor, 0.99), REACH_P99),
    ]


def chained(folder: Path, events: int) -> list[Row]:
    """Row 7: commits with the chain, against the same without it; both sides take turns."""
    found = []
    for at_once, reach in REACH_CHAINED.items():
        own, bare = [], []
        data = folder / str(at_once)
        with Ledger.open(data / "own") as one, Ledger.open(data / "bare") as other:
            drafts = [_draft(n) for n in range(at_once)]
            for _ in range(max(1, events // at_once)):
                own.append(_seconds(one, drafts, chain.link))
                bare.append(_seconds(other, drafts, lambda previous, body: NO_HASH))
        many = "one event" if at_once == 1 else f"{at_once} events"
        label = f"{many} a commit / without the chain"
        found.append((label, median(own), median(bare), reach))
    return found


def _seconds(ledger: Ledger, drafts: list[Draft], link: object) -> float:
    kept, store.link = store.link, link
    try:
        begin = perf_counter()
        ledger.append(drafts)
        return perf_counter() - begin
    finally:
        store.link = kept


def audit_bytes(folder: Path) -> list[Row]:
    """Row 8: what one audit adds to the disk, evidence of every window included."""
    past = one_audit()
    with Ledger.open(folder) as ledger:
        past.put(ledger, range(1))
        before = _on_disk(ledger)
        past.put(ledger, range(1, 1 + ADDED))
        after = _on_disk(ledger)
    label = "bytes on disk an audit, 50 Hz / 3 MB"
    return [(label, (after - before) / ADDED, REACH_BYTES, 1.0)]


def _on_disk(ledger: Ledger) -> int:
    ledger._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
    return ledger.path.stat().st_size
