"""The pages as served: from the Pi alone, nothing inline, readable, every step."""

import json
import math
import re
from pathlib import Path

import pytest

from daq.says import language
from daq.words import POSITIONS
from tests.web.scenes import SITUATIONS, scene, view
from web.sentences import sentences

WEB = Path(__file__).parents[2] / "web"
STATIC = WEB / "static"
MACHINE = "practice-mill"
PLACE = r'"([a-z-]+)": \[(-?\d), (-?\d)\]'
PAGES = [f"/machines/{MACHINE}/{page}" for page in ("wall", "console", "practice", "bench")]


@pytest.mark.parametrize("name", list(SITUATIONS))
@pytest.mark.parametrize("page", ["wall", "console", "bench"])
def test_a_page_says_the_instruction_before_any_script_runs(client, hub, name, page):
    hub.current = scene(name)
    answer = client.get(f"/machines/{MACHINE}/{page}")
    assert answer.status_code == 200
    shown = view(name)
    title = shown["halt"]["say"] if shown["halt"] else shown["title"]
    assert title.replace("'", "&#39;") in answer.text


@pytest.mark.parametrize("page", ["wall", "console", "bench"])
def test_a_page_without_its_stream_tells_nobody_to_turn(client, hub, scenes, page):
    hub.current = scenes["move"]
    text = client.get(f"/machines/{MACHINE}/{page}").text
    assert "STOP turning: no reading." in text
    assert view("move")["title"] not in text


def test_the_first_page_names_the_stage_and_nothing_to_turn_to(client, hub, scenes):
    hub.current = scenes["move"]
    (stage,) = [step["say"] for step in view("move")["steps"] if step["state"] == "now"]
    text = client.get("/").text
    assert re.search(rf'<p class="now"[^>]*>{stage}</p>', text)
    assert view("move")["title"] not in text
    hub.current = scenes["idle"]
    assert view("idle")["title"] in client.get("/").text


@pytest.mark.parametrize("path", ["/", *PAGES])
def test_a_page_uses_only_files_of_the_pi_and_nothing_inline(client, path):
    text = client.get(path).text
    assert not re.search(r"<script(?! type=\"application/json\" |[^>]*\bsrc=)", text)
    assert not re.search(r"<style|\sstyle=|\son\w+=|javascript:", text)
    linked = re.findall(r'(?:src|href)="([^"]+)"', text)
    assert linked
    for target in linked:
        assert target.startswith("/"), target
        with client.get(target) as answer:
            assert answer.status_code == 200, target


def test_no_file_reaches_outside():
    allowed = ("http://www.w3.org/2000/svg",)
    for path in [*STATIC.rglob("*.*"), *(WEB / "templates").glob("*.html")]:
        found = re.findall(
            r"(?:https?:)?//[\w.-]+\.\w+[^\s\"')]*", path.read_text(encoding="utf-8")
        )
        assert [url for url in found if url not in allowed] == [], path.name


def test_every_module_imported_is_there_and_every_one_there_is_used():
    scripts = {path.name: path.read_text(encoding="utf-8") for path in STATIC.glob("js/*.js")}
    used = {name for text in scripts.values() for name in re.findall(r'from "\./([\w.]+)"', text)}
    pages = "".join(path.read_text(encoding="utf-8") for path in WEB.glob("templates/*.html"))
    used |= set(re.findall(r"js/([\w.]+)'", pages))
    assert used == set(scripts)


@pytest.mark.parametrize("path", PAGES)
def test_a_page_carries_each_sentence_its_scripts_look_for_and_no_other(client, path):
    (block,) = re.findall(
        r'<script type="application/json" id="words">(.*?)</script>', client.get(path).text
    )
    carried = json.loads(block)
    assert carried == sentences(language())
    scripts = "".join(path.read_text(encoding="utf-8") for path in STATIC.glob("js/*.js"))
    assert set(re.findall(r"\bwords\.(?!js\b)(\w+)", scripts)) == set(carried)
    sought = set(re.findall(r"\bnamed\.(\w+)", scripts))
    assert sought == set(carried["numbers"])


def test_each_place_in_a_pages_sentence_is_filled_by_a_name():
    """A sentence that waits for a number has it in braces, as the scripts fill it."""

    def texts(told):
        if isinstance(told, str):
            return [told]
        inside = told.values() if isinstance(told, dict) else told if isinstance(told, list) else ()
        return [text for each in inside for text in texts(each)]

    places = {
        place for text in texts(sentences(language())) for place in re.findall(r"\{(.*?)\}", text)
    }
    assert places == {"n", "of", "stage", "short", "limit", "over", "field", "what", "axis"}


