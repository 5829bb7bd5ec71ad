"""Whole checks that are none of the head, by pressing what a phone shows, seen on the wall."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.daemon import Demo
from tests.browser.mill import see_number
from tests.browser.person import FIELDS, Finger
from tests.browser.screens import PHONE, Screens, part
from tests.system.test_checks import TRUE, UNSEEN_MM

LINES = {
    "Spindle run-out": ("runout", 10, "below the nose"),
    "Table along its travel": ("travel", 5, "X at 300.0 mm"),
    "Vise jaw along the travel": ("vise", 4, "75.0 mm from the left end"),
}

SHOWN = "Spindle run-out"
RESULTS = {"runout": 5, "travel": 2, "vise": 1}
"""How many figures come out."""


def compare(check: str, figures: list[str]) -> None:
    """With what is true; of a jaw, which stands as it was tapped, only the demo's mill knows."""
    if check != "vise":
        for figure, true in zip(figures, TRUE[check](None), strict=True):
            assert float(figure.split()[0]) == pytest.approx(true, abs=2.0 * UNSEEN_MM)


@pytest.mark.parametrize(
    "name", [SHOWN, *(pytest.param(n, marks=pytest.mark.long) for n in LINES if n != SHOWN)]
)
def test_a_check_by_what_the_phone_shows(demo: Demo, screens: Screens, name: str) -> None:
    check, stations, words = LINES[name]
    phone, wall = screens.phone(demo.address("console")), screens.wall(demo.address("wall"))
    person = Finger(phone, demo, demo)
    offered = phone.locator("[data-action=open]").all_inner_texts()
    assert {f"Check: {each}" in "\n".join(offered) for each in LINES} == {True}
    person.open(f"Check: {name}")

    def look(step: str) -> None:
        title = phone.locator("[data-part=title]").text_content() or ""
        expect(wall.locator("[data-part=title]")).to_have_text(title)
        if step == "stations":
            lines = phone.locator("[data-part=circle] li")
            expect(lines).to_have_count(stations)
            assert words in "\n".join(lines.all_inner_texts())
            expect(phone.locator("[data-part=circle] [aria-current=step]")).to_have_count(1)
            expect(wall.locator("[data-part=circle] [aria-current=step]")).to_have_count(1)
            see_number(wall, demo.face)
        assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]

    person.audit(look, until="sign")
    phone.locator("[data-part=numbers-head]").tap()
    tables = phone.locator("[data-part=numbers] table")
    assert tables.count() == RESULTS[check]
    assert phone.locator("[data-part=numbers] tr[data-cancels=true]").count() >= tables.count()
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]

    person.audit(look, until="signed")
    expect(wall.locator("[data-part=title]")).to_have_text(
        re.compile(rf"^{name}: inside\. Audit \S+ is signed\.$")
    )
    expect(wall.locator("[data-part=detail]")).to_contain_text(f"Done by {FIELDS['done_by']}.")
    figures = wall.locator(".figures .reading").all_text_contents()
    assert len(figures) == RESULTS[check]
    compare(check, figures)
    phone.goto(f"http://127.0.0.1:{demo.port}/")
    told = part(phone, "due")
    assert re.search(rf"{name}\s+Signed last on \S+ \(audit \S+\), inside", told)
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]

    screens.close()
    demo.stop()
    for action, says in (("verify", "sound"), ("recheck", "every decision comes out as recorded")):
        done = demo.ledger(action)
        assert (done.returncode, done.stdout.startswith(says)) == (0, True), done.stdout
