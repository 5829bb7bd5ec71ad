"""The list of all audits, held against the rows it is made of."""

import random
import shutil
from dataclasses import asdict

import apsw
import pytest

from daq.ledger.store import Ledger
from daq.ledger.view import LedgerView
from daq.records import index as index_module
from daq.records.index import INDEX_NAME, Index, Unusable
from daq.records.read import read
from daq.records.shown import line_shown
from daq.records.wanted import Wanted, answer
from tests.records.many import PEOPLE, Audits, all_of, made_of, plainly


def test_a_line_says_what_the_audit_s_own_rows_say(data, ids):
    lines = {line.audit: line for line in all_of(data)}
    assert list(lines) == ids[::-1]
    for audit, line in lines.items():
        found = read(data, audit)
        signed, setup = found.signed, found.opened.setup
        assert (line.short, line.machine, line.reason) == (
            found.opened.short, found.machine, found.opened.reason,
        )  # fmt: skip
        assert (line.opened.row, line.closed.row) == (found.rows[0].seq, found.closed.seq)
        assert (line.verdict, line.moves, line.done_by) == (
            signed.verdict, signed.moves, signed.done_by,
        )  # fmt: skip
        assert [each.number for each in line.gauges] == [g.serial_number for g in setup.gauges]
        for axis, came in line.as_left.items():
            result = signed.as_left[axis]
            assert (came.error_mm, came.limit_mm, came.word) == (
                result.error_mm, result.limit_mm, result.word,
            )  # fmt: skip
            budgets = [
                sweep.budgets[axis] for _, sweep in found.sweeps
                if any(each.as_left and each.number == sweep.number for each in signed.sweeps)
            ]  # fmt: skip
            assert came.doubt_mm == pytest.approx(budgets[-1].expanded_mm, rel=1e-6)
        assert line.taken_back == sum(len(getattr(row.data, "voids", ())) for row in found.rows)
        assert line.addenda == len(found.later)


def test_the_latest_report_of_an_audit_is_named(data, tmp_path):
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        audit = audits.opened(1)
        (open_,) = map(line_shown, all_of(tmp_path))
        row = audits.signed(2, audit)
        (first,) = map(line_shown, all_of(tmp_path))
        amended = {
            "of": audit, "signed": row, "nth": 2, "because": "x", "done_by": "", "kept": "",
        }  # fmt: skip
        audits.row("ReportAmended", 3, audit, "mill-1", amended)
    (second,) = map(line_shown, all_of(tmp_path))
    short = second.short
    assert (open_.report, first.report, second.report) == (None, f"{short}-1", f"{short}-2")


def test_only_the_rows_since_are_read_and_of_those_the_few_that_matter(many, listed, monkeypatch):
    made = []
    whole = index_module.decode
    monkeypatch.setattr(index_module, "decode", lambda event: made.append(event) or whole(event))
    with LedgerView.open(many) as view, listed.in_a_copy() as index:
        index.catch_up(view)
        assert made == []
    with LedgerView.open(many) as view, Index.in_memory() as index:
        index.catch_up(view, lambda row: row >= 1)
        first = index.row
        assert first > 0
        del made[:]
        index.catch_up(view)
        assert [event.seq for event in made] == [
            event.seq for event in view.events(after=first) if event.type != "LedgerBegan"
        ]
        assert all_lines(index) == all_lines(listed)


def all_lines(index):
    return [asdict(line) for line in answer(index, Wanted(limit=200), PEOPLE).audits]


@pytest.fixture
def kept(many, tmp_path):
    """A folder with the ledger and its list, whole."""
    folder = tmp_path / "kept"
    shutil.copytree(many, folder)
    with LedgerView.open(folder) as view, Index.written_at(folder / INDEX_NAME) as index:
        index.catch_up(view)
    return folder


def used(folder):
    """Why the list there is not of use, "" where it is."""
    with LedgerView.open(folder) as view:
        try:
            with Index.at(folder / INDEX_NAME) as index:
                index.require_fit(view, whole=True)
                return "" if index.row == view.last()[0] else "behind"
        except Unusable as unusable:
            return str(unusable)


def test_what_is_there_is_used_and_nothing_is_written_by_who_only_looks(kept, many):
    assert used(kept) == ""
    before = {path.name: path.read_bytes() for path in kept.glob("records.*")}
    assert len(all_of(kept)) == 60
    assert {path.name: path.read_bytes() for path in kept.glob("records.*")} == before
    assert not list(many.glob("records.*"))


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE made SET ledger = 'another'",
        "UPDATE made SET engine = '0.0.1'",
        "UPDATE made SET hash = 'x' || substr(hash, 2)",
        "UPDATE made SET at = at + 1",
        "UPDATE audits SET line = replace(line, '\"conforms\"', '\"look-closer\"')",
        "PRAGMA user_version = 2",
    ],
)
def test_a_list_of_something_else_is_not_used(kept, sql):
    connection = apsw.Connection(str(kept / INDEX_NAME))
    connection.execute(sql)
    connection.close()
    assert used(kept)
    assert [line.audit for line in all_of(kept)] == list(plainly(kept))


@pytest.mark.parametrize("times", [10, pytest.param(100, marks=pytest.mark.long)])
def test_a_damaged_list_is_not_used_or_says_the_same(kept, times):
    path, draw = kept / INDEX_NAME, random.Random(3)
    right, whole = all_of(kept), path.read_bytes()
    unused = 0
    for _ in range(times):
        damaged = bytearray(whole)
        at = draw.randrange(len(whole))
        if draw.random() < 0.2:
            del damaged[at:]
        else:
            damaged[at] ^= draw.randrange(1, 256)
        path.write_bytes(damaged)
        unused += bool(used(kept))
        assert all_of(kept) == right
    assert unused > times / 4