def test_every_part_a_script_looks_for_is_in_a_template():
    scripts = "".join(path.read_text(encoding="utf-8") for path in STATIC.glob("js/*.js"))
    pages = "".join(path.read_text(encoding="utf-8") for path in WEB.glob("templates/*.html"))
    sought = set(re.findall(r'\bpart\("([\w-]+)"', scripts))
    assert sought
    assert sought - set(re.findall(r'data-part="([\w-]+)"', pages)) == set()


def test_the_first_page_offers_the_screens_of_every_machine(client, hub):
    hub.names = (*hub.names, type(hub.names[0])("big-mill", "Big <mill>"))
    text = client.get("/").text
    for key in (MACHINE, "big-mill"):
        for page in ("wall", "console"):
            assert f'href="/machines/{key}/{page}"' in text
    assert "Big &lt;mill&gt;" in text


def test_the_first_page_says_whose_it_is(hub, inbox):
    from web.app import create_app

    client = create_app(hub, inbox, shop="Our <shop>").test_client()
    assert "Our &lt;shop&gt;" in client.get("/").text


def test_only_the_practice_mill_has_pages_for_hands(client, hub):
    hub.names = (*hub.names, type(hub.names[0])("big-mill", "Big mill"))
    linked = set()
    for path in ("/", f"/machines/{MACHINE}/console", "/machines/big-mill/console"):
        linked |= set(
            re.findall(r'href="(/machines/[^"]+/(?:bench|practice))"', client.get(path).text)
        )
    assert linked == set(PAGES[2:])
    for page in ("bench", "practice"):
        answer = client.get(f"/machines/big-mill/{page}")
        assert answer.status_code == 404
        assert "real machine" in answer.text


def test_without_a_practice_mill_there_is_no_way_to_one(hub, inbox):
    from web.app import create_app

    client = create_app(hub, inbox).test_client()
    assert "bench" not in client.get("/").text
    assert "practice" not in client.get(f"/machines/{MACHINE}/console").text.replace(MACHINE, "")
    for path in (*PAGES[2:], f"/api/machines/{MACHINE}/practice"):
        assert client.get(path).status_code == 404
    assert not [
        path for path in client.get("/api/openapi.json").json["paths"] if "practice" in path
    ]


def test_a_missing_page_is_a_page_and_a_missing_route_is_json(client):
    page = client.get("/machines/lathe/wall")
    assert (page.status_code, page.mimetype) == (404, "text/html")
    assert "lathe" in page.text
    route = client.get("/api/machines/lathe/snapshot")
    assert (route.status_code, route.mimetype) == (404, "application/json")
    assert route.json["code"] == "not-found"


def luminance(colour):
    """Relative luminance as WCAG 2.2 defines it (formula from memory)."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_contrast_formula_gives_its_known_ends():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize(
    ("text", "ground"),
    [
        *[(text, ground) for text in ("scribe", "soft") for ground in ("ground", "raised")],
        *[(text, "ground") for text in ("brass", "in", "out", "close", "warn")],
        *[(text, "paper") for text in ("ink", "ink-soft", "in-ink", "out-ink", "close-ink")],
        *[("ink", ground) for ground in ("brass", "warn", "out")],
    ],
)
def test_text_stands_out_from_its_ground(text, ground):
    css = (STATIC / "css" / "base.css").read_text(encoding="utf-8")
    colours = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", css))
    # WCAG 2.2, success criterion 1.4.3: at least 4.5 (from memory).
    assert contrast(colours[text], colours[ground]) >= 4.5


def test_the_circle_can_draw_every_place_there_is():
    script = (STATIC / "js" / "circle.js").read_text(encoding="utf-8")
    drawn = {name: (int(x), int(y)) for name, x, y in re.findall(PLACE, script)}
    assert drawn == {
        name: (round(math.cos(math.radians(azimuth))), round(math.sin(math.radians(azimuth))))
        for name, azimuth in POSITIONS.items()
    }


@pytest.mark.parametrize(
    ("name", "step", "tag"),
    [
        ("unsafe", "unsafe", "NOT SAFE TO RUN: side bolts loose"),
        ("aside-unsafe", "unsafe", "NOT SAFE TO RUN: nod bolts loose"),
        ("aside", "aside", "HALF SQUARED: last verdict OUT ("),
    ],
)
def test_how_a_machine_was_left_is_said_on_the_first_page(client, hub, name, step, tag):
    hub.current = scene(name)
    said = re.search(rf'class="now" data-step="{step}">([^<]*)<', client.get("/").text)
    assert said is not None and said[1].startswith(tag)
