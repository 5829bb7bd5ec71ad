"""What DEVELOPERS.md shows of a head of one's own runs as it stands there, and squares it."""

import re

from tests.house.conftest import ROOT

MOST_LINES = 10
INSIDE_MM = 0.017
"""The practice mill's tolerance on its sweep: 0.025 mm on 300 mm, over 200 mm."""


def test_the_lines_shown_square_that_head_through_the_real_decisions(capsys):
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    (shown,) = re.findall(r"^```python\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    lines = [line for line in shown.splitlines() if line and " import " not in line]
    assert len(lines) <= MOST_LINES
    names = {}
    exec(compile(shown, "DEVELOPERS.md", "exec"), names)
    left = names["Yours"].lean
    assert max(map(abs, left.values())) < INSIDE_MM
    out = capsys.readouterr().out
    assert re.match(r"Audit \S+ is signed: in\. ", out)
    assert out.endswith(f"{left}\n")
