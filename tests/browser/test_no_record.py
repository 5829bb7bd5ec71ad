"""Why there is no record can be read on wall and phone, and nothing there can be pressed."""

from pathlib import Path

import pytest
from playwright.sync_api import expect

from daq.ledger.errors import of_file
from daq.says import language
from daq.screens.no_record import _BECAUSE, no_record
from daq.words import Said, Snapshot, said
from tests.browser import reading
from tests.browser.screens import WALL, Screens
from tests.web.acts import MACHINE
from tests.web.conftest import FakeHub

REASONS = (*sorted({code: why for why, code in _BECAUSE.items()}.values()), "sqlite-too-old")


def shown(code: str) -> Snapshot:
    of = {"kind": "tmpfs", "found": "1", "oldest": "2"} | {"known": "k", "log": "l", "reads": "1"}
    of |= {"fault": "the file is damaged", "file": "access.json", "why": "JSONDecodeError"}
    why = of_file(Path("/srv/headsweep-record/ledger.db"), Said(code, of))
    told = language().told(no_record("Practice mill", why))
    say = language().told(said("recording-failed", why=why))
    return Snapshot(MACHINE, 0, "", told, (), {"ok": False, "say": say})


@pytest.mark.parametrize("kind", ["wall", "console"])
def test_why_there_is_no_record_can_be_read(
    screens: Screens, hub: FakeHub, address: str, kind: str
) -> None:
    wall, at = kind == "wall", f"{address}/{kind}"
    page = screens.open(at, viewport=WALL) if wall else screens.phone(at)
    flaws = []
    for code in REASONS:
        snapshot = shown(code)
        hub.publish(None, snapshot)
        expect(page.locator("[data-part=title]")).to_have_text(snapshot.pages[kind]["title"])
        found = reading.clipped(page)
        if wall:
            found += reading.out_of_view(page)
        elif reading.measure(page, "beyondRight") > 0:
            found.append("wider than the screen")
        expect(page.locator("[data-part=actions] button")).to_have_count(0)
        flaws += [f"{code}: {flaw}" for flaw in found]
    assert not flaws, "\n".join(flaws)
