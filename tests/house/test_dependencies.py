"""Every runtime dependency has its reason in DEVELOPERS.md."""

import re

FEWEST_WORDS_OF_A_REASON = 5


def reasons(text, name):
    """Lines of the text that begin with the name (in a list or a table) and go on to say why."""
    begins = re.compile(rf"^[\s|*`\-\[]*{re.escape(name)}\b(.*)$", re.IGNORECASE)
    found = (begins.match(line) for line in text.splitlines())
    return [m.group(1) for m in found if m and len(m.group(1).split()) > FEWEST_WORDS_OF_A_REASON]


def test_a_reason_is_told_from_a_bare_mention():
    assert reasons("- `numpy`: least squares with covariance in two lines", "numpy")
    assert reasons("| numpy | 1.26 or newer | least squares with their covariance |", "numpy")
    assert not reasons("- numpy\n- numpy, flask", "numpy")


def test_each_runtime_dependency_has_a_reason(tree, pyproject):
    text = (tree.root / "DEVELOPERS.md").read_text(encoding="utf-8")
    names = [re.split(r"[^\w.-]", line)[0] for line in pyproject["project"]["dependencies"]]
    assert names
    assert [name for name in names if not reasons(text, name)] == []
