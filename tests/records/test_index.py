"""The list of all audits, held against the rows it is made of."""

import datetime
import random
import shutil
from dataclasses import asdict, replace

import apsw
import pytest

from daq.audit.history import WORDS
from daq.ledger.store import Ledger
from daq.ledger.view import LedgerView
from daq.records import index as index_module
from daq.records.index import INDEX_NAME, Index, Unusable
from daq.records.look import look
from daq.records.read import read
from daq.records.shown import line_shown
from daq.records.wanted import Wanted, answer
from tests.records.many import GAUGES, KINDS, MACHINES, PEOPLE, START_US, Audits, iso, made_of


@pytest.fixture(scope="module")
def listed(many):
    """The list of many audits, made in memory."""
    with LedgerView.open(many) as view, Index.in_memory() as index:
        index.catch_up(view)
        yield index


def all_of(data, wanted=Wanted()):  # noqa: B008 - frozen
    return [line for found, _ in look(data, wanted) for line in found.audits]


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


def plainly(data):
    """Each audit of a ledger as what may be asked of it, straight from the rows; newest first."""
    found = {}
    with LedgerView.open(data) as view:
        for event in view.events():
            if event.type == "AuditOpened":
                gauge = event.data["setup"]["gauge"]
                found[event.audit] = {
                    "row": event.seq, "machine": event.machine, "at": event.stamp.utc_us,
                    "kind": (event.data.get("check") or {}).get("kind", "squaring"),
                    "gauge": {gauge["key"], gauge["serial_number"]},
                    "practice": event.data["reason"] == "practice", "open": True, "verdict": None,
                    "people": set(), "voided": False,
                }  # fmt: skip
            elif event.audit:
                one = found[event.audit]
                people = {v for k, v in event.data.items() if k.endswith("_by") and v}
                one["people"] |= people
                one["voided"] |= event.type == "Voided"
                if event.type in ("Signed", "Abandoned"):
                    one |= {"open": False, "at": event.stamp.utc_us}
                    one["verdict"] = event.data.get("verdict")
    return dict(reversed(found.items()))


def fits(one, wanted):
    day = datetime.datetime.fromtimestamp(one["at"] / 1e6, datetime.UTC).date()
    by = {person for person, name in PEOPLE.items() if wanted.by.lower() in name.lower()}
    word = WORDS.get(one["verdict"])
    flags = (("voided", wanted.voided), ("practice", wanted.practice), ("open", wanted.open))
    return (
        wanted.machine in ("", one["machine"])
        and wanted.kind in ("", one["kind"])
        and (wanted.since is None or day >= wanted.since)
        and (wanted.until is None or day <= wanted.until)
        and wanted.verdict in ("", one["verdict"], word)
        and (not wanted.gauge or wanted.gauge in one["gauge"])
        and (not wanted.by or bool(by & one["people"]))
        and all(asked in ("", "yes" if one[name] else "no") for name, asked in flags)
    )


def some(draw, often, *choices):
    return draw.choice(choices) if draw.random() < often else ""


def any_wanted(draw):
    """Something to ask; most of it is left open."""
    start = datetime.datetime.fromtimestamp(START_US / 1e6, datetime.UTC).date()
    days = sorted(start + datetime.timedelta(draw.randrange(70)) for _ in range(2))
    since, until = (day if draw.random() < 0.3 else None for day in days)
    verdicts = ("in", "out", "close", "conforms", "does-not-conform", "look-closer")
    return Wanted(
        machine=some(draw, 0.3, *MACHINES, "none"),
        kind=some(draw, 0.3, *KINDS),
        since=since,
        until=until,
        verdict=some(draw, 0.3, *verdicts),
        gauge=some(draw, 0.3, "G-1", "G-2", "no-number", "left-bench", "%"),
        by=some(draw, 0.3, "Ann Example", "sample", "BO", "%"),
        voided=some(draw, 0.2, "yes", "no"),
        practice=some(draw, 0.2, "yes", "no"),
        open=some(draw, 0.2, "yes", "no"),
        limit=draw.choice((1, 7, 50)),
    )


def test_what_is_asked_comes_out_as_it_does_from_the_rows_one_by_one(many, listed):
    every = plainly(many)
    draw, answers = random.Random(5), 0
    for _ in range(200):
        wanted, got = any_wanted(draw), []
        while True:
            found = answer(listed, wanted, PEOPLE)
            assert len(found.audits) <= wanted.limit
            got += [line.audit for line in found.audits]
            if found.more is None:
                break
            wanted = replace(wanted, before=found.more)
        assert got == [audit for audit, one in every.items() if fits(one, wanted)]
        answers += len(got)
    assert answers > 500


