"""A ledger as this format writes it: it must stay readable, and its bytes the same."""

import base64
import hashlib
import io
import json
import uuid
from pathlib import Path

from daq.ledger import Ledger, digest_of
from daq.ledger.body import decode
from daq.ledger.commands import export
from daq.words import Draft, Stamp
from tests.words import en

GOLDEN = Path(__file__).with_name("golden_format_3.jsonl")
UUID = "5f0f6b7e-6a0c-4f43-9d0e-3d1f2b9c8a70"
CHUNK = b'{"n":1,"mono_ns":2000000,"text":"+0012.34"}\n'


def lines():
    found = [json.loads(line) for line in GOLDEN.read_text(encoding="utf-8").splitlines()]
    return [line for line in found if "seq" in line], [line for line in found if "digest" in line]


def write_again(folder, monkeypatch):
    """The golden ledger, written by today's code."""
    monkeypatch.setattr(uuid, "uuid4", lambda: uuid.UUID(UUID))
    boot = "b5d9a8a4-1c1b-4f0e-8c5a-1e2f3a4b5c6d"
    with Ledger.open(folder, stamp=Stamp(1_000_000, 1_767_225_600_000_000, boot, False)) as ledger:
        later = Stamp(2_500_000_000, 1_767_225_602_500_000, boot, True)
        opened = {"limit_mm": 0.01, "over_mm": 200.0, "note": "fräst \t ✓", "reason": "scheduled"}
        read = {
            "mean_mm": 1.2345000000000002, "sd_mm": 1e-07, "count": 25, "position": None,
            "big": 9007199254740993, "minus_zero": -0.0, "flags": [True, []],
        }  # fmt: skip
        causes = {"id": "c-1", "kind": "open"}, {"id": "c-2", "kind": "take"}
        named = (digest_of(CHUNK),)
        drafts = [
            Draft("AuditOpened", 1, "mill-2", "6e2c", later, "Zoë", causes[0], opened),
            Draft("ReadingTaken", 2, "mill-2", "6e2c", later, "pedal", causes[1], read, named),
        ]
        ledger.append(drafts, [CHUNK])
    out = io.StringIO()
    export(folder, out, en, evidence=True)
    return out.getvalue()


def test_the_golden_hashes_follow_from_the_golden_bodies():
    rows, chunks = lines()
    head = b"\0" * 32
    for seq, row in enumerate(rows, 1):
        head = hashlib.sha256(head + row["body"].encode("utf-8")).digest()
        assert (row["seq"], row["hash"]) == (seq, head.hex())
        assert json.loads(row["body"])["ledger"] == UUID
    assert len(rows) == 3
    (chunk,) = chunks
    assert hashlib.sha256(base64.b64decode(chunk["bytes"])).hexdigest() == chunk["digest"]


def test_the_golden_bodies_are_read_as_events():
    rows, _ = lines()
    events = [decode(row["body"]) for row in rows]
    assert [(event.seq, event.type, event.v) for event in events] == [
        (1, "LedgerBegan", 1), (2, "AuditOpened", 1), (3, "ReadingTaken", 2),
    ]  # fmt: skip
    assert events[2].data["mean_mm"] == 1.2345000000000002
    assert events[2].evidence == (digest_of(CHUNK),)
    assert events[1].data["note"] == "fräst \t ✓"


def test_today_writes_the_same_bytes(folder, monkeypatch):
    assert write_again(folder, monkeypatch) == GOLDEN.read_text(encoding="utf-8")
