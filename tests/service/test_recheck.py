"""`ledger recheck` of a ledger that something was done to: said in words, each with its code."""

import json

import pytest

from daq.cli import main
from daq.ledger import Ledger
from daq.ledger.chain import GENESIS_PREV, digest_of, link
from tests.ledger.conftest import raw_hand
from tests.ledger.test_let_go import says
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


def changed(folder, kind, change):
    """The data of every row of a type passed through `change`."""

    def rewrite(body):
        event = json.loads(body)
        if event["type"] == kind:
            change(event["data"])
        return json.dumps(event, sort_keys=True, separators=(",", ":"), ensure_ascii=False)

    rewritten(folder, rewrite)


def test_every_field_that_differs_is_named_with_both_values(folder, capsys):
    def forge(data):
        data["reading"] |= {"mean_mm": 9.5, "count": 3}

    changed(folder, "FreeRead", forge)
    assert recheck(folder) == 4
    assert capsys.readouterr().out.splitlines() == [
        f"row {READ}: FreeRead.reading.count: recorded 3, now 26",
        f"row {READ}: FreeRead.reading.mean_mm: recorded 9.5, now 1.0",
        "1 differ",
    ]


def test_as_json_it_is_an_object_a_line(folder, capsys):
    changed(folder, "FreeRead", lambda data: data["reading"].update(mean_mm=9.5))
    assert main(["ledger", "recheck", "--data", str(folder), "--json"]) == 4
    found, whole = map(json.loads, capsys.readouterr().out.splitlines())
    assert (found["row"], found["type"], found["what"]) == (READ, "FreeRead", "differs")
    change = {"seq": READ, "path": "FreeRead.reading.mean_mm", "recorded": 9.5, "now": 1.0}
    assert (found["changes"], found["more"]) == ([change], 0)
    assert whole == {"differ": 1, "let_go": 0}


def test_a_refusal_is_said_by_its_code_and_in_words(folder, capsys):
    def wrong(data):
        data["setup"]["gauge"]["serial_number"] = "another"

    changed(folder, "AuditOpened", wrong)
    assert recheck(folder) == 4
    said = capsys.readouterr().out
    assert "recorded Prepared, now refused: " in said and "(other-gauge)" in said
    main(["ledger", "recheck", "--data", str(folder), "--json"])
    lines = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    (refused,) = [line for line in lines if line.get("what") == "refused"]
    assert refused["code"] and refused["say"]


def test_what_was_decided_from_samples_that_were_let_go_is_counted_and_no_difference(
    folder, capsys
):
    with Ledger.open(folder) as ledger:
        read = ledger.event(READ)
        ledger.let_go(says(read.evidence, up_to=READ), read.evidence)
    assert recheck(folder) == 0
    assert capsys.readouterr().out == (
        "1 not made again: their samples were let go\nevery decision comes out as recorded\n"
    )
