"""`ledger recheck` of a ledger that something was done to: said in words, each with its code."""

import json

import pytest

from daq.cli import main
from daq.ledger.chain import GENESIS_PREV, digest_of, link
from tests.ledger.conftest import raw_hand
from tests.service.rig import Rig, prepared

READ = 6


@pytest.fixture
def folder(tmp_path, config, clock, sample):
    """A closed ledger: opened, prepared, and a free reading in row READ with its samples."""
    rig = Rig(tmp_path / "data", config, clock, sample)
    prepared(rig)
    rig.post("take", {}, "c3")
    rig.stream([1.0] * 60)
    rig.decider.close("over")
    return tmp_path / "data"


def recheck(folder):
    return main(["ledger", "recheck", "--data", str(folder)])


def rewritten(folder, change):
    """Every body passed through `change`, and the chain made anew over them."""
    with raw_hand(folder) as connection:
        head = GENESIS_PREV
        for seq, body in connection.execute("SELECT seq, body FROM events ORDER BY seq").fetchall():
            fresh = change(body)
            head = link(head, fresh.encode())
            connection.execute(
                "UPDATE events SET body = ?, hash = ? WHERE seq = ?", (fresh, head, seq)
            )


def with_evidence(folder, chunk):
    """The free reading's samples replaced by other bytes, under their own digest."""
    with raw_hand(folder) as connection:
        ((old,),) = connection.execute("SELECT lower(hex(digest)) FROM chunks").fetchall()
        connection.execute(
            "UPDATE chunks SET digest = ?, bytes = ?", (bytes.fromhex(digest_of(chunk)), chunk)
        )
    rewritten(folder, lambda body: body.replace(old, digest_of(chunk)))


def test_a_sound_ledger_comes_out_as_recorded(folder, capsys):
    assert recheck(folder) == 0
    assert capsys.readouterr().out == "every decision comes out as recorded\n"


@pytest.mark.parametrize(
    ("sql", "row"),
    [
        ("UPDATE events SET body = replace(body, 'c2', 'c9') WHERE seq = 5", 5),
        ("UPDATE chunks SET bytes = x'00'", READ),
        ("DELETE FROM chunks", READ),
        ("DELETE FROM events WHERE seq = 2", 2),
        ("DELETE FROM events", 1),
    ],
)
def test_an_altered_ledger_is_not_rechecked(folder, capsys, sql, row):
    with raw_hand(folder) as connection:
        connection.execute(sql)
    assert recheck(folder) == 3
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("NOT SOUND: ") and f"first bad row: {row}\n" in said.err


@pytest.mark.parametrize(
    "chunk",
    [
        b"",
        b"\xff\xfe\n",
        b"no samples\n",
        b"7\n",
        b"[1]\n",
        b'[1,2,"1.0","mm",1.0,[],""]\n',
        b'{"gauge":"practice","run":"r1"}\n["n",null,3,"mile","x",{},"y"]\n',
        b"[" * 100_000 + b"\n",
    ],
)
def test_evidence_that_is_none_is_said_with_its_row(folder, capsys, chunk):
    with_evidence(folder, chunk)
    assert recheck(folder) == 4
    said = capsys.readouterr().out.splitlines()
    assert said[0].startswith(f"row {READ}: recorded FreeRead, ")
    assert said[-1] == "1 differ"


def test_a_cause_that_is_none_is_said_with_its_row(folder, capsys):
    def without_window(body):
        event = json.loads(body)
        event["cause"].pop("window", None)
        return json.dumps(event, sort_keys=True, separators=(",", ":"), ensure_ascii=False)

    rewritten(folder, without_window)
    assert recheck(folder) == 4
    assert "row 2: recorded AuditOpened, but its input" in capsys.readouterr().out


def test_the_codes_are_told_by_the_command_itself(capsys):
    with pytest.raises(SystemExit):
        main(["ledger", "recheck", "--help"])
    assert "3 the ledger is altered or damaged" in " ".join(capsys.readouterr().out.split())
