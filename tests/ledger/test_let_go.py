"""Evidence let go on purpose: the chain holds, and nothing else than what was said is gone."""

import base64
import io
import json

import apsw
import pytest

from daq.ledger import Ledger, LedgerError, LedgerView, digest_of
from daq.ledger.backup import backup
from daq.ledger.chain import list_digest
from daq.ledger.commands import export
from daq.ledger.errors import LetGo, NotRecorded
from daq.ledger.let_go import LET_GO_TYPE
from daq.ledger.verify import verify
from daq.words import said
from tests.independent.verify_export import Unsound, check
from tests.ledger.conftest import make_draft, raw_hand
from tests.words import en, troubled

CHUNKS = [f"samples {n}".encode() * 300 for n in range(6)]
DIGESTS = [digest_of(chunk) for chunk in CHUNKS]
GONE = DIGESTS[:3]
ROW = 8
"""The row that lets the first three go; rows 2 to 7 name one each."""


def says(digests, up_to=ROW - 1, **other):
    listed = list_digest(bytes.fromhex(each) for each in digests)
    data = {"count": len(digests), "digest": listed, "up_to": up_to, "older_than_days": 400}
    return make_draft(9, type=LET_GO_TYPE, v=2, machine="", audit="", data=data | other)


def filled(folder):
    with Ledger.open(folder) as ledger:
        for n, chunk in enumerate(CHUNKS):
            ledger.append([make_draft(n, evidence=(DIGESTS[n],))], [chunk])


@pytest.fixture
def let_go(folder):
    """A ledger three of whose six chunks were let go."""
    filled(folder)
    with Ledger.open(folder) as ledger:
        assert ledger.let_go(says(GONE), GONE).seq == ROW
        assert ledger.append([make_draft(99)])[0].seq == ROW + 1
    return folder


def exported(folder):
    out = io.StringIO()
    assert export(folder, out, en, evidence=True) == 0
    return out.getvalue().splitlines()


def test_the_chain_holds_and_the_rest_is_there(let_go):
    report = verify(let_go)
    assert report.ok and report.rows == ROW + 1
    with Ledger.open(let_go) as ledger:
        assert [ledger.chunk(digest) for digest in DIGESTS[3:]] == CHUNKS[3:]
        with troubled(LetGo, match=f"evidence {GONE[0]} was let go, as row {ROW} says") as caught:
            ledger.chunk(GONE[0])
        assert caught.value.row == ROW


def test_backup_and_export_agree_with_it(let_go, tmp_path):
    assert backup(let_go, tmp_path / "copy").head == verify(let_go).head
    lines = exported(let_go)
    chunks = [line for line in map(json.loads, lines) if "digest" in line]
    assert [line["digest"] for line in chunks] == DIGESTS
    assert [line.get("let_go") for line in chunks] == [ROW] * 3 + [None] * 3
    assert check(lines)[2] == 3  # what was let go is listed, and not here


def test_what_was_let_go_is_no_evidence_of_a_new_row(let_go):
    with Ledger.open(let_go) as ledger:
        with pytest.raises(ValueError, match="neither stored nor handed over"):
            ledger.append([make_draft(1, evidence=(GONE[0],))], [CHUNKS[0]])
        assert ledger.seq == ROW + 1


@pytest.mark.parametrize("digests", [["ab" * 32], [DIGESTS[0], DIGESTS[0]], [*DIGESTS, "ab" * 32]])
def test_what_is_not_there_cannot_be_let_go_and_then_nothing_is(folder, digests):
    filled(folder)
    with Ledger.open(folder) as ledger:
        with pytest.raises(ValueError, match="is not stored"):
            ledger.let_go(says(digests), digests)
        assert ledger.seq == ROW - 1
        assert [ledger.chunk(digest) for digest in DIGESTS] == CHUNKS


def test_where_the_commit_fails_nothing_is_gone_and_it_can_be_tried_again(folder, monkeypatch):
    filled(folder)
    with Ledger.open(folder) as ledger:

        def gone():
            raise NotRecorded(said("disk-is-full"))

        with monkeypatch.context() as patched:
            patched.setattr(ledger, "_require_own_end", gone)
            with troubled(NotRecorded, match="the disk is full"):
                ledger.let_go(says(GONE), GONE)
        assert (ledger.seq, ledger.evidence()) == (ROW - 1, (6, 0))
        assert ledger.let_go(says(GONE), GONE).seq == ROW
        assert ledger.evidence() == (6, 3)


