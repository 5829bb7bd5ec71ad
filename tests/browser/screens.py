"""Real browser screens that tolerate nothing unexpected: no error, no stranger."""

import json
import re
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import (
    Browser,
    ConsoleMessage,
    Page,
    Playwright,
    Request,
    ViewportSize,
    WebError,
)

from tests.patience import PATIENCE_S

BROWSERS = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
"""The first has no windows of its own, which is a sixth of what a screen costs."""
ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
DESKTOP = ViewportSize(width=1440, height=900)
WALL = ViewportSize(width=1920, height=1080)
PHONE = ViewportSize(width=390, height=844)
WIDE_TYPE = "* { letter-spacing: 0.14em !important }"
"""Stands in for the widest font a machine may fall back to, and needs no font to be there: its
bold figures are 0.70 em wide, those of the font asked for first 0.56 em (measured)."""
DRESS = """
const sheet = new CSSStyleSheet();
sheet.replaceSync(%s);
document.adoptedStyleSheets = [sheet];
"""
FONTS = {"own-font": "", "wide-font": WIDE_TYPE}
"""What a page is read in: this machine's own font, and one as wide as any."""
DRESSED = tuple(
    pytest.param(style, id=name, marks=() if style else pytest.mark.long)
    for name, style in FONTS.items()
)
"""What fits in the wide one fits in most: the other is for the long run."""
STILL = {"reduced_motion": "reduce"}
"""Nothing moves for show: no test waits for it, and what it draws costs every screen."""
BOUNCE_MS = 350
"""A pedal bounces: the page takes no second press for 0.3 s, and shows nothing of it."""
LATER = """ms => {
  const now = performance.now.bind(performance);
  performance.now = () => now() + ms;
}"""
DRAWN_IN = """size => new Promise((drawn) => {
  const look = () => innerWidth === size.width ? drawn() : requestAnimationFrame(look);
  requestAnimationFrame(look);
})"""
"""A page hears of its new size before the frame that is drawn in it."""
CUT = r"Failed to load resource: net::ERR_(CONNECTION_\w+|EMPTY_RESPONSE|INCOMPLETE_CHUNKED\w+)"
"""What a browser says of a service that is away."""
GIVEN_UP = "net::ERR_ABORTED"
"""What a browser says of a line that the page itself let go, such as a stream opened anew."""


def launch(playwright: Playwright) -> Browser:
    """Start the first browser found on this machine, with a user folder of its own."""
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    assert found, f"found no browser; allowed: one of {', '.join(BROWSERS)}"
    return playwright.chromium.launch(executable_path=found, headless=True, args=list(ARGUMENTS))


_kept: dict[Any, Page] = {}
"""Of each browser, in each dress and kind: a window that is done with, with nothing open in it.

A new window is a new process that has seen no page: that costs more than most a test does in it.
"""


class Screens:
    """Opens pages, each as a person's screen, and remembers what went wrong on any."""

    def __init__(self, browser: Browser, style: str = "") -> None:
        self._browser = browser
        self.style = style
        self._windows: dict[Page, Any] = {}
        self._allowed: list[str] = []
        self._closing = False
        self.wrong: list[str] = []

    def wall(self, address: str, **more: Any) -> Page:
        return self.open(address, viewport=WALL, **more)

    def phone(self, address: str, **more: Any) -> Page:
        return self.open(address, viewport=PHONE, has_touch=True, is_mobile=True, **more)

    def open(self, address: str, **options: Any) -> Page:
        """Open a page in a window of its own and wait until its number, if any, is live.

        Nothing moves on it for show, unless `reduced_motion` says otherwise.
        """
        page = self._window(STILL | options)
        for event, told in self._told().items():
            page.context.on(event, told)
        page.goto(address)
        if page.locator("[data-part=alive]").count():
            page.wait_for_selector("[data-part=alive][data-state=live]")
        return page

    def _window(self, options: Mapping[str, Any]) -> Page:
        kind = (self._browser, self.style, repr(sorted(options.items())))
        page = _kept.pop(kind, None)
        if page is None:
            context = self._browser.new_context(**options)
            context.set_default_timeout(1000.0 * PATIENCE_S)
            if self.style:
                context.add_init_script(DRESS % json.dumps(self.style))
            page = context.new_page()
        elif "viewport" in options:  # whoever had it may have made it another size
            page.set_viewport_size(options["viewport"])
        self._windows[page] = kind
        return page

    def _told(self) -> Mapping[Any, Callable[[Any], None]]:
        return {
            "request": self._on_request,
            "console": self._on_console,
            "weberror": self._on_error,
            "requestfailed": self._on_failed,
        }

    def clock(self, page: Page) -> None:
        """Give a page a clock of its own; a window with one is not used again."""
        page.clock.install()
        self._windows[page] = None

    @contextmanager
    def allowing(self, pattern: str) -> Iterator[None]:
        """The browser's own remark on an answer or a line that is meant to fail."""
        self._allowed.append(pattern)
        try:
            yield
        finally:
            self._allowed.remove(pattern)

    @contextmanager
    def refusing(self, page: Page, status: str) -> Iterator[None]:
        """The browser's own remark on an answer with this status, which `page` gets.

        The remark comes with the answer, which may be after all that was looked at elsewhere:
        it is waited for.
        """
        said = re.compile(rf".* {status} \(")
        with (
            self.allowing(said.pattern),
            page.expect_console_message(lambda message: bool(said.match(message.text))),
        ):
            yield

    def close(self) -> None:
        """Leave every page; what is cut off by that is no fault of a page."""
        self._closing = True
        while self._windows:
            page, kind = self._windows.popitem()
            if kind is None or kind in _kept:
                page.context.close()
                continue
            page.unroute_all(behavior="ignoreErrors")
            page.mouse.move(0, 0)
            page.goto("about:blank")
            page.context.clear_cookies()
            for event, told in self._told().items():
                page.context.remove_listener(event, told)
            _kept[kind] = page

    def _on_request(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme in ("http", "https", "ws") and address.hostname not in (
            "127.0.0.1",
            "localhost",
        ):
            self.wrong.append(f"asked a stranger: {request.url}")

    def _on_error(self, error: WebError) -> None:
        self.wrong.append(f"page error: {error.error}")

    def _on_console(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self._note(f"{message.type} on the console: ", message.text)

    def _on_failed(self, request: Request) -> None:
        if not self._closing and request.failure != GIVEN_UP:
            self._note(f"{request.url}: ", f"Failed to load resource: {request.failure}")

    def _note(self, head: str, text: str) -> None:
        if not any(re.match(pattern, text) for pattern in self._allowed):
            self.wrong.append(head + text)


def resize(page: Page, size: ViewportSize) -> None:
    """Give a window another size, and wait until its page is drawn in it."""
    page.set_viewport_size(size)
    page.evaluate(DRAWN_IN, size)


def later(page: Page, ms: int) -> None:
    """Put the page's own clock on."""
    page.evaluate(LATER, ms)


def part(page: Page, name: str) -> str:
    """The text of one part of a page, as shown."""
    return page.locator(f"[data-part={name}]").inner_text().strip()


def shown_mm(page: Page) -> float | None:
    """The live number as it stands on a screen, or None when there is none."""
    text = part(page, "digits")
    return float(text) if text else None


def picture(page: Page, path: Path) -> None:
    """Save what the screen shows, everything at rest."""
    page.screenshot(path=path, animations="disabled", caret="hide")
