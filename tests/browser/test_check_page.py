"""The stranger's page in a real browser: saved and opened from a disk, or served by the Pi."""

import hashlib
import re

import pytest

from daq.ledger.anchors import token
from daq.ledger.attested import fingerprint
from daq.ledger.commands import export
from daq.says import language
from tests.browser.screens import PHONE, WALL, Screens, part
from tests.independent.altered import PUBLIC, made
from tests.independent.test_verify_export import RFC_8032
from tests.words import en
from web.check_page import check_page


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    """An export with its evidence, its rows, and the page as a file beside it."""
    folder = tmp_path_factory.mktemp("stranger")
    what = made(folder / "data")
    with (folder / "export.jsonl").open("w", encoding="utf-8") as out:
        assert export(folder / "data", out, en, evidence=True) == 0
    (folder / "check.html").write_text(check_page(language("en")).html, encoding="utf-8")
    return folder, what


def checked(page, *files, papers=(), noted="", key=""):
    page.locator("#export").set_input_files(list(files))
    page.locator("#papers").set_input_files(list(papers))
    page.locator("#noted").fill(noted)
    page.locator("#key").fill(key)
    page.locator("[data-part=start]").click()
    page.locator("[data-part=start]:enabled").wait_for()
    page.locator("[data-part=result]").wait_for()
    return part(page, "verdict"), part(page, "say"), part(page, "facts")


def test_a_saved_page_checks_an_export_and_finds_the_cut_tail(screens: Screens, kept):
    folder, what = kept
    page = screens.open((folder / "check.html").as_uri(), viewport=PHONE)
    head = what.rows[-1][2].hex()
    verdict, say, facts = checked(
        page, folder / "export.jsonl", key=PUBLIC[:32] + " " + PUBLIC[32:]
    )
    assert (verdict, say) == (
        "Not sound",
        "signed audits: 1 of 2 signed by no key, the first in row 10",
    )
    verdict, say, facts = checked(page, folder / "export.jsonl", noted=f"12:{head[:8].upper()}")
    assert (verdict, say) == ("Sound", f"12 rows, none altered; head {head}")
    assert "1 of this ledger, of 1 found in 0 files and on paper" in facts
    assert "3 of 4 pieces are here and as they were; 1 were let go on purpose" in facts
    assert f"signed audits: 1 of 2 signed by key {fingerprint(PUBLIC)}" in facts
    lines = what.lines()
    (folder / "cut.jsonl").write_text("".join(lines[:10] + lines[12:]), encoding="utf-8")
    verdict, say, facts = checked(page, folder / "cut.jsonl")
    assert verdict == "Sound" and "nobody can tell here whether its end was cut off" in facts
    ledger = re.search(r'"ledger\\":\\"([0-9a-f-]{36})', lines[0])[1]
    report = folder / "report.html"
    report.write_text(f"{'x' * 1_048_500}{token(ledger, 12, head)}", encoding="utf-8")
    verdict, say, facts = checked(page, folder / "cut.jsonl", papers=[report])
    later = "the ledger ends at row 10, but row 12 was noted down, in report.html"
    assert (verdict, say) == ("Not sound", later)
    assert "First bad row\n11" in facts
    verdict, say, facts = checked(page, folder / "cut.jsonl", papers=[folder / "export.jsonl"])
    assert say == later.replace("report.html", "export.jsonl")


def test_what_is_none_is_said_and_what_was_typed_wrong(screens: Screens, kept):
    folder, _ = kept
    page = screens.open((folder / "check.html").as_uri(), viewport=WALL)
    assert checked(page, folder / "check.html")[0] == "No export"
    assert checked(page, folder / "export.jsonl", noted="12")[0] == "Not checked"
    assert checked(page, folder / "export.jsonl", key="12")[1].startswith("Allowed as a key")
    assert checked(page)[1] == "Choose an export first."


def test_it_works_as_the_pi_serves_it_at_every_size(screens: Screens, kept, address):
    folder, _ = kept
    for viewport in (PHONE, {"width": 1280, "height": 800}, WALL):
        page = screens.open(f"{address.partition('/machines')[0]}/check", viewport=viewport)
        assert checked(page, folder / "export.jsonl")[0] == "Sound"
        wide = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
        assert wide[0] <= wide[1]
        for each in page.locator("input, textarea, button").all():
            assert each.bounding_box()["height"] >= 64
            assert each.evaluate("each => each.labels.length || each.textContent.length") > 0


def test_its_digests_are_those_of_the_standard(screens: Screens, kept):
    """FIPS 180-4, held against another library, and RFC 8032, 7.1, tests 1 to 3."""
    folder, _ = kept
    page = screens.open((folder / "check.html").as_uri(), viewport=WALL)
    made_of = """texts => texts.map((text) => [
      hexOf(new Sha256().update(PUT.encode(text)).digest()), hexOf(sha512(PUT.encode(text)))])"""
    texts = [
        "",
        "abc",
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
        "a" * 111,
        "a" * 112,
    ]
    assert page.evaluate(made_of, texts) == [
        [hashlib.sha256(t.encode()).hexdigest(), hashlib.sha512(t.encode()).hexdigest()]
        for t in texts
    ]
    whose = """all => all.map(([key, text, signature]) => [
      verified(bytesOf(key), bytesOf(signature), bytesOf(text)),
      verified(bytesOf(key), bytesOf(signature), bytesOf(text + "78"))])"""
    assert page.evaluate(whose, RFC_8032) == [[True, False]] * 3
