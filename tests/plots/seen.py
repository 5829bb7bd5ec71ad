"""A picture as it is drawn: its elements by class, and where their marks stand."""

import re
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
DOT = re.compile(r"M(-?[\d.]+) (-?[\d.]+)a([\d.]+) ")
SQUARE = re.compile(r"M(-?[\d.]+) (-?[\d.]+)h([\d.]+)v")
UPRIGHT = re.compile(r"M(-?[\d.]+) (-?[\d.]+)V(-?[\d.]+)")
POINT = re.compile(r"(-?[\d.]+) (-?[\d.]+)")


def parsed(svg):
    return ElementTree.fromstring(svg)


def of_class(root, kind):
    return [each for each in root.iter() if each.get("class") == kind]


def words(root):
    """Every line of words with where it stands."""
    return {
        each.text: (float(each.get("x")), float(each.get("y"))) for each in root.iter(f"{SVG}text")
    }


def audits(root):
    """Each audit's title, link, and the path of its marks, hollow ones named."""
    found = []
    marks = [each for each in of_class(root, "marks") if each.find(f".//{SVG}title") is not None]
    for each in marks[0] if marks else ():
        paths = [(p.get("class", ""), p.get("d")) for p in each.iter(f"{SVG}path")]
        found.append((each.find(f"{SVG}title").text, each.get("href"), paths))
    return found


def dots(path):
    """The middles of the dots of a path."""
    return [(float(x) + float(r), float(y)) for x, y, r in DOT.findall(path)]


def squares(path):
    return [(float(x) + float(h) / 2, float(y) + float(h) / 2) for x, y, h in SQUARE.findall(path)]


def uprights(path):
    return [(float(x), float(a), float(b)) for x, a, b in UPRIGHT.findall(path)]


def points(path):
    return [(float(x), float(y)) for x, y in POINT.findall(path)]


def level(line):
    """Where a line across stands."""
    assert line.get("y1") == line.get("y2")
    return float(line.get("y1"))


def ruler(root, right):
    """How far up a value stands, by the numbers beside the grid."""
    ticks = [
        (float(text), y - 5.0)
        for text, (x, y) in words(root).items()
        if x == right and number(text)
    ]
    (a, ya), (b, yb) = ticks[0], ticks[-1]
    return lambda value: ya + (value - a) * (yb - ya) / (b - a)


def number(text):
    return re.fullmatch(r"-?\d+(\.\d+)?", text or "") is not None
