"""Every component of the screens in every state there is, on one page that only tests serve."""

import datetime
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache, partial
from pathlib import Path
from typing import Any

import pytest
from flask import Blueprint, render_template
from flask.blueprints import BlueprintSetupState
from playwright.sync_api import Browser, Page, ViewportSize

from daq.gauges.config import read
from daq.gauges.errors import LinkError
from daq.gauges.link import Link
from daq.ledger.room import room
from daq.says import language
from daq.service import fitness
from daq.service.takes import HOLD_STILL
from daq.service.turns import STILL_NS
from daq.words import GaugeStatus, Live, Snapshot, said
from tests.browser import reading
from tests.browser.plain import served
from tests.browser.screens import DRESSED, Screens, resize
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.scenes import MACHINE, SITUATIONS, Screen, made, view
from tests.words import en
from web.rights import needs
from web.rooms import machine_or_404

CSS = Path(__file__).parents[2] / "web" / "static" / "css"
PRACTICE = Path(__file__).parents[2] / "config" / "gauges" / "practice.toml"
WIDTHS = (
    ViewportSize(width=390, height=844),
    ViewportSize(width=1280, height=800),
    ViewportSize(width=1920, height=1080),
)
STATE = re.compile(r'\[data-(state|word|kind|way|shape|only|halted|cancels)="([\w-]*)"\]')
PAST_MM = (-0.167, 0.0, 0.014)
"""Before the stop-at, at it, and beyond it."""
TODAY = datetime.date(2030, 1, 1)
"""Long after the practice gauge's calibration was due."""

components = Blueprint(
    "components", __name__, template_folder="components", static_folder="components"
)


@components.record
def drawn_by_anybody(state: BlueprintSetupState) -> None:
    """Its files are open to whoever comes, as those of the pages are."""
    files = needs("open")(partial(components.send_static_file))
    state.app.view_functions[f"{components.name}.static"] = files


@components.get("/every/<kind>")
@needs("look")
def every(kind: str) -> str:
    """All of them, as the wall or the console draws them."""
    return render_template("all.html", kind=kind, cards=told(kind), machine=machine_or_404(MACHINE))


@cache
def told(kind: str) -> list[Any]:
    """The cards in words."""
    return [language().told(card) for card in all_of(kind)]


def card(
    kind: str, name: str, snapshot: Snapshot, live: Live | None, **more: Any
) -> dict[str, Any]:
    """One state, ready to be drawn; the number stays live for as long as it is looked at."""
    given = {"settling": False, "cut": "", "said": snapshot.said, **more}
    kept = replace(live, fresh_for_ms=None) if live is not None else None
    return {"name": name, "snapshot": snapshot, "view": snapshot.pages[kind], "live": kept, **given}


def all_of(kind: str) -> Iterator[dict[str, Any]]:
    """Every situation with its number, then what may befall the line, the gauge and a press."""
    for name in SITUATIONS:
        shown = Screen(made(name))
        snapshot = shown.publish()
        if not (view(name)["stop_at"] or view(name)["bolts"]):
            yield card(kind, name, snapshot, shown.reads(1.204))
            continue
        for past_mm in PAST_MM:
            live = shown.reads(shown.aim.stop_face_mm + past_mm)
            yield card(kind, f"{name} {past_mm:+}", snapshot, live)
    yield from befallen(kind)