def one_more(connection):
    connection.execute(
        "UPDATE chunks SET bytes = NULL, let_go = ? WHERE digest = ?",
        (ROW, bytes.fromhex(DIGESTS[4])),
    )


def as_another_row_says(connection):
    connection.execute("UPDATE chunks SET let_go = ? WHERE let_go IS NOT NULL", (ROW + 1,))


def off_the_list(connection):
    connection.execute("DELETE FROM chunks WHERE digest = ?", (bytes.fromhex(GONE[1]),))


def put_back_as_another(connection):
    connection.execute(
        "UPDATE chunks SET bytes = x'00', let_go = NULL WHERE digest = ?",
        (bytes.fromhex(GONE[1]),),
    )


def cut_off(connection):
    connection.execute("DELETE FROM events WHERE seq >= ?", (ROW,))


@pytest.mark.parametrize(
    ("tamper", "seq"),
    [
        (one_more, ROW),
        (as_another_row_says, 2),
        (off_the_list, 3),
        (put_back_as_another, 3),
        (cut_off, 2),
    ],
)
def test_what_is_gone_without_a_row_that_says_so_is_an_alarm(let_go, tamper, seq):
    with raw_hand(let_go) as connection:
        tamper(connection)
    report = verify(let_go)
    assert (report.ok, report.first_bad_seq) == (False, seq)


@pytest.mark.parametrize(
    "draft",
    [
        says(GONE, up_to=3),
        says(GONE, up_to=ROW),
        says(GONE, up_to="all"),
        says(GONE, count=4),
        says(GONE[:2]),
        says(GONE, digest="ab" * 32),
    ],
)
def test_a_row_that_says_otherwise_is_an_alarm_to_both_verifiers(folder, draft):
    filled(folder)
    with Ledger.open(folder) as ledger:
        ledger.let_go(draft, GONE)
    assert not verify(folder).ok
    with LedgerView.open(folder) as view:
        rows = [
            {"seq": seq, "hash": stored.hex(), "body": body.decode()}
            for seq, body, stored in view.rows()
        ]
    chunks = [{"digest": digest, "let_go": ROW} for digest in GONE]
    chunks += [
        {"digest": digest, "bytes": base64.b64encode(chunk).decode()}
        for digest, chunk in zip(DIGESTS[3:], CHUNKS[3:], strict=True)
    ]
    with pytest.raises((Unsound, TypeError)):
        check(map(json.dumps, rows + chunks), {})


@pytest.mark.parametrize("at", range(ROW + 1 + 6))
def test_no_line_of_its_export_can_be_left_out(let_go, at):
    lines = exported(let_go)
    with pytest.raises(Unsound):
        check(lines[:at] + lines[at + 1 :], [(ROW + 1, verify(let_go).head)])


def test_a_line_that_lists_another_is_not_sound(let_go):
    lines = exported(let_go)
    moved = json.dumps({"digest": DIGESTS[4], "let_go": ROW})
    with pytest.raises(Unsound):
        check([*lines[: ROW + 1 + 4], moved, *lines[ROW + 1 + 5 :]], {})


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE chunks SET bytes = NULL",
        f"UPDATE chunks SET bytes = NULL, let_go = {ROW}",
        "UPDATE chunks SET bytes = NULL, let_go = 2",
        "UPDATE chunks SET let_go = 3 WHERE let_go IS NOT NULL",
        "UPDATE chunks SET bytes = x'00', let_go = NULL WHERE let_go IS NOT NULL",
        "UPDATE chunks SET bytes = x'00' WHERE bytes IS NOT NULL",
        "DELETE FROM chunks WHERE let_go IS NOT NULL",
    ],
)
def test_the_file_itself_lets_nothing_else_go(let_go, sql):
    connection = apsw.Connection(str(let_go / "ledger.db"))
    with pytest.raises((apsw.ConstraintError, apsw.SQLError)):
        connection.execute(sql)
    connection.close()
    assert verify(let_go).ok


def test_what_was_let_go_while_it_is_exported_is_said(folder, monkeypatch):
    filled(folder)
    ends = LedgerView.ends

    def then_let_go(view):
        found = ends(view)
        with Ledger.open(folder) as ledger:
            ledger.let_go(says(GONE), GONE)
        return found

    monkeypatch.setattr(LedgerView, "ends", then_let_go)
    with troubled(LedgerError, match=f"let go meanwhile, as row {ROW} says; export it again"):
        export(folder, io.StringIO(), en, evidence=True)
