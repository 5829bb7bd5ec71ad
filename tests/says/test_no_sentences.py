"""Outside `daq/says` no sentence stands that reaches a screen or the API.

What stays English in the code is what only a terminal or a log reads: what is wrong with a file
or a call (it says found and allowed), what argparse helps with, log lines, and the dialogues of
the command line, that of learning a gauge among them, until they come to a page.
"""

import ast
import re

import pytest

from tests.house.conftest import ROOT

ROOMS = (
    *(ROOT / "daq" / room for room in ("audit", "checks", "metrology", "squaring", "screens")),
    *(ROOT / "daq" / room for room in ("doctor", "gauges", "ledger", "service", "virtual")),
    ROOT / "daq" / "settings",
    ROOT / "web",
)
WORDS = 3
WORD = re.compile(r"[\"'(]*[A-Za-z][A-Za-z'-]*[.,:;?!…)\"']*")
"""So many words in a row are a sentence, or a part of one."""
ERRORS = "allowed: "
"""What is wrong with a file or a call says found and allowed, for whoever wrote it."""
TERMINAL = (
    "gauges/commands.py",
    "gauges/learn/live/ways.py",
    "gauges/learn/writing.py",
    "gauges/listen.py",
    "gauges/ports_list.py",
    "ledger/commands.py",
    "ledger/progress.py",
    "service/not_ours.py",
    "service/set_up/gauge_text.py",
    "service/set_up/machine_text.py",
)
"""The dialogues of the command line, and the comments of a shop's files."""
SAID = ("Refused", "Unread", "LinkError", "LedgerError", "NotRecorded", "SaidTrouble")
SAID += ("NoSuchPage", "_Bad", "CannotBe", "_BadValueError")
"""What is raised to be said on a screen: codes."""
LOGS = ("_log", "log")
SQL = re.compile(r"\s*(SELECT|INSERT|UPDATE|VACUUM|FROM|WHERE|AND|ORDER)\b")
"""What the database is asked."""
OF_OUTSIDERS = ("published.py", "recompute.py")
"""What these say is read beside a ledger, by whoever checks it."""


def is_of_files(node):
    """Docstrings, log lines, what is raised for whoever wrote a file or a call."""
    if isinstance(node, ast.Raise):
        return getattr(getattr(node.exc, "func", None), "id", "") not in SAID
    if isinstance(node, ast.JoinedStr):
        return any(isinstance(part, ast.Constant) and ERRORS in part.value for part in node.values)
    if isinstance(node, ast.Constant):
        return isinstance(node.value, str) and ERRORS in node.value
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        return getattr(node.func.value, "id", "") in LOGS
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def sentences(room):
    for path in sorted(room.glob("**/*.py")):
        where = path.relative_to(room.parent)
        if path.name in OF_OUTSIDERS or any(where.is_relative_to(each) for each in TERMINAL):
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        left_out = [node for node in ast.walk(tree) if is_of_files(node)]
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):  # the names that a key of a file has by default
                left_out += [part for part in node.body if isinstance(part, ast.AnnAssign)]
        skipped = {id(part) for node in left_out for part in ast.walk(node)}
        for node in ast.walk(tree):
            if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
                continue
            words = [word for word in node.value.split() if WORD.fullmatch(word)]
            asked = SQL.match(node.value)
            if id(node) not in skipped and len(words) >= WORDS and not asked:
                yield f"{where}:{node.lineno}: {node.value}"


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: room.name)
def test_no_sentence_stands_in_a_room(room):
    assert list(sentences(room)) == []