def befallen(kind: str) -> Iterator[dict[str, Any]]:
    """What the hub tells of a gauge, of a press and of the recording, and a page of its line."""
    shown = Screen(made("move"))
    snapshot = shown.publish()
    yield card(kind, "as it comes", snapshot, None, waiting=True)
    yield card(kind, "no gauge yet", snapshot, shown.hub.live(MACHINE))
    live = shown.reads(1.234)
    yield card(kind, "hold still", snapshot, live, settling=True)
    creeps = shown.aim.against(shown.aim.stop_face_mm, been=True, creeps_s=40.0)
    yield card(kind, "it creeps", snapshot, replace(live, against=creeps))
    yield card(kind, "count-down", snapshot, live, counting=en(said("let-go")))
    between = en(said("came-between", what=said("step-changed")))
    for outcome, say in (("stale", between), ("unreached", en(said("unreached")))):
        pressed = {"outcome": outcome, "say": say}
        yield card(kind, outcome, snapshot, live, said=pressed)
    yield card(kind, "cut", snapshot, live, cut=en(said("no-connection")))
    yield card(kind, "crowded", snapshot, live, cut=en(said("too-many-screens")))
    shown.hub.tell(MACHINE, "wait", HOLD_STILL)
    yield card(kind, "told to wait", shown.hub.snapshot(MACHINE), live)
    shown.hub.tell(MACHINE, "taken", said("was-taken", value="1.234"))
    yield card(kind, "taken", shown.hub.snapshot(MACHINE), live)
    shown.hub.refuse(MACHINE, "take", said("off-contact", at="front", reads="0.000"))
    yield card(kind, "refused", shown.hub.snapshot(MACHINE), live)
    gauge = read(PRACTICE)
    warned = fitness.warnings(gauge, None, TODAY)
    yield card(kind, "warned", replace(snapshot, faults=warned), live)
    full = {"ok": False, "say": room(Path("/"), 10**18).say}
    yield card(kind, "disk full", replace(snapshot, recording=full), live)
    with pytest.raises(LinkError) as gone:
        Link(gauge.line, "gone", 0.1)
    say = gone.value.of(gauge.name)
    shown.hub.on_status(GaugeStatus(shown.gauge, gone.value.code, say, "run-1", 9, 0, shown.ns))
    run, n = shown.hub.lost(shown.gauge) or ("", 0)
    fault = {"code": gone.value.code, "say": say, "run": run, "n": n}
    away = replace(snapshot, faults=(fault,))
    yield card(kind, "unplugged", away, shown.hub.live(MACHINE))
    shown.ns += STILL_NS
    yield card(kind, "recording silent", shown.hub.snapshot(MACHINE), live)
    keyed = Screen(made("move"), keyed=True)
    snapshot = keyed.publish()
    yield card(kind, "key not pressed yet", snapshot, keyed.hub.live(MACHINE))
    yield card(kind, "sent by its key", snapshot, keyed.reads(1.234))


@pytest.fixture
def address(hub: FakeHub, inbox: FakeInbox) -> Iterator[str]:
    """Where the page is found, whichever kind."""
    with served(hub, inbox, components) as found:
        yield f"{found.split('/machines/')[0]}/every"


def opened(screens: Screens, address: str, kind: str, viewport: ViewportSize) -> Page:
    page = screens.open(f"{address}/{kind}", viewport=viewport)
    page.wait_for_selector("body[data-drawn]")
    return page


@pytest.mark.parametrize("kind", ["wall", "console"])
@pytest.mark.parametrize("style", DRESSED)
def test_every_state_is_there_and_nothing_is_cut_off_or_wider_than_its_screen(
    browser: Browser, address: str, kind: str, style: str
) -> None:
    screens = Screens(browser, style)
    page = opened(screens, address, kind, WIDTHS[0])
    flaws = {f"in no card: {state}" for state in unseen(page, kind)}
    for viewport in WIDTHS:
        resize(page, viewport)
        flaws |= {f"{viewport['width']}: {flaw}" for flaw in reading.measure(page, "clipped")}
        if reading.measure(page, "beyondRight") > 0:
            flaws.add(f"{viewport['width']}: wider than the screen")
    resize(page, WIDTHS[0])
    screens.close()
    assert sorted(flaws) == [], "\n".join(sorted(flaws))
    assert screens.wrong == []


def unseen(page: Page, kind: str) -> list[str]:
    """The states that the style sheets know and no card has."""
    styled = {
        found
        for name in ("step", kind)
        for found in STATE.findall((CSS / f"{name}.css").read_text(encoding="utf-8"))
    }
    wanted = [f'data-{name}="{value}"' for name, value in sorted(styled)]
    assert wanted
    found: list[str] = page.evaluate(
        "wanted => wanted.filter(each => !document.querySelector(`article [${each}]`))", wanted
    )
    return found
