"""Every page held against the rules of axe-core, which are those of WCAG 2.2 A and AA and more.

axe-core comes with axe-playwright-python: https://github.com/dequelabs/axe-core
"""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

from daq.audit.state import Shop
from daq.service.listing import Listing
from daq.service.trends import Trends
from tests.audit.save_golden import audits
from tests.browser.plain import served
from tests.browser.screens import PHONE, WALL, Screens
from tests.patience import PATIENCE_S
from tests.records.conftest import data, many  # noqa: F401 - fixtures
from tests.records.in_memory import Shelf
from tests.thinned import case
from tests.web.conftest import LIVE, FakeHub, FakeInbox
from tests.web.scenes import MACHINE
from tests.web.test_pictures import Worn
from tests.web.test_records import Today
from web.tongue import COOKIE

TAGS = ("en", "es")
NOT_FOUND = r"Failed to load resource: .* 404 "


@pytest.fixture
def paths(
    many: Path,  # noqa: F811
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[list[str]]:
    """The address of every kind of page there is: of sixty audits, of one, of many years."""
    monkeypatch.setattr("daq.service.listing.AWAITED_S", PATIENCE_S)
    folder = tmp_path / "data"
    shutil.copytree(many, folder)
    listing, hub, made = Listing(folder, 1), FakeHub(), audits()
    listing.start()
    hub.number = LIVE
    trends = Trends({}, Shop(), Today(), folder)  # type: ignore[arg-type]
    shelf = Shelf(made)
    audit = shelf.audits[1]
    row = next(e.seq for e in made.events if e.audit == audit and e.type == "SweepDone")
    listed = ("/", "/records", "/records?gauge=G-1", "/machines/mill-1/records")
    of_one = (f"/records/{audit}", f"/records/{audit}/rows/{row}", f"/records/{audit}/play")
    of_machine = tuple(f"/machines/{MACHINE}{each}" for each in ("/wall", "/console", "/enough"))
    drawn = tuple(f"/machines/{MACHINE}/trend{each}" for each in ("", "/run-nod"))
    with (
        served(hub, FakeInbox(), trends=trends, listing=listing, on_record=shelf) as many_at,
        served(hub, FakeInbox(), trends=Worn(40), on_record=shelf) as worn_at,
    ):
        one, other = (at.partition("/machines/")[0] for at in (many_at, worn_at))
        yield [
            *(f"{one}{each}" for each in (*listed, *of_one, *of_machine, "/check", "/nowhere")),
            *(f"{other}{each}" for each in drawn),
        ]
    listing.stop()


@pytest.mark.parametrize(
    ("size", "tag"),
    [case([size, tag], size is PHONE and tag == "en") for size in (PHONE, WALL) for tag in TAGS],
)
def test_no_page_breaks_a_rule(
    screens: Screens, paths: list[str], size: dict[str, int], tag: str
) -> None:
    axe, broken = Axe(), {}
    # The rules are a script of the test's own, which a strict page would refuse.
    page = screens.open("about:blank", viewport=size, bypass_csp=True)
    page.context.add_cookies([{"name": COOKIE, "value": tag, "url": paths[0]}])
    with screens.allowing(NOT_FOUND):
        for path in paths:
            page.goto(path)
            assert page.get_attribute("html", "lang") == tag
            page.evaluate(
                "for (const each of document.querySelectorAll('details')) each.open = true"
            )
            found = axe.run(page).response["violations"]
            broken |= {(path, each["id"]): [n["html"] for n in each["nodes"]][:3] for each in found}
        screens.close()
    assert sorted(broken) == [], broken
