"""What hardware/README.md quotes of the screens is what they say, word for word."""

import re

from fluent.syntax import FluentParser
from fluent.syntax.ast import Message, SelectExpression, TextElement

from tests.house.conftest import ROOT

MOST_LINES = 450


def document():
    return (ROOT / "hardware" / "README.md").read_text(encoding="utf-8")


def said(pattern):
    """What a pattern says; … where it puts a name, a number or one of several words."""
    parts = pattern.elements
    return "".join(each.value if isinstance(each, TextElement) else "…" for each in parts)


def sentences():
    """Each sentence of the product; of a choice between whole ones each of them."""
    parsed = FluentParser().parse((ROOT / "daq" / "says" / "en.ftl").read_text(encoding="utf-8"))
    for entry in parsed.body:
        if isinstance(entry, Message) and entry.value:
            yield said(entry.value)
            only = getattr(entry.value.elements[0], "expression", None)
            if len(entry.value.elements) == 1 and isinstance(only, SelectExpression):
                yield from (said(variant.value) for variant in only.variants)


def quoted():
    """What the table of troubles says the screens say."""
    table = document().split("\n## Troubles by symptom", 1)[1]
    return re.findall(r'^\| "(.+?)" \|', table, re.MULTILINE)


def pressed():
    """What the first hour says stands on buttons, and beside them."""
    hour = document().split("\n## From bare Pi", 1)[1].split("\n```", 1)[0]
    return re.findall(r'"([^"]+)"', re.sub(r"`[^`]*`", "", hour))


def test_each_quoted_sentence_is_said_so():
    found = quoted()
    assert len(found) >= 20
    assert sorted(set(found)) == sorted(found)
    assert len(pressed()) >= 8
    assert set(found + pressed()) - set(sentences()) == set()


def test_each_unit_it_names_is_one():
    named = set(re.findall(r"systemctl \w+ (headsweep[\w-]*)", document()))
    assert len(named) >= 3
    units = {path.stem for path in (ROOT / "hardware" / "systemd").glob("*.service")}
    assert named - units == set()


def test_it_can_be_read_at_a_bench():
    assert len(document().splitlines()) <= MOST_LINES


def test_its_links_lead_somewhere():
    text = document()
    heads = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    places = {re.sub(r"[^\w\- ]", "", head.lower()).replace(" ", "-") for head in heads}
    assert set(re.findall(r"\]\(#([^)]+)\)", text)) - places == set()
    for path in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", text):
        assert (ROOT / "hardware" / path).exists(), path
