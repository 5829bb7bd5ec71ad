"""A seal beside the ledger: used if it is whole and fits, else it is as good as none."""

import hashlib
import json
import signal

import pytest

from daq.ledger import Ledger, LedgerError
from daq.ledger import reads as reads_room
from daq.ledger.seal import FORMAT, SEAL_NAME, Seal, Unfit, read_seal, remove_seal, write_seal
from tests.ledger.conftest import make_draft
from tests.words import troubled

ENGINE = "1.2.3"
TEXT = '{"what":"it comes to","with":"\u00e9"}\n'


@pytest.fixture
def sealed(folder, filled):
    """A ledger of 41 rows, sealed at row 30; the seal."""
    heads = filled(folder, 40)
    with Ledger.open(folder) as ledger:
        seal = Seal(ledger.uuid, 30, heads[29], ENGINE, TEXT)
    write_seal(folder, seal)
    return seal


def opened(folder, engine=ENGINE):
    with Ledger.open(folder, engine=engine) as ledger:
        return ledger.seal


def altered(folder, **about):
    """The seal with another head line, its digest made right."""
    path = folder / SEAL_NAME
    _, head, text = path.read_bytes().split(b"\n", 2)
    rest = json.dumps({**json.loads(head), **about}).encode() + b"\n" + text
    path.write_bytes(hashlib.sha256(rest).hexdigest().encode() + b"\n" + rest)


def test_a_seal_that_fits_is_handed_out_as_it_was_written(folder, sealed):
    assert opened(folder) == sealed
    assert not (folder / f"{SEAL_NAME}.part").exists()


def test_who_asks_for_none_gets_none(folder, sealed):
    assert opened(folder, engine="") is None


def test_one_that_is_not_there_is_none(folder, filled, caplog):
    filled(folder, 3)
    caplog.set_level("INFO")
    assert opened(folder) is None
    assert "there is none" in caplog.text


@pytest.mark.parametrize(
    ("about", "why"),
    [
        ({"engine": "1.2.4"}, "headsweep 1.2.4; allowed: 1.2.3"),
        ({"format": FORMAT + 1}, f"found format {FORMAT + 1}; allowed: {FORMAT}"),
        ({"ledger": "another"}, "it is of ledger another; this is "),
        ({"seq": 29}, "row 29 is not the one it was made at"),
        ({"head": "00" * 32}, "row 30 is not the one it was made at"),
        ({"seq": 42}, "row 42, which the ledger does not have"),
        ({"seq": 0}, "limit-least(limit=1)"),
        ({"seq": 2**63}, "limit-least(limit=1)"),
        ({"seq": "30"}, "it is no seal"),
        ({"more": 1}, "it is no seal"),
    ],
)
def test_one_that_does_not_belong_here_is_not_used_and_why_is_said(
    folder, sealed, caplog, about, why
):
    altered(folder, **about)
    caplog.set_level("INFO")
    assert opened(folder) is None
    assert why in caplog.text and SEAL_NAME in caplog.text


def test_a_byte_that_is_another_one_makes_it_none(folder, sealed):
    path = folder / SEAL_NAME
    whole = path.read_bytes()
    for at in range(len(whole)):
        path.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        with pytest.raises(Unfit):
            read_seal(folder, ENGINE)


def test_a_seal_cut_short_at_any_byte_is_none(folder, sealed):
    path = folder / SEAL_NAME
    whole = path.read_bytes()
    for length in range(len(whole)):
        path.write_bytes(whole[:length])
        with pytest.raises(Unfit):
            read_seal(folder, ENGINE)


def test_a_seal_that_cannot_be_opened_is_none(folder, sealed, caplog):
    remove_seal(folder)
    (folder / SEAL_NAME).mkdir()
    caplog.set_level("INFO")
    assert opened(folder) is None
    assert "it cannot be read" in caplog.text


def test_taken_away_twice_is_taken_away(folder, sealed):
    remove_seal(folder)
    remove_seal(folder)
    assert opened(folder) is None


def test_rows_after_the_seal_are_checked_those_before_are_not(folder, sealed, hand):
    """Those before are looked at behind the start; without a seal they are refused at once."""
    with hand(folder) as connection:
        connection.execute("UPDATE events SET body = replace(body, 'mill', 'till') WHERE seq = 9")
    assert opened(folder) == sealed
    with troubled(LedgerError, match="row 9 is altered"):
        opened(folder, engine="")
    with hand(folder) as connection:
        connection.execute("UPDATE events SET body = replace(body, 'mill', 'till') WHERE seq = 33")
    with troubled(LedgerError, match="row 33 is altered"):
        opened(folder)


def test_opening_with_a_seal_costs_the_same_however_long_the_ledger(folder, monkeypatch):
    """Counted are the rows that come out of the file."""
    found = []
    for rows in (300, 3000):
        with Ledger.open(folder) as ledger:
            ledger.append([make_draft(n) for n in range(rows)])
            write_seal(folder, Seal(ledger.uuid, ledger.seq, ledger.head, ENGINE, TEXT))
        found.append(work_of_opening(folder, monkeypatch))
    assert found[0] == found[1]


def work_of_opening(folder, monkeypatch):
    rows = 0
    asked = reads_room.Reads._rows

    def counted(self, sql, values):
        nonlocal rows
        got = asked(self, sql, values)
        rows += len(got)
        return got

    with monkeypatch.context() as patch:
        patch.setattr(reads_room.Reads, "_rows", counted)
        assert opened(folder) is not None
    return rows


KILLED = """
import os, signal, sys
from pathlib import Path
from daq.ledger.seal import Seal, write_seal
step, folder = sys.argv[1], Path(sys.argv[2])
def die(*args):
    os.kill(os.getpid(), signal.SIGKILL)
if step == "fsync":
    os.fsync = die
else:
    Path.replace = die
write_seal(folder, Seal("other", 40, "00", "1.2.3", "x" * 100_000))
"""


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_killed_while_it_is_written_the_one_before_stands(folder, sealed, child, step):
    process = child(KILLED, step, str(folder))
    process.communicate()
    assert process.returncode == -signal.SIGKILL
    assert (folder / f"{SEAL_NAME}.part").exists()
    assert opened(folder) == sealed
    write_seal(folder, sealed)
    assert not (folder / f"{SEAL_NAME}.part").exists()
    assert opened(folder) == sealed
