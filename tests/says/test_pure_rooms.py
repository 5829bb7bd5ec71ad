"""What computes and judges says codes and numbers: no sentence stands in its rooms."""

import ast

import pytest

from tests.house.conftest import ROOT

ROOMS = ("audit", "checks", "metrology", "squaring")
OF_OUTSIDERS = ("published.py", "recompute.py")
"""What these say is read beside a ledger, by whoever checks it."""
WORDS = 3
"""So many words in a row are a sentence, or a part of one."""
ERRORS = "allowed: "
"""What is wrong with a file or a call says found and allowed, for whoever wrote it."""


def is_of_files(node):
    """Docstrings, what is raised, and the names that a key of a file has by default."""
    if isinstance(node, ast.Raise):
        return True
    if isinstance(node, ast.JoinedStr):
        first = node.values[0]
        return isinstance(first, ast.Constant) and first.value.startswith(ERRORS)
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def sentences(room):
    every = (ROOT / "daq" / room).glob("**/*.py")
    for path in sorted(each for each in every if each.name not in OF_OUTSIDERS):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        left_out = [node for node in ast.walk(tree) if is_of_files(node)]
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                left_out += [part for part in node.body if isinstance(part, ast.AnnAssign)]
        skipped = {id(part) for node in left_out for part in ast.walk(node)}
        for node in ast.walk(tree):
            if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
                continue
            if id(node) not in skipped and len(node.value.split()) >= WORDS:
                yield f"{path.relative_to(ROOT)}:{node.lineno}: {node.value}"


@pytest.mark.parametrize("room", ROOMS)
def test_no_sentence_stands_in_a_room_that_computes(room):
    assert list(sentences(room)) == []
