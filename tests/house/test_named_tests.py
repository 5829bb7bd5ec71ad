"""A test that DEVELOPERS.md names is there: what it says is held, is."""

import re

NAMED = re.compile(r"`(tests/[\w/]+\.py)(?:::(\w+))?`")


def test_each_named_test_exists(tree):
    named = NAMED.findall((tree.root / "DEVELOPERS.md").read_text(encoding="utf-8"))
    assert any(test for _, test in named)
    for path, test in named:
        text = (tree.root / path).read_text(encoding="utf-8")
        assert not test or f"\ndef {test}(" in text, f"{path}::{test}"
