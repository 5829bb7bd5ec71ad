"""The drawings of hardware/: as their sources make them, legible, on the pins of shop.toml."""

import re
import runpy
import tomllib
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest

from tests.house.conftest import ROOT

HARDWARE = ROOT / "hardware"
DRAW = runpy.run_path(str(HARDWARE / "drawings" / "draw.py"))
NAMES = [source.stem for source in DRAW["sources"]()]
SVG = "{http://www.w3.org/2000/svg}"
WIDE = 0.6
"""A letter's width in its size: more than the usual sans-serif takes."""
ABOVE = {"hanging": 0.0, "central": 0.5, "ideographic": 1.0}
"""How much of a letter's height lies above the line that its place is told by."""
PIN = re.compile(r"(GPIO \d+|ground|3\.3 V|5 V), pin (\d+)")
HEADER = {
    1: "3.3 V", 2: "5 V", 3: "GPIO 2", 4: "5 V", 5: "GPIO 3", 6: "ground", 7: "GPIO 4",
    8: "GPIO 14", 9: "ground", 10: "GPIO 15", 11: "GPIO 17", 12: "GPIO 18", 13: "GPIO 27",
    14: "ground", 15: "GPIO 22", 16: "GPIO 23", 17: "3.3 V", 18: "GPIO 24", 20: "ground",
    25: "ground", 29: "GPIO 5", 30: "ground", 31: "GPIO 6", 33: "GPIO 13", 34: "ground",
    35: "GPIO 19", 36: "GPIO 16", 37: "GPIO 26", 39: "ground",
}  # fmt: skip
"""The 40-pin header, from memory; what a drawing names and this lacks fails."""


def picture(name):
    return ElementTree.parse(HARDWARE / "drawings" / f"{name}.svg").getroot()


def texts(root):
    """(words, left, low, right, high) of each line of text; y grows downward."""
    for text in root.iter(f"{SVG}text"):
        size = float(text.get("font-size"))
        side = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor")]
        above = ABOVE[text.get("dominant-baseline")]
        base = float(text.get("y"))
        for span in text.findall(f"{SVG}tspan"):
            base += float(span.get("dy") or 0)
            words = "".join(span.itertext())
            wide = WIDE * size * len(words)
            left = float(span.get("x")) - side * wide
            yield words, left, base - above * size, left + wide, base + (1 - above) * size


def wires(root):
    """((x, y), (x, y)) of each straight piece of each line."""
    for path in root.iter(f"{SVG}path"):
        if "Z" in path.get("d") or re.search("[AaCcQq]", path.get("d")):
            continue
        points = [
            tuple(map(float, p)) for p in re.findall(r"(-?[\d.]+)[, ](-?[\d.]+)", path.get("d"))
        ]
        yield from pairwise(points)


@pytest.mark.parametrize("name", NAMES)
def test_a_drawing_is_what_its_source_makes(name):
    folder = HARDWARE / "drawings"
    made = DRAW["drawn"](folder / f"{name}.py")
    assert (folder / f"{name}.svg").read_text(encoding="utf-8") == made


def test_each_picture_has_a_source_and_stands_in_the_document():
    pictures = {path.stem for path in (HARDWARE / "drawings").glob("*.svg")}
    assert pictures == set(NAMES)
    shown = re.findall(r"!\[[^\]]+\]\(drawings/(\w+)\.svg\)", (HARDWARE / "README.md").read_text())
    assert sorted(shown) == sorted(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_words_lie_inside_and_over_nothing_else(name):
    root = picture(name)
    x, y, wide, high = map(float, root.get("viewBox").split())
    found = list(texts(root))
    assert len(found) >= 5
    out = [
        w
        for w, left, low, right, up in found
        if left < x or right > x + wide or low < y or up > y + high
    ]
    assert out == []
    over = [
        (one[0], other[0])
        for one, other in combinations(found, 2)
        if one[1] < other[3] and other[1] < one[3] and one[2] < other[4] and other[2] < one[4]
    ]
    assert over == []


@pytest.mark.parametrize("name", NAMES)
def test_no_wire_runs_through_words(name):
    root = picture(name)
    struck = [
        words
        for words, left, low, right, up in texts(root)
        for (x0, y0), (x1, y1) in wires(root)
        if min(x0, x1) < right and max(x0, x1) > left and min(y0, y1) < up and max(y0, y1) > low
    ]
    assert struck == []


def test_a_pin_is_where_the_header_has_it():
    named = {
        pair for name in NAMES for words, *_ in texts(picture(name)) for pair in PIN.findall(words)
    }
    assert len(named) >= 8
    assert {(what, pin) for what, pin in named if HEADER.get(int(pin)) != what} == set()


def example(first_line):
    """A table that config/shop.toml explains and leaves out, told by a line of it."""
    text = (ROOT / "config" / "shop.toml").read_text(encoding="utf-8")
    tables = re.findall(r"^# \[+\w+\]+\n(?:# .+\n)+", text, re.MULTILINE)
    (found,) = (table for table in tables if f"\n# {first_line}" in table)
    return tomllib.loads(re.sub(r"^# ?", "", found, flags=re.MULTILINE))


def shown(name):
    """The table of that name among those that hardware/README.md shows."""
    text = (HARDWARE / "README.md").read_text(encoding="utf-8")
    tables = map(tomllib.loads, re.findall(r"^```toml\n(.*?)^```", text, re.MULTILINE | re.DOTALL))
    (found,) = (table[name] for table in tables if name in table)
    return found


def test_the_switches_are_on_the_pins_of_the_shop_file():
    (told,) = example('source = "pins"')["takes"]
    collar = runpy.run_path(str(HARDWARE / "drawings" / "collar.py"))
    assert {n: p for n, (p, _) in collar["PINS"].items()} == {n: told[n] for n in collar["PINS"]}
    for name in ("pedal", "take_switch"):
        assert f"GPIO {told['press']}, pin 11" in [words for words, *_ in texts(picture(name))]
    assert told["closes_to"] == "ground"  # so every pin is pulled up
    assert [take["press"] for take in shown("takes")] == [told["press"]]


def test_button_and_mains_are_on_the_pins_of_the_shop_file():
    told = example("button = ")["power"]
    assert f"GPIO {told['button']}, pin 5" in [w for w, *_ in texts(picture("power_off"))]
    assert f"GPIO {told['mains_gone']}, pin 13" in [w for w, *_ in texts(picture("supply"))]
    assert told["mains_gone_is"] == "open"  # the coupler pulls down as long as it is lit
    assert shown("power").items() <= told.items()


def test_nothing_but_light_and_field_crosses_the_barrier():
    root = picture("isolated_adapter")
    (barrier,) = (p for p in root.iter(f"{SVG}path") if "stroke:#555555" in p.get("style"))
    x = float(re.search(r"M (-?[\d.]+)", barrier.get("d"))[1])
    sides = [sorted((one[0], other[0])) for one, other in wires(root)]
    assert len(sides) > 40
    assert [side for side in sides if side[0] <= x <= side[1] and side != [x, x]] == []
    at = {words: left for words, left, *_ in texts(root)}
    assert at["gauge's 0 V"] < x < at["Pi's 0 V"]