def test_audits_with_a_gauge_that_failed_its_check_are_those_since_it_was_last_good(data, tmp_path):
    good, other = ("a", "G-1"), ("b", "G-2")
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        before = audits.opened(1, gauge=good)
        audits.signed(1.5, before)
        during = audits.opened(2, gauge=good)  # on while the gauge passed
        audits.checked(3, good, passed=True)
        audits.signed(3.5, during)
        after = audits.opened(4, gauge=("moved-to-another-port", "G-1"))
        audits.signed(4.5, after)
        strange = audits.opened(5, gauge=other)
        audits.signed(5.5, strange)
        still = audits.opened(6, gauge=good)
        audits.checked(7, good, passed=False)
        later = audits.opened(8, gauge=good)
        audits.checked(9, good, passed=True)
    day = datetime.date.fromisoformat
    (found, _), = look(tmp_path, Wanted(failed_check=day(iso(7))))  # fmt: skip
    assert [line.audit for line in found.audits] == [still, after, during]
    (failed,) = found.failed
    assert (failed.number, failed.day, failed.since, failed.audits) == ("G-1", iso(7), iso(3), 3)
    assert all_of(tmp_path, Wanted(failed_check=day(iso(7)), open="yes")) != []
    assert all_of(tmp_path, Wanted(failed_check=day(iso(8)))) == []
    assert {before, strange, later} & {line.audit for line in found.audits} == set()


def test_of_a_gauge_calibrated_since_it_passed_audits_before_that_day_are_not_asked_about(
    data, tmp_path
):
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        audits.checked(1, GAUGES[0], passed=True)
        for begun, calibrated, sure in ((2, None, True), (3, None, False), (6, iso(5), True)):
            audit = audits.opened(begun, calibrated=calibrated)
            audits.signed(begun + 0.5, audit, sure=sure)
        audits.checked(7, GAUGES[0], passed=False)
    (found, _), = look(tmp_path, Wanted(failed_check=datetime.date(2026, 1, 1)))  # fmt: skip
    # That of a clock nobody had set may be of any day.
    assert [line.day for line in found.audits] == [iso(6.5), iso(3.5)]
    assert found.failed[0].since == iso(5)


def test_a_gauge_of_no_number_is_told_by_its_key(data, tmp_path):
    with Ledger.open(tmp_path) as ledger:
        audits = Audits(ledger, made_of(data))
        audits.signed(1.5, audits.opened(1, gauge=("one", "")))
        audits.signed(2.5, audits.opened(2, gauge=("two", "")))
        audits.checked(3, ("two", ""), passed=False)
    (found, _), = look(tmp_path, Wanted(failed_check=datetime.date(2026, 1, 1)))  # fmt: skip
    assert [line.day for line in found.audits] == [iso(2.5)]
    assert (found.failed[0].since, found.failed[0].audits) == (None, 1)


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
        "UPDATE made SET hash = replace(hash, substr(hash, 1, 1), 'f')",
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


def test_a_damaged_list_is_not_used_or_says_the_same(kept):
    path, draw = kept / INDEX_NAME, random.Random(3)
    right, whole = all_of(kept), path.read_bytes()
    unused = 0
    for _ in range(40):
        damaged = bytearray(whole)
        at = draw.randrange(len(whole))
        if draw.random() < 0.2:
            del damaged[at:]
        else:
            damaged[at] ^= draw.randrange(1, 256)
        path.write_bytes(damaged)
        unused += bool(used(kept))
        assert all_of(kept) == right
    assert unused > 10


QUESTIONS = (
    Wanted(limit=7),
    Wanted(machine="mill-1", limit=7),
    Wanted(kind="runout", limit=7),
    Wanted(verdict="conforms", limit=7),
    Wanted(voided="yes", limit=7),
    Wanted(machine="none"),
    Wanted(kind="none"),
    Wanted(verdict="look-closer"),
    Wanted(gauge="none"),
    Wanted(by="none"),
    Wanted(since=datetime.date(2027, 1, 1)),
)


def steps(index, wanted):
    """How many times ten steps the database's machine takes to answer, and how many lines are made
    of what it gives."""
    counted = []
    index._connection.set_progress_handler(lambda: bool(counted.append(1)), 10)
    found = answer(index, wanted, PEOPLE)
    index._connection.set_progress_handler(None)
    return len(counted), len(found.audits)


@pytest.mark.parametrize("wanted", QUESTIONS, ids=str)
def test_a_question_costs_what_it_shows_however_many_audits_there_are(listed, wanted):
    """Held against the same list with each audit in it forty times."""
    with listed.in_a_copy() as longer:
        for n in range(1, 40):
            longer.rows(
                "INSERT INTO audits (opened, line, digest) SELECT opened - ?1 * 1000000,"
                " json_set(line, '$.audit', audit || ?1), '' FROM audits WHERE opened > 0",
                (n,),
            )
        few, shown = steps(listed, wanted)
        many_more, as_many = steps(longer, wanted)
        assert shown == as_many == (7 if wanted.limit == 7 else 0)
        assert many_more <= 2 * few + 5, (few, many_more)
