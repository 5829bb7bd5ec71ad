"""A report as a browser shows it, under the policy it is served with, and as it prints it."""

import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from daq.service.on_record import OnRecord
from tests.audit.save_golden import put
from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens, resize
from tests.report.benches import signed
from tests.report.test_pdf import outside
from tests.web.conftest import FakeHub, FakeInbox

DESK = {"width": 1280, "height": 800}


@pytest.fixture
def at(hub: FakeHub, inbox: FakeInbox, tmp_path: Path) -> Iterator[str]:
    """Where a report with all its papers is found."""
    bench = signed(reviewed_by="R", note="Seen by both, and filed with the job.")
    put(tmp_path / "data", bench)
    with served(hub, inbox, on_record=OnRecord(tmp_path / "data")) as address:
        audit = bench.state.last.id
        yield f"{address.partition('/machines/')[0]}/records/{audit}/report.html"


def test_a_report_is_read_at_every_width_and_its_first_page_prints_as_one(
    screens: Screens, at: str, tmp_path: Path
) -> None:
    page = screens.open("about:blank", viewport=PHONE)
    page.goto(at)
    assert page.locator("h1").evaluate("node => getComputedStyle(node).fontSize") == "32px"
    for size in (PHONE, DESK, WALL):
        resize(page, size)
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
        assert reading.faint(page) == []
    assert reading.nameless(page) == []
    pdf = tmp_path / "printed.pdf"
    pdf.write_bytes(page.pdf(prefer_css_page_size=True))
    first, second, *_ = read(pdf, "-layout").split("\f")
    assert "static, unloaded" in " ".join(first.split()) and "Remarks" in second
    assert outside(read(pdf, "-bbox")) == []


def read(pdf: Path, how: str) -> str:
    command = ["pdftotext", how, str(pdf), "-"]
    return subprocess.run(command, capture_output=True, check=True, text=True).stdout
