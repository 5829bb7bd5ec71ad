"""Good enough for a job, as a phone shows it: typed, answered, kept."""

from playwright.sync_api import expect

from tests.browser.daemon import Demo
from tests.browser.mill import audit
from tests.browser.screens import PHONE, Screens


def test_a_callout_is_typed_answered_and_kept(demo: Demo, screens: Screens) -> None:
    phone = screens.phone(demo.address("console"))
    phone.goto(f"http://127.0.0.1:{demo.port}/")
    phone.locator("a", has_text="Good enough for this job?").tap()
    say = phone.locator("[data-part=say]")

    def ask(**sizes: str) -> None:
        for name, text in sizes.items():
            phone.locator(f"fieldset:not([hidden]) [name={name}]").fill(text)
        phone.locator("button[type=submit]").tap()

    with screens.refusing(phone, "(400|422)"):
        ask(depth="40 mm", zone="0.05 mm")
        expect(say).to_contain_text("has not been swept")
    expect(phone.locator("[data-part=keep]")).to_be_hidden()
    audit(demo)

    phone.reload()
    with screens.refusing(phone, "(400|422)"):
        ask(depth="40", zone="0.05 mm")
        expect(phone.locator("[data-part=problems]")).to_contain_text('bore.depth: found "40"')
    ask(depth="1.5 in", zone="0.05 mm")
    expect(say).to_contain_text("Good enough: 0.")
    expect(phone.locator("[data-part=basis]")).to_contain_text("today")
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    phone.locator("[data-part=keep]").tap()
    expect(phone.locator("[data-part=kept]")).to_be_visible()
    phone.locator("[name=of][value=face]").check()
    expect(say).to_be_hidden()
    ask(width="60 mm", zone="0.05 mm", cutter="80 mm")
    expect(say).to_contain_text("over your face")
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]

    screens.close()
    demo.stop()
    assert demo.ledger("show").stdout.count(" AnswerKept ") == 1
    assert demo.ledger("recheck").returncode == 0
