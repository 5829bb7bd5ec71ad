"""CSV, spreadsheet and JSON, read back by others' programs and held against the ledger."""

import io
import json

import jsonschema
import openpyxl
import pandas
import pytest

from daq.audit import evidence
from daq.ledger.view import LedgerView
from daq.report.cells import cell
from daq.report.schema import report_schema
from tests.audit.conftest import setup_of
from tests.report.benches import at_bench, bytes_of, papered, record_of, signed

FORMULAS = ("=1+1", "+SUM(A1)", "-cmd|' /C calc'!A0", "@SUM(A1)", "\t=1")


def frame(made):
    return pandas.read_csv(io.BytesIO(made), keep_default_na=False)


def test_one_line_of_the_csv_is_one_reading_of_the_ledger(report, records):
    found = frame(report("csv"))
    ledger = records[0].readings
    assert list(found["row"]) == [each.row.seq for each in ledger]
    assert list(found["mean_mm"]) == [each.reading.mean_mm for each in ledger]
    assert list(found["sd_mm"]) == [each.reading.sd_mm for each in ledger]
    assert list(found["count"]) == [each.reading.count for each in ledger]
    assert list(found["evidence"]) == [each.reading.evidence for each in ledger]
    back = [str(each.row.voided_by or "") for each in ledger]
    assert [str(each) for each in found["taken_back_by"]] == back


def test_one_line_of_the_samples_is_one_sample_with_its_place(report, records, data):
    found = frame(report("samples.csv"))
    digests = dict.fromkeys(each for row in records[0].rows for each in row.event.evidence)
    with LedgerView.open(data) as view:
        ledger = [s for each in digests for s in evidence.decode(view.chunk(each))]
    assert list(found["value_mm"]) == [each.value_mm for each in ledger]
    assert list(found["n"]) == [each.n for each in ledger]
    assert list(found["raw"].map(str)) == [each.raw.hex() for each in ledger]
    for each in records[0].readings:
        mine = found[(found["row"] == each.row.seq) & (found["used"] == "yes")]
        if len(mine):
            assert len(mine) == each.reading.count
            assert mine["value_mm"].mean() == pytest.approx(each.reading.mean_mm, abs=1e-12)
            assert set(mine["position"]) <= {each.reading.position or "", "front", "right"}


def test_the_spreadsheet_has_the_ledgers_numbers(report, records):
    book = openpyxl.load_workbook(io.BytesIO(report("xlsx")))
    assert book.sheetnames == ["summary", "readings", "rows", "budget"]
    head, *lines = book["readings"].iter_rows(values_only=True)
    read = [dict(zip(head, line, strict=False)) for line in lines]
    ledger = records[0].readings
    exact = [each.reading.mean_mm for each in ledger]
    assert [each["mean_mm"] for each in read] == pytest.approx(exact, rel=1e-15, abs=0.0)
    assert [each["row"] for each in read] == [each.row.seq for each in ledger]
    rows = list(book["rows"].iter_rows(min_row=2, values_only=True))
    assert [each[1] for each in rows] == [row.kept.hash for row in records[0].rows]
    assert book.properties.keywords.startswith("headsweep-anchor:")


def test_the_json_report_is_of_the_published_form(report):
    schema = report_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    found = json.loads(report("json"))
    jsonschema.validate(found, schema, cls=jsonschema.Draft202012Validator)
    del found["verdict"]
    with pytest.raises(jsonschema.ValidationError, match="verdict"):
        jsonschema.validate(found, schema, cls=jsonschema.Draft202012Validator)


def test_results_are_those_on_record(report, records):
    found, signed_ = json.loads(report("json", 1)), records[1].signed
    numbers = {each.number: each for _, each in records[1].sweeps}
    left = next(each.number for each in signed_.sweeps if each.as_left)
    for pair in found["results"]:
        axis, budget = pair["key"], numbers[left].budgets[pair["key"]]
        assert pair["as_found"]["value_mm"] == signed_.as_found[axis].error_mm
        assert pair["as_left"]["value_mm"] == signed_.as_left[axis].error_mm
        assert pair["as_left"]["expanded_mm"] == budget.expanded_mm
        assert (pair["as_left"]["k"], pair["as_left"]["verdict"]) == (
            budget.k,
            signed_.as_left[axis].word,
        )
        for side in ("as_found", "as_left"):
            shown = [pair[side][f"shown_{each}"] for each in ("value", "expanded", "limit")]
            places = {len(each.split()[0].partition(".")[2]) for each in shown}
            assert len(places) == 1, f"not to the same place: {shown}"


def test_a_later_version_says_the_same_and_names_itself(report):
    now, later = (json.loads(report("json", version=each)) for each in ("9.9.0", "10.0.0"))
    assert (now.pop("made_by"), later.pop("made_by")) == ("headsweep 9.9.0", "headsweep 10.0.0")
    assert now == later


def test_no_text_becomes_a_formula():
    """A spreadsheet takes what begins so for one (OWASP, CSV injection)."""
    gauge, name, note, person, place = FORMULAS
    setup = papered(setup_of(nod_pivot=150.0, gauge=gauge), name=name, place=place)
    bench = signed(at_bench(setup=setup), note=note)
    book = openpyxl.load_workbook(io.BytesIO(bytes_of(bench, "xlsx", {"T": person})))
    cells = [each for sheet in book for row in sheet.iter_rows() for each in row]
    assert {each.data_type for each in cells} <= {"s", "n"}
    there = {str(each.value).strip() for each in cells}
    assert {each.strip() for each in FORMULAS} <= there
    found = frame(bytes_of(bench, "csv"))
    assert set(found["gauge"]) == {f"'{gauge}"}
    assert len(found) == len(record_of(bench).readings)


@pytest.mark.parametrize("text", FORMULAS)
def test_a_cell_of_a_csv_is_no_formula_and_a_number_stays_one(text):
    assert cell(text) == f"'{text}"
    assert (cell("-0.060"), cell(-0.06), cell("P-1"), cell(None)) == ("-0.060", "-0.06", "P-1", "")


def test_a_page_is_one_file_without_a_script_and_every_text_is_escaped():
    text = "<script>alert(1)</script>\"'&"
    setup = papered(setup_of(nod_pivot=150.0), name=text)
    page = bytes_of(signed(at_bench(setup=setup), note=text), "html", {"T": text}).decode()
    assert "<script" not in page and "http" not in page.replace("http-equiv", "").replace(
        "http://www.w3.org/2000/svg", ""
    )
    assert (
        " style=" not in page
        and " on" + "click" not in page
        and "src=" not in page.split("</head>")[1]
    )
    assert page.count("&lt;script&gt;") >= 4
