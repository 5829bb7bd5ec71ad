"""What can be read on a page: measured in the browser, each finding in words."""

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

MEASURES = Path(__file__).with_suffix(".js").read_text(encoding="utf-8")
NAMED = {"button", "link", "textbox", "checkbox", "radio", "Date", "combobox", "image", "img"}


def measure(page: Page, name: str, argument: object = None) -> Any:
    """The value of one of the functions of `reading.js` on a page."""
    return page.evaluate(f"argument => {{ {MEASURES}\nreturn {name}(argument); }}", argument)


def clipped(page: Page) -> list[str]:
    """Texts cut off by a box or the edge of the screen, or written over one another."""
    return [*measure(page, "clipped"), *measure(page, "overlapping")]


def out_of_view(page: Page) -> list[str]:
    """Texts that would have to be scrolled to."""
    return [f"out of view: {say}" for say in measure(page, "outOfView")]


def faint(page: Page, least: float = 4.5) -> list[str]:
    """Texts whose contrast with their ground is below `least`."""
    return list(measure(page, "faint", least))


def in_any_font(page: Page) -> list[str]:
    """What is wrong whatever the font: it changes neither a colour nor a name."""
    return [*faint(page), *nameless(page)]


def low_controls(page: Page, least_px: float) -> list[str]:
    """Controls lower than a finger in a glove needs."""
    return list(measure(page, "lowControls", least_px))


def nameless(page: Page) -> list[str]:
    """Controls and pictures that the browser has no name for."""
    session = page.context.new_cdp_session(page)
    nodes = session.send("Accessibility.getFullAXTree")["nodes"]
    session.detach()
    return [
        f"no name: {node['role']['value']}"
        for node in nodes
        if not node["ignored"]
        and node["role"]["value"] in NAMED
        and not node.get("name", {}).get("value", "").strip()
    ]
