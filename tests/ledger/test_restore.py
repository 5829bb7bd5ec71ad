"""A ledger put back from a copy or an export: all of it as it was, or no folder at all."""

import io
import json
import shutil

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from daq.cli import main
from daq.ledger import Ledger, LedgerError, LedgerView
from daq.ledger.backup import backup
from daq.ledger.commands import export
from daq.ledger.errors import FolderInUse, NotSound
from daq.ledger.restore import restore
from daq.ledger.verify import Anchor, verify
from tests.independent.verify_export import Unsound, check
from tests.ledger.conftest import make_draft, make_filled, raw_hand
from tests.ledger.test_let_go import DIGESTS, GONE, filled, says
from tests.words import en, troubled


def whole(folder):
    """Everything the tables hold, but for people, in the order of the numbers."""
    with LedgerView.open(folder) as view:
        rows = list(view.rows())
        return rows, list(view.chunks(view.ends()[1]))


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A ledger with evidence, some of it let go; a copy of it, and an export."""
    top = tmp_path_factory.mktemp("made")
    filled(top / "data")
    with Ledger.open(top / "data") as ledger:
        ledger.let_go(says(GONE), GONE)
        ledger.append([make_draft(20)], people={"3fa85f64-5717-4562-b3fc-2c963f66afa6": "A. T."})
    backup(top / "data", top / "copy")
    out = io.StringIO()
    assert export(top / "data", out, en, evidence=True) == 0
    (top / "export.jsonl").write_text(out.getvalue(), encoding="utf-8")
    return top


@pytest.mark.parametrize("source", ["copy", "export.jsonl"])
@pytest.mark.parametrize("there", [False, True], ids=["new", "empty"])
def test_all_of_it_is_as_it_was(made, tmp_path, source, there):
    folder = tmp_path / "put" / "back"
    if there:
        folder.mkdir(parents=True)
    found = restore(made / source, folder)
    assert whole(folder) == whole(made / "data")
    assert (found.report.rows, found.report.head) == (9, verify(made / "data").head)
    assert (found.chunks, found.let_go) == (len(DIGESTS), len(GONE))
    assert sorted(path.name for path in folder.parent.iterdir()) == ["back"]
    with Ledger.open(folder) as ledger:  # and it goes on
        assert ledger.uuid == found.ledger
        assert ledger.append([make_draft(30)])[0].seq == 10


def test_a_copy_brings_its_names_and_an_export_none(made, tmp_path):
    for source, names in (("copy", ["A. T."]), ("export.jsonl", [])):
        restore(made / source, tmp_path / source)
        with LedgerView.open(tmp_path / source) as view:
            assert list(view.people().values()) == names


def test_a_folder_with_a_ledger_or_anything_else_is_refused(made, tmp_path):
    with troubled(LedgerError, match="there is a ledger here already; allowed: a new folder"):
        restore(made / "copy", made / "data")
    (tmp_path / "old").mkdir()
    (tmp_path / "old" / "ledger.db-wal").write_bytes(b"x")
    with troubled(LedgerError, match="there is a ledger here already"):
        restore(made / "copy", tmp_path / "old")
    (tmp_path / "some").mkdir()
    (tmp_path / "some" / "wall-key").write_text("x")
    with troubled(LedgerError, match="is not empty"):
        restore(made / "copy", tmp_path / "some")
    (tmp_path / "file").write_text("x")
    with troubled(LedgerError, match="is not empty"):
        restore(made / "copy", tmp_path / "file")
    with troubled(LedgerError, match="cannot be written"):
        restore(made / "copy", tmp_path / "file" / "below")
    with troubled(LedgerError, match="there is nothing here; allowed: the folder of a copy"):
        restore(tmp_path / "none", tmp_path / "new")
    with troubled(LedgerError, match="there is no ledger here"):
        restore(tmp_path / "some", tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_the_folder_of_a_running_service_is_refused_as_source_and_as_target(made, tmp_path):
    make_filled(tmp_path / "running", 1)
    with Ledger.open(tmp_path / "running"):
        for source, folder in ((made / "copy", "running"), (tmp_path / "running", "new")):
            with troubled(FolderInUse, match="another headsweep has this data folder open"):
                restore(source, tmp_path / folder)


def test_what_was_noted_down_is_held_against_it(made, tmp_path):
    head = verify(made / "data").head
    for source in ("copy", "export.jsonl"):
        with troubled(NotSound, match="row 10 was noted down|other|ends at row 9"):
            restore(made / source, tmp_path / "no", [Anchor(10, head)])
        restore(made / source, tmp_path / source, [Anchor(9, head[:8])])
    assert not (tmp_path / "no").exists()


def test_a_damaged_copy_is_refused_at_its_row(made, tmp_path):
    shutil.copytree(made / "copy", tmp_path / "copy")
    with raw_hand(tmp_path / "copy") as connection:
        connection.execute("UPDATE events SET body = replace(body, 'mill', 'bill') WHERE seq = 4")
    with troubled(NotSound, match="row 4 is altered"):
        restore(tmp_path / "copy", tmp_path / "back")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["copy"]


def test_an_export_without_its_evidence_is_none_to_restore_from(made, tmp_path):
    out = io.StringIO()
    export(made / "data", out, en)
    (tmp_path / "bare.jsonl").write_text(out.getvalue())
    with troubled(NotSound, match="row 2: .*is not in the ledger"):
        restore(tmp_path / "bare.jsonl", tmp_path / "back")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "no export\n",
        "[" * 100_000,
        '{"seq":1}\n',
        '{"seq":true,"hash":"","body":"{}"}\n',
        '{"bytes":"!","digest":"ab"}\n',
        '{"digest":"ab","let_go":9223372036854775808}\n',
        '{"body":"\\ud800","hash":"","seq":1}\n',
    ],
)
def test_what_is_no_export_is_said(tmp_path, text):
    (tmp_path / "file").write_text(text)
    with pytest.raises(LedgerError) as caught:
        restore(tmp_path / "file", tmp_path / "back")
    assert "file: line 1 is none of an export" in en(caught.value) or text == ""
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file"]


@settings(
    derandomize=True, deadline=None, max_examples=60,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)  # fmt: skip
@given(data=st.data())
def test_an_altered_export_is_refused_as_the_second_verifier_does(made, tmp_path, data):
    lines = (made / "export.jsonl").read_text().splitlines()
    at = data.draw(st.integers(0, len(lines) - 1))
    if data.draw(st.booleans()):
        del lines[at]
    else:
        line = json.loads(lines[at])
        key = data.draw(st.sampled_from(sorted(line)))
        if isinstance(line[key], int):
            line[key] = data.draw(st.integers(0, 12).filter(line[key].__ne__))
        else:
            place = data.draw(st.integers(0, len(line[key]) - 1))
            letter = data.draw(st.sampled_from("019afx}").filter(line[key][place].__ne__))
            line[key] = line[key][:place] + letter + line[key][place + 1 :]
        lines[at] = json.dumps(line)
    head = verify(made / "data").head
    try:
        check(lines, {9: head})
        good = True
    except (Unsound, ValueError, TypeError, KeyError):
        good = False
    path = tmp_path / "altered.jsonl"
    path.write_text("\n".join(lines) + "\n")
    shutil.rmtree(tmp_path / "back", ignore_errors=True)
    if good:
        restore(path, tmp_path / "back", [Anchor(9, head)])
    else:
        with pytest.raises(LedgerError):
            restore(path, tmp_path / "back", [Anchor(9, head)])
    assert (tmp_path / "back").exists() == good


def test_the_command_says_what_it_found(made, tmp_path, capsys):
    source, head = str(made / "export.jsonl"), verify(made / "data").head

    def command(name, *more, source=source):
        args = ["--from", source, "--data", str(tmp_path / name), *more]
        return main(["ledger", "restore", *args]), capsys.readouterr()

    code, said = command("back", "--anchor", f"9:{head}")
    assert (code, said.err) == (0, "")
    assert said.out.splitlines()[1:] == [
        f"sound: 9 rows, none altered; head {head}",
        "last row: 2023-11-14 22:13:20 UTC",
        "audits open: none",
        "evidence: complete, 6 pieces; of 3 the samples were let go, as rows say",
        "names: none; an export holds people's ids alone",
    ]
    code, said = command("back")
    assert (code, said.out) == (2, "") and "there is a ledger here already" in said.err
    code, said = command("other", "--anchor", "9:00000000")
    assert (code, said.out) == (3, "") and said.err.startswith("NOT SOUND: the copy is not sound")
    code, said = command("other", "--anchor", "9")
    assert code == 2 and "allowed: ROW:HASH" in said.err
    assert not (tmp_path / "other").exists()
