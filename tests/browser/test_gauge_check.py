"""The check of a gauge on a phone while the service runs: from the PIN to the certificate."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from daq.app import service
from daq.service.clock import SystemClock
from daq.service.files import load
from daq.service.gauge_bench import GaugeBench
from daq.service.rights.access import Access
from tests.browser.plain import served
from tests.browser.screens import PHONE, Screens
from tests.browser.test_set_up_page import looked_at_as_it_is
from tests.entry import PIN, enrolled, ticket
from tests.patience import until
from tests.system.shop import Shop
from tests.system.ttygauge import TtyGauge

ASKED = re.compile(r"\d+ of 6: .*?(?:the (\S+) mm block|surface)")


@pytest.fixture
def shop(tmp_path) -> Shop:
    return Shop(tmp_path)


@pytest.fixture
def gauge(shop) -> Iterator[TtyGauge]:
    with TtyGauge(shop.tty) as talking:
        yield talking


@pytest.fixture
def site(shop, gauge) -> Iterator[str]:
    """A whole service, its pages, and somebody who may set up."""
    files = load(shop.config)
    with service(files, shop.data) as running:
        enrolled(shop.data, "Kit Marsh", "set-up")
        readers, state = running.setup.readers, lambda: running.setup.shop
        bench = GaugeBench(shop.config, files, readers, state, running.inbox, SystemClock())
        until(lambda: readers["practice"].status.code == "ok")
        there = {"setup": running.setup, "on_record": running.on_record, "bench": bench}
        access = Access(shop.data, SystemClock())
        with served(running.hub, running.inbox, access=access, **there) as found:
            yield found.partition("/machines")[0]


def begin(page: Page, pin: str = PIN) -> None:
    page.locator("[name=temperature]").fill("21 °C")
    page.locator("[name=rested]").fill("2 h")
    page.locator("summary").click()
    page.locator("[name=lengths]").fill("0 mm, 1 mm")
    page.locator("[name=person]").fill("Kit Marsh")
    page.locator("[name=pin]").fill(pin)
    page.locator("[type=submit]").click()


def walked(page: Page, gauge: TtyGauge) -> None:
    """Put each block under the contact that is asked for, and press."""
    ask = page.locator("[data-part=ask]")
    for n in range(1, 7):
        expect(ask).to_have_text(re.compile(rf"^{n} of 6"))
        length = float(ASKED.search(ask.inner_text())[1] or 0.0)
        gauge.move_to(round(0.25 + length, 3))
        expect(page.locator("[data-part=number]")).to_have_text(f"{0.25 + length:+08.3f} mm")
        page.get_by_role("button", name="Read it").click()
    expect(ask).to_have_text("Record this?")


@pytest.mark.parametrize("whole", [False, pytest.param(True, marks=pytest.mark.long)])
def test_a_technician_is_led_through_on_a_phone(site, screens: Screens, shop, gauge, whole):
    """`site` comes first: the screen, which asks again and again, is closed before it."""
    page = screens.open("about:blank", viewport=PHONE, bypass_csp=True)
    assert page.goto(f"{site}/own?ticket={ticket(shop.data)}").ok
    page.goto(f"{site}/setup")
    page.get_by_role("link", name="Check this gauge with blocks").click()
    begin(page)
    expect(page.locator("[data-part=ask]")).to_have_text(re.compile("^1 of 6: set the contact"))
    assert looked_at_as_it_is(page) == {}
    if not whole:
        page.get_by_role("button", name="Leave the check").click()
        expect(page.locator("[data-part=said]")).to_have_text("Nothing is recorded: you left.")
        expect(page.locator("[data-part=begin]")).to_be_visible()
        return
    walked(page, gauge)
    expect(page.locator("[data-part=said]")).to_contain_text("Good: its errors span")
    expect(page.locator("[data-part=lines] tr")).to_have_count(6)
    assert looked_at_as_it_is(page) == {}
    page.get_by_role("button", name="Record it").click()
    paper = page.get_by_role("link", name="Its certificate (PDF)")
    expect(paper).to_be_visible()
    answer = page.request.get(f"{site}{paper.get_attribute('href')}")
    assert answer.ok and answer.body().startswith(b"%PDF-")
    expect(page.locator("[data-part=face]")).to_be_hidden()
    expect(page.locator("[data-part=said]")).to_contain_text("Good: its errors span")
