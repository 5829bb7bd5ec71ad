"""Decisions carry numbers that stay: one is superseded by its number, never edited away."""

import re

DECISION = re.compile(r"^- \*\*(?:D(\d+)\. )?", re.MULTILINE)
NAMED = re.compile(r"\bD(\d+)\b")


def decisions(tree):
    text = (tree.root / "DEVELOPERS.md").read_text(encoding="utf-8")
    return text.split("\n## Decisions\n")[1].split("\n## ")[0]


def test_each_decision_has_the_next_number(tree):
    numbers = [int(number or 0) for number in DECISION.findall(decisions(tree))]
    assert numbers
    assert numbers == list(range(1, len(numbers) + 1))


def test_each_decision_that_is_named_exists(tree):
    text = decisions(tree)
    there = set(DECISION.findall(text))
    assert set(NAMED.findall(text)) <= there
