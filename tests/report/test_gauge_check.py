"""The certificate of a gauge's check: what stands on it, from the record alone."""

import dataclasses
import re

import pytest

from daq.audit.codec import encode
from daq.audit.gauge_events import BenchWork, BlocksUsed, GaugeChecked
from daq.audit.parts import CheckPoint
from daq.audit.shop_papers import ShopPapers
from daq.checks.gauge.plan import steps
from daq.checks.gauge.reduce import LengthRead, reduce
from daq.cli import parser
from daq.ledger import Ledger
from daq.metrology.budget import Term, combine
from daq.metrology.rule import Limits, Rule, judge
from daq.report.gauge_check import NoSuchCheck
from daq.words import Draft, Stamp, Trouble, said
from tests.words import troubled

KIT = "5f0c3a52-8f7e-4d6c-9f53-2f1f6f0a7c11"
BLOCKS = BlocksUsed("Bench set", "B-0032", "steel", "B-0032-26", "2026-02-09", "Own measuring room")
SHOP = ShopPapers("Two Rivers Practice Shop", "1 Mill Lane", time_zone="Europe/Berlin")


def a_check(state, errors, day, serial="P-0417", unit="mm", decimals=4):
    points = [
        LengthRead(s.nominal_mm, s.nominal_mm + errors[s.nominal_mm], s.direction)
        for s in steps(sorted(errors), down=True, repeats=2)
    ]
    found = reduce(points, 0.004)
    terms = (Term(said("term-blocks"), 0.00009, note=said("note-blocks")),
             Term(said("term-resolution"), 0.0004, note=said("note-of-two-digits")))  # fmt: skip
    budget = combine(terms)
    ruled = judge(found.span_mm, budget.u_mm, None, Limits(None, 0.004), Rule())
    work = BenchWork(
        "Practice gauge", SHOP, state, BLOCKS, 21.5, 5400.0, 0.0, 5.0, 12.7, 0.001, unit, decimals,
        0.0012, budget, ruled.word, ruled.ruling, guard_mm=ruled.guard_mm,
    )  # fmt: skip
    kept = tuple(CheckPoint(p.nominal_mm, p.read_mm, p.direction, 0.00004) for p in found.points)
    return GaugeChecked(
        "practice", serial, KIT, day, 0.004, kept, found.span_mm, found.repeatability_mm,
        found.hysteresis_mm, ruled.word == "in", said("gauge-checked"), work,
    )  # fmt: skip


FOUND = a_check("found", {0.0: 0.0, 1.0: 0.002, 5.0: 0.0093}, "2026-11-29")
LEFT = a_check("left", {0.0: 0.0, 1.0: 0.001, 5.0: -0.0012}, "2026-11-30")


@pytest.fixture
def data(tmp_path):
    folder, stamp = tmp_path / "data", Stamp(0, 1_796_000_000_000_000, "boot", True)
    checks = [dataclasses.replace(FOUND, work=None), FOUND, LEFT]
    drafts = [
        Draft(kind, version, "", "", stamp, KIT, {"kind": "gauge-check"}, body, ())
        for kind, version, body in map(encode, checks)
    ]
    with Ledger.open(folder, stamp=stamp) as ledger:
        ledger.append(drafts, [], {KIT: "Kit Marsh"})
    return folder


def certificate(data, out, *more):
    where = ("--gauge", "practice", "--data", str(data), "-o", str(out))
    args = parser().parse_args(["gauge", "certificate", *where, *more])
    assert args.act(args) == 0
    return out.read_bytes()


def plain(page):
    return " ".join(re.sub(r"<[^>]+>", " ", page.decode()).split())


def test_it_says_what_was_found_by_what_and_how_sure_that_is(data, tmp_path):
    page = plain(certificate(data, tmp_path / "c.html"))
    for each in (
        "Check of a gauge", "no accredited calibration", "Report G-4", "Two Rivers Practice Shop",
        "Practice gauge", "P-0417", "As left, after it was set", "Kit Marsh", "21.5 °C", "90 min",
        "0.000 to 5.000 of 12.700 mm", "Good", "B-0032-26", "2026-02-09", "Europe/Berlin",
        "as found on 2026-11-29 0.00400 mm 0.00930 mm",
        "as left on 2026-11-30 0.00400 mm 0.00220 mm", "± 0.00081 mm", "conforms",
        "does not conform", "Decision rule: Guarded", "The gauge blocks",
        "A zero pressed on a number that stands one count from zero",
        "From the lowest to the highest is 0.00220 mm; at most 0.0040 mm is allowed.",
        "Error over 0.2 mm, read from one side 0.0012 mm", "1.0000 mm +0.04 up 1.0010 mm +0.0010",
    ):  # fmt: skip
        assert each in page, each


def test_no_number_has_more_digits_than_it_is_worth(data, tmp_path):
    page = plain(certificate(data, tmp_path / "c.html"))
    record = page.index("The record this report is of")  # a hash may look like an exponent
    assert re.findall(r"\de-\d", page[:record].replace("11.5e-6", "")) == []
    assert re.findall(r"\d\.\d{6,} (?:mm|in)", page) == []


def test_the_same_record_gives_the_same_bytes_and_any_row_its_own(data, tmp_path):
    assert certificate(data, tmp_path / "a.html") == certificate(data, tmp_path / "b.html")
    page = plain(certificate(data, tmp_path / "c.html", "--row", "3"))
    assert "Not good" in page
    assert "As found" in page
    assert "as left" not in page


def test_it_is_printed_by_the_reports_own_layout(data, tmp_path):
    assert certificate(data, tmp_path / "c.pdf").startswith(b"%PDF-")


def test_what_there_is_none_of_is_told(data, tmp_path):
    with troubled(NoSuchCheck, match=r"No check of the gauge practice .* Rows of such: 3, 4\."):
        certificate(data, tmp_path / "c.html", "--row", "2")
    with pytest.raises(Trouble, match=r"c\.docx'; allowed: a name that ends in \.pdf, \.html"):
        certificate(data, tmp_path / "c.docx")
