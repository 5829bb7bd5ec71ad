"""The screen speaks as the trade does: DEVELOPERS.md lists the words it never uses."""

import re

from fluent.syntax import FluentParser, ast
from fluent.syntax.visitor import Visitor

from tests.house.conftest import ROOT

HEAD = "| Say | Of | Never |"


class Texts(Visitor):
    """What a sentence says, without its codes and places."""

    def __init__(self):
        self.found = []

    def visit_TextElement(self, node):
        self.found.append(node.value)


def sentences():
    """Every text of the language by its code."""
    text = (ROOT / "daq/says/en.ftl").read_text(encoding="utf-8")
    found = {}
    for entry in FluentParser().parse(text).body:
        if isinstance(entry, ast.Message):
            texts = Texts()
            texts.visit(entry)
            found[entry.id.name] = " ".join(texts.found)
    return found


def never():
    """The words that the table bans."""
    lines = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").splitlines()
    rows = lines[lines.index(HEAD) + 2 :]
    rows = rows[: next(at for at, line in enumerate(rows) if not line.startswith("|"))]
    return [word.strip() for row in rows for word in row.split("|")[3].split(",")]


def uses(word, text):
    return re.search(rf"(?<![\w]){re.escape(word)}s?(?![\w])", text, re.IGNORECASE) is not None


def test_no_sentence_uses_a_word_that_is_never_to_be_used():
    banned = never()
    assert len(banned) >= 20
    found = [(code, w) for code, text in sentences().items() for w in banned if uses(w, text)]
    assert found == []


def test_a_word_is_found_whole_in_one_or_many_and_in_any_case():
    assert uses("dial", "Read the Dial.")
    assert uses("tenth", "two tenths")
    assert not uses("thou", "though")
