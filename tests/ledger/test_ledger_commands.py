import base64
import hashlib
import io
import json
from types import SimpleNamespace

import pytest

from daq.ledger import Ledger
from daq.ledger.commands import anchor, export, run, show, verify
from daq.words import Stamp
from tests.words import en


def args(action, folder, **changes):
    given = {"action": action, "data": folder, "anchor": [], "audit": None, "evidence": False}
    given["anchors"] = given["key"] = []
    return SimpleNamespace(**(given | changes))


def test_export_is_what_was_stored_and_enough_to_check_it(folder, filled):
    heads = filled(folder, 4)
    out = io.StringIO()
    assert export(folder, out, en, evidence=True) == 0
    *rows, chunk = [json.loads(line) for line in out.getvalue().splitlines()]
    head = b"\0" * 32
    for seq, row in enumerate(rows, 1):
        head = hashlib.sha256(head + row["body"].encode()).digest()
        assert row == {"seq": seq, "hash": head.hex(), "body": row["body"]}
    assert head.hex() == heads[-1]
    packed = base64.b64decode(chunk["bytes"])
    assert hashlib.sha256(packed).hexdigest() == chunk["digest"]
    assert json.loads(rows[2]["body"])["evidence"] == [chunk["digest"]]
    bare = io.StringIO()
    assert export(folder, bare, en) == 0
    assert bare.getvalue().splitlines() == out.getvalue().splitlines()[:-1]


def test_show_is_a_line_an_event(folder, draft):
    with Ledger.open(folder) as ledger:
        ledger.append(
            [
                draft(0, audit="3fa85f64-5717"),
                draft(1, audit="b7", data={"long": "x" * 200}),
                draft(2, audit="b7", stamp=Stamp(0, 0, "boot", False)),
            ]
        )
    out = io.StringIO()
    assert show(folder, out) == 0
    lines = out.getvalue().splitlines()
    assert lines[0].split() == ["row", "UTC", "machine", "audit", "event", "actor", "data"]
    assert lines[1].split()[-4:-1] == ["?", "LedgerBegan", "ledger"]
    assert lines[2].split()[:6] == [
        "2",
        "2023-11-14",
        "22:13:20",
        "mill",
        "3fa85f64",
        "ReadingTaken",
    ]
    assert lines[3].endswith("xxx...")
    assert lines[4].split()[1:4] == ["1970-01-01", "00:00", "?"]
    some = io.StringIO()
    assert show(folder, some, audit="3fa8") == 0
    assert some.getvalue().splitlines() == [lines[0], lines[2]]


def test_verify_says_sound_or_where_it_is_not(folder, filled, hand):
    heads = filled(folder, 4)
    out = io.StringIO()
    assert verify(folder, out, en) == 0
    assert out.getvalue() == f"sound: 5 rows, none altered; head {heads[-1]}\n"
    with hand(folder) as connection:
        connection.execute("DELETE FROM events WHERE seq = 4")
    out = io.StringIO()
    assert verify(folder, out, en) == 3
    assert out.getvalue().startswith("NOT SOUND: ")
    assert out.getvalue().endswith("row 4 is missing\ngood rows: 3\nfirst bad row: 4\n")


def test_damage_beside_the_rows_names_no_row(folder, filled, hand):
    filled(folder, 4)
    with hand(folder) as connection:
        connection.execute("DROP INDEX events_by_machine")
    out = io.StringIO()
    assert verify(folder, out, en) == 3
    assert "events_by_machine is missing" in out.getvalue()
    assert "first bad row" not in out.getvalue()


def test_of_what_is_not_sound_nothing_is_exported(folder, filled, hand, capsys):
    filled(folder, 4)
    with hand(folder) as connection:
        connection.execute("UPDATE events SET body = replace(body, 'mill', 'bill') WHERE seq = 3")
    assert run(args("export", folder, evidence=True), en) == 3
    said = capsys.readouterr()
    assert said.out == ""
    assert "row 3 is altered" in said.err and "first bad row: 3" in said.err


def test_the_command_line_reaches_each(folder, filled, capsys):
    heads = filled(folder, 4)
    assert run(args("verify", folder, anchor=[f"5:{heads[4][:8].upper()}"]), en) == 0
    assert capsys.readouterr().out.startswith("sound: 5 rows")
    assert run(args("verify", folder, anchor=["5:00000000"]), en) == 3
    assert "first bad row: 5" in capsys.readouterr().out
    assert run(args("show", folder, audit="7b0c"), en) == 0
    assert len(capsys.readouterr().out.splitlines()) == 5
    assert run(args("export", folder, evidence=True), en) == 0
    assert len(capsys.readouterr().out.splitlines()) == 6


def test_what_cannot_be_read_is_said_and_is_another_exit_code(folder, filled, capsys):
    assert run(args("show", folder), en) == 2
    said = capsys.readouterr()
    assert (said.out, "there is no ledger here" in said.err) == ("", True)
    filled(folder, 1)
    assert run(args("verify", folder, anchor=["head"]), en) == 2
    assert "found 'head'; allowed: ROW:HASH" in capsys.readouterr().err


@pytest.mark.parametrize("text", ["", "5", ":ab", "x:abababab", "-1:abababab", "5:"])
def test_an_anchor_is_a_row_and_a_hash(text):
    with pytest.raises(ValueError, match="allowed: "):
        anchor(text)
