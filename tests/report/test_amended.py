"""An amended report: a new number that says why, and the bytes of the one it replaces, kept."""

import hashlib
import json
from dataclasses import replace

import pytest

from daq.audit.amended import LONGEST
from daq.audit.input import Refused
from daq.audit.recompute import differences
from daq.cli import main
from daq.ledger.view import LedgerView
from daq.records.read import read
from daq.report.files import NoSuchReport, report_of
from daq.report.made import made
from daq.report.number import earlier
from daq.says import language
from tests.audit.save_golden import put
from tests.report.benches import at_bench, bytes_of, record_of, signed, told_with
from tests.words import en

WHY = "The place was wrong: it stands in bay 4."


def amend(bench, pdf=b"%PDF-1.7 as it was", why=WHY, done_by="T"):
    payload = {"audit": bench.state.last.id, "why": why, "done_by": done_by}
    command = replace(bench.command("amend-report", payload), brought=pdf)
    return bench.decide(command, ())


@pytest.fixture
def bench():
    return signed()


def test_it_is_a_row_of_that_audit_with_the_replaced_bytes(bench):
    before, pdf = bench.state, b"%PDF-1.7 as it was handed out"
    (made,) = amend(bench, pdf)
    row = bench.events[-1]
    digest = hashlib.sha256(pdf).hexdigest()
    assert (row.audit, row.evidence, made.kept) == (before.last.id, (digest,), digest)
    assert (made.nth, made.because, bench.chunks[digest]) == (2, WHY, pdf)
    assert replace(bench.state, people=()) == replace(before, people=())
    (again,) = amend(bench)
    assert again.nth == 3
    assert list(differences(bench.events, bench.chunks.__getitem__)) == []


def test_the_new_report_says_what_it_replaces_and_why(bench):
    short = record_of(bench).opened.short
    amend(bench)
    page = bytes_of(bench, "html").decode()
    assert f"Report {short}-2" in page and f"End of report {short}-2" in page
    assert f"Replaces {short}-1, because: {WHY}" in page
    assert f"{short}-2 replaces {short}-1" in page


def test_an_addendum_made_since_stands_in_the_next(bench):
    assert "Found later" not in bytes_of(bench, "html").decode()
    more = {"audit": bench.state.last.id, "kind": "finding", "text": "A chip.", "done_by": "T"}
    bench.do("add-to-signed", more)
    amend(bench)
    page = bytes_of(bench, "html").decode()
    assert "Found later" in page and "A chip." in page and "1 addendum, the last in row" in page
    short = record_of(bench).opened.short
    assert f"Report {short}-3" in page and f"Replaces {short}-2, because: {WHY}" in page


def test_an_addendum_makes_the_next_report_and_the_one_before_can_be_made_again(bench):
    first, short = bytes_of(bench, "json"), record_of(bench).opened.short
    more = {"audit": bench.state.last.id, "kind": "finding", "text": "A chip.", "done_by": "T"}
    bench.do("add-to-signed", more)
    issue = json.loads(bytes_of(bench, "json"))["issue"]
    row = bench.events[-1].seq
    assert (issue["number"], issue["replaces"]) == (f"{short}-2", f"{short}-1")
    assert issue["because"] == f"something was added, in row {row}"
    assert made(earlier(record_of(bench), 1), "json", told_with(bench)) == first
    assert list(differences(bench.events, bench.chunks.__getitem__)) == []


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"why": " "}, "why: found 0 characters; allowed: 1 to 300, why the report is replaced"),
        ({"why": "x" * (LONGEST + 1)}, "why: found 301 characters"),
        ({"done_by": " "}, "done_by: found nothing"),
        ({"pdf": b""}, "did not come with it"),
    ],
)
def test_it_is_refused_in_words(bench, changed, says):
    rows = len(bench.events)
    with pytest.raises(Refused) as refused:
        amend(bench, **changed)
    assert says in en(refused.value.said) and len(bench.events) == rows


def test_an_audit_that_is_not_signed_has_no_report_to_amend():
    bench = at_bench(until="move").bench
    payload = {"audit": bench.job.id, "why": WHY, "done_by": "T"}
    command = replace(bench.command("amend-report", payload), brought=b"x")
    with pytest.raises(Refused, match="addendum-not-signed"):
        bench.decide(command, ())


def test_the_replaced_one_is_had_again_byte_for_byte(bench, tmp_path, capsysbinary):
    pdf, short = bytes_of(bench, "pdf"), record_of(bench).opened.short
    amend(bench, pdf)
    bench.rows = 1
    put(data := tmp_path / "data", bench)
    audit = bench.state.last.id
    assert read(data, audit).sound
    arguments = ["report", short, "--data", str(data), "-o", "-"]
    assert main([*arguments, "--number", f"{short}-1"]) == 0
    assert capsysbinary.readouterr().out == pdf
    assert main([*arguments, "--as", "html", "--number", f"{short}-2"]) == 0
    assert f"Report {short}-2".encode() in capsysbinary.readouterr().out
    with LedgerView.open(data) as view:
        for ending, number, says in (
            ("pdf", f"{short}-3", f"no report {short}-3 of this audit. There are: {short}-1"),
        ):
            with pytest.raises(NoSuchReport) as none:
                report_of(view, audit, ending, language(), "9.9.0", number)
            assert says in en(none.value.said)
