"""The PDF as poppler reads it: what stands on its pages, and that nothing is cut off."""

import re
import shutil
import subprocess

import pytest

from daq.report.typeset import typeset
from tests.audit.conftest import setup_of
from tests.report.benches import at_bench, bytes_of, papered, record_of, signed

NAMES = {"T": "Ada Stone", "R": "Kit Marsh"}
HOSTILE = '#panic("no") *b* _i_ $x$ <a> @x = y \\ [ ] "q" // /* `r` =1+1 <script>alert(1)</script>'
LONG = "Verylongname" * 14
WORD = re.compile(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">')
PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">')
MARGIN_PT = 40.0
"""Less than the margin that the layout keeps, points."""


@pytest.fixture(scope="module", autouse=True)
def poppler():
    assert shutil.which("pdftotext"), "poppler-utils is not installed"


@pytest.fixture
def text(tmp_path):
    """The text of a PDF, a page each."""

    def read(pdf, *options):
        path = tmp_path / "report.pdf"
        path.write_bytes(pdf)
        command = ["pdftotext", *(options or ("-layout",)), str(path), "-"]
        out = subprocess.run(command, capture_output=True, check=True, text=True).stdout
        out = out.replace("\u200b", "")  # where a word far too long may be broken
        return out if options else out.split("\f")[:-1]

    return read


@pytest.fixture(scope="module")
def bench():
    return signed(reviewed_by="R", note="Seen by both.")


def spaced(page):
    return " ".join(page.split())


def test_the_first_page_has_what_whoever_asked_for_it_looks_for(bench, text):
    first, *rest = map(spaced, text(bytes_of(bench, "pdf", NAMES)))
    record = record_of(bench)
    for each in (
        "Squareness check", "This is no calibration certificate.",
        f"Report {record.opened.short}-1", f"page 1 of {len(rest) + 1}",
        "Two Rivers Practice Shop", "1 Mill Lane", "Mill", "A-0012", "Bay 3", "Own use",
        "Europe/Berlin", "WI-17 rev C", "Scheduled", "Conforms",
        "P-1", "C-1204", "Own measuring room", "2026-01-01", "2028-01-01",
        "As found", "As left", "k = ", "Decision rule: Guarded", "95 %", "Nod (guard 0.00",
        "when the audit was opened", "2026-01-05", "held and measured again", "Ada Stone",
        "Done by", "Reviewed by", "Kit Marsh", f"row {record.closed.seq}",
        "static, unloaded, at one position of the table",
        "nothing of run-out, table travel, quill or knee", "headsweep 9.9.0",
    ):  # fmt: skip
        assert each in first, each


def test_the_pages_after_it_have_everything(bench, text):
    record = record_of(bench)
    *_, last = pages = [spaced(page) for page in text(bytes_of(bench, "pdf", NAMES))]
    every = " ".join(pages)
    for n, page in enumerate(pages, 1):
        assert f"page {n} of {len(pages)}" in page
    assert f"End of report {record.opened.short}-1" in last
    assert every.count("End of report") == 1
    for row in record.rows:
        assert row.kept.hash[:16] in every
    for each in (record.last.hash, record.audit, "ab" * 32, "Seen by both.", "Uncertainty, term"):
        assert each in every.replace(" ", "") or each in every


def test_a_name_or_a_note_is_never_read_as_markup(text):
    setup = papered(setup_of(nod_pivot=150.0), name=HOSTILE, asset=HOSTILE, place=HOSTILE)
    names = {"T": HOSTILE}
    pdf = bytes_of(signed(at_bench(setup=setup), note=HOSTILE, disposition=HOSTILE), "pdf", names)
    every = "".join("".join(text(pdf)).split())
    assert every.count("".join(HOSTILE.split())) >= 4


def outside(bbox):
    """Every word that reaches past its page's margins."""
    found, width = [], 0.0
    for line in bbox.splitlines():
        if page := PAGE.search(line):
            width = float(page[1])
        if (word := WORD.search(line)) and not (
            float(word[1]) >= MARGIN_PT and float(word[3]) <= width - MARGIN_PT
        ):
            found.append(line.strip())
    return found


@pytest.mark.parametrize("paper", ["A4", pytest.param("Letter", marks=pytest.mark.long)])
def test_nothing_is_cut_off_however_much_there_is(text, paper):
    """Twelve sweeps, forty addenda, and every name and note far too long."""
    from dataclasses import replace

    setup = papered(setup_of(nod_pivot=150.0), name=LONG, asset=LONG, place=LONG, customer=LONG)
    setup = replace(setup, shop=replace(setup.shop, paper=paper, address=LONG, method=LONG))
    worker = at_bench(0.001, 0.001, setup=setup, until="clear")
    for n in range(11):
        worker.bench.do("again", {"why": f"{LONG} {n}"})
        worker.work("clear")
    worker.bench.do("cleared")
    bench = signed(worker, note=LONG * 3, disposition=LONG * 4)
    for n in range(40):
        more = {"audit": bench.state.last.id, "kind": "finding", "done_by": "T"}
        bench.do("add-to-signed", {**more, "text": f"Note {n}: {LONG[:150]}"})
    pdf = bytes_of(bench, "pdf", {"T": LONG})
    bbox = text(pdf, "-bbox")
    assert outside(bbox) == []
    first, second, *rest = map(spaced, text(pdf))
    assert len(rest) < 20, "a column was left without room"
    assert "static, unloaded" in first and "Remarks" in second
    assert all(f"Note {n}:" in " ".join((second, *rest)) for n in range(40))
    size = "595" if paper == "A4" else "612"
    assert f'<page width="{size}' in bbox


@pytest.mark.parametrize(
    ("worker", "mark"),
    [
        (lambda: at_bench(until="move"), "NOT SIGNED: a draft"),
        (lambda: at_bench(reason="practice", until="as-found"), "PRACTICE"),
    ],
)
def test_a_draft_and_practice_are_marked_on_every_page(text, worker, mark):
    pages = text(bytes_of(worker().bench, "pdf"))
    assert pages and all(mark in spaced(page) for page in pages)


def test_what_cannot_be_set_is_told_in_the_typesetters_words():
    with pytest.raises(RuntimeError, match=r"the report cannot be set: .*unclosed"):
        typeset(b"#let x = (", {}, 0)
