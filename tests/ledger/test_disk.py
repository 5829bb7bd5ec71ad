"""A disk that fills up, and a writer that is killed."""

import json
import os
import signal

from daq.ledger import Ledger, LedgerView, NotRecorded, digest_of
from daq.ledger.room import room
from daq.ledger.verify import verify
from tests.words import en, troubled

FILLED_TO_THE_BRIM = """
import json, sys
from pathlib import Path
from daq.ledger import Ledger, LedgerView, NotRecorded, digest_of
from daq.ledger.verify import verify
from daq.says import words
from daq.words import Draft, Stamp

disk = Path(sys.argv[1])
ballast = disk / "ballast"
ballast.write_bytes(bytes(300_000))
ledger = Ledger.open(disk / "data")
acknowledged, refusals = [ledger.head], []

def mark(n):
    chunk = bytes([n % 256]) * 20_000
    stamp = Stamp(n, n, "boot", True)
    draft = Draft("T", 1, "mill", "a", stamp, "me", {"id": str(n)}, {}, (digest_of(chunk),))
    try:
        ledger.append([draft], [chunk])
        acknowledged.append(ledger.head)
    except NotRecorded as error:
        refusals.append(words(error.said))

n = 0
while not refusals:
    mark(n := n + 1)
before = (len(acknowledged), ledger.seq, ledger.head)
mark(n := n + 1)
room = ledger.room(100_000)
unchanged = before == (len(acknowledged), ledger.seq, ledger.head)
with LedgerView.open(disk / "data") as view:
    seen_full = [stored.hex() for _, _, stored in view.rows()] == acknowledged
ballast.unlink()
mark(n := n + 1)
ledger.close()
report = verify(disk / "data")
with LedgerView.open(disk / "data") as view:
    kept = [stored.hex() for _, _, stored in view.rows()] == acknowledged
print(json.dumps({
    "refusals": refusals, "unchanged": unchanged, "seen_full": seen_full, "room": bool(room),
    "say": words(room.say), "sound": report.ok, "kept": kept, "more": len(acknowledged) - before[0],
}))
"""

APPEND_FOR_EVER = """
import sys
from pathlib import Path
from daq.ledger import Ledger, digest_of
from daq.words import Draft, Stamp

ledger = Ledger.open(Path(sys.argv[1]))
while True:
    n = ledger.seq + 1
    chunk = str(n).encode() * 500
    stamp = Stamp(n, n, "boot", True)
    draft = Draft("T", 1, "mill", "a", stamp, "me", {"id": str(n)}, {}, (digest_of(chunk),))
    ledger.append([draft], [chunk])
    print(ledger.seq, ledger.head, flush=True)
"""


def test_a_full_disk_refuses_in_words_loses_nothing_and_goes_on(tmp_path, child):
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = 'mount -t tmpfs -o size=1m tmpfs "$0" && exec "$@"'
    before = ["unshare", "--map-root-user", "--mount", "sh", "-c", mounted, str(disk)]
    said, wrong = child(FILLED_TO_THE_BRIM, str(disk), before=before).communicate()
    assert wrong == ""
    found = json.loads(said)
    assert len(found["refusals"]) == 2
    assert all("ledger.db: the disk" in say for say in found["refusals"])
    assert "full" in found["refusals"][0]
    assert "left on the disk; wanted: 0.1 MB" in found["say"]
    assert found["more"] == 1
    assert (found["room"], found["unchanged"], found["seen_full"]) == (False, True, True)
    assert (found["sound"], found["kept"]) == (True, True)


def test_a_file_that_may_not_grow_refuses_in_words_and_goes_on(folder, draft):
    with Ledger.open(folder) as ledger:
        limit = ledger._connection.pragma("max_page_count")
        ledger._connection.pragma("max_page_count", ledger._connection.pragma("page_count") + 2)
        head = ledger.head
        chunk = bytes(50_000)
        large = draft(0, evidence=(digest_of(chunk),))
        for _ in range(3):
            with troubled(NotRecorded, match=r"ledger\.db: the disk is full"):
                ledger.append([large], [chunk])
            assert (ledger.seq, ledger.head) == (1, head)
        assert ledger.append([draft(1)])[0].seq == 2
        ledger._connection.pragma("max_page_count", limit)
        assert ledger.append([large], [chunk])[0].seq == 3
    assert verify(folder).rows == 3


def test_killing_the_writer_loses_nothing_it_answered_for(folder, child):
    answered: dict[int, str] = {}
    for lines in (1, 7, 40, 200):
        process = child(APPEND_FOR_EVER, str(folder))
        for _ in range(lines):
            seq, head = process.stdout.readline().split()
            answered[int(seq)] = head
        process.send_signal(signal.SIGKILL)
        rest, _ = process.communicate()
        # What the kill cut short in the pipe was not received, and so not answered.
        for line in rest.splitlines(keepends=True):
            if line.endswith("\n"):
                seq, head = line.split()
                answered[int(seq)] = head
    assert process.returncode == -signal.SIGKILL
    with LedgerView.open(folder) as view:
        stored = {seq: head.hex() for seq, _, head in view.rows()}
    assert len(answered) >= 248
    assert answered.items() <= stored.items()
    with Ledger.open(folder) as ledger:
        assert ledger.seq == len(stored)
    assert verify(folder).ok


def test_room_is_what_the_file_system_says(folder, monkeypatch):
    with Ledger.open(folder) as ledger:
        still = os.statvfs(folder)  # others write on this disk as well
        monkeypatch.setattr(os, "statvfs", lambda _: still)
        assert ledger.room(1) == room(folder, 1)
        monkeypatch.undo()
    assert room(folder, 1)
    assert room(folder, 1).say is None
    much = room(folder, 2**60)
    assert not much
    assert "MB left on the disk; wanted: 1152921504606.8 MB" in en(much.say)
    real = os.statvfs(folder)

    class ReadOnly:
        f_bavail, f_frsize, f_flag = real.f_bavail, real.f_frsize, real.f_flag | os.ST_RDONLY

    monkeypatch.setattr(os, "statvfs", lambda _: ReadOnly)
    assert "the disk is read-only" in en(room(folder, 1).say)
    monkeypatch.undo()
    assert "does not answer" in en(room(folder / "gone", 1).say)
