"""The languages that pages are tried in: those there are, and one made up that is longer than any.

Its words are English ones, each drawn out to 1.4 times its letters: as much as a translator of
short texts is commonly told to leave room for (common practice, from memory, no source).
"""

import math
import re
from pathlib import Path

from fluent.syntax import FluentParser, FluentSerializer, ast
from fluent.syntax.visitor import Transformer

from daq.says import Language, language
from daq.says.language import HERE

LONGER = "longer"
LONGER_BY = 0.4
TONGUES = ("en", "es", LONGER)
WORD = re.compile(r"[^\W\d_]+")


class Longer(Transformer):
    """Draws out each word of a text; what stands in braces is as it was."""

    def visit_TextElement(self, node: ast.TextElement) -> ast.TextElement:
        node.value = WORD.sub(lambda word: drawn_out(word[0]), node.value)
        return node


def drawn_out(word: str) -> str:
    """A word with its last letter as often again as makes it 1.4 times as long."""
    return word + word[-1] * math.ceil(LONGER_BY * len(word))


def tongue(name: str, folder: Path) -> Language:
    """A language by its name; the one that is made up is written into the folder."""
    if name != LONGER:
        return language(name)
    english = FluentParser().parse((HERE / "en.ftl").read_text(encoding="utf-8"))
    text = FluentSerializer().serialize(Longer().visit(english))
    (folder / f"{LONGER}.ftl").write_text(text, encoding="utf-8")
    return language(LONGER, folder)
