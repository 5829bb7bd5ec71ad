"""A small count of what the simple rule lets through, and whether the stated risk comes true."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

from daq.metrology.rule import SHARE, Rule
from daq.metrology.student import t_quantile, whole_dof

sys.path.insert(0, str(Path(__file__).parent))  # as a script finds what lies beside it
import risk_rows
from head_rows import chosen
from heads.left import Audits, Left, audited
from risk_rows import GUARDED, Wanted, drawn, enough, risk

SHARES = (1.0, 0.9, 0.8, 0.6, 0.4)
DRAWS = 4000


@pytest.mark.parametrize("sd", [1.0, 3.0])
@pytest.mark.parametrize("of_limit", [0.3, 0.7, 0.85])
def test_the_stated_risk_comes_true_and_a_share_lets_nothing_larger_through(sd, of_limit):
    """All leans are taken for equally likely; with sd = limit, small ones come oftener."""
    left = drawn(sd, 0.010, of_limit * 0.010 / 1.959964, DRAWS, 1)
    for share in SHARES:
        found = risk(left, Rule("simple", share=share))
        assert (found.conforms > 0) == (of_limit <= share)
        if found.conforms:
            spread = 3.0 * (found.stated * (1.0 - found.stated) / found.conforms) ** 0.5
            assert found.out <= found.stated + spread
            assert sd < 3.0 or found.out >= found.stated - 0.02 - spread
    # "Each axis" promises 5 % of each; what is called in has two.
    assert risk(left, GUARDED).out <= 1.0 - 0.95**2


@pytest.mark.parametrize("share", [0.6, 0.8, 1.0])
def test_no_audit_conforms_by_more_uncertainty_than_the_share(share):
    """Audits through the product; on a small circle U is more of the limit."""
    rule, words = Rule("simple", share=share), set()
    for number, radius_mm in enumerate((60.0, 85.0, 100.0, 125.0, 150.0)):
        ended = audited(replace(Audits(0.010), radius_mm=radius_mm, rule=rule), 1, number)
        assert ended is not None
        for left in ended:
            parts = [
                t_quantile(0.975, whole_dof(dof)) * u_mm / left.limit_mm
                for u_mm, dof in zip(left.u_mm, left.dof, strict=True)
            ]
            words.add(left.judged(rule)[0])
            assert not left.judged(rule)[0] or max(parts) <= share + 1e-6
    assert words == {True, False}


@pytest.mark.parametrize(("every", "heads"), [(1, 100), (2, 150), (1000, 50)])
def test_heads_are_audited_until_so_many_conform_or_the_most_are(every, heads, monkeypatch):
    """One head in so many is called in, and turned none: for so few there is no waiting."""

    def left(audits: Audits, seed: int, number: int) -> tuple[Left, Left]:
        read_mm = 0.0 if number % every == 0 else 0.009
        here = Left((read_mm, 0.0), (0.001, 0.001), (None, None), (0.0, 0.0), audits.limit_mm)
        return here, replace(here, read_mm=(1.0, 1.0))

    monkeypatch.setattr(risk_rows, "audited", left)
    wanted = Wanted(conforms=75, heads=200, processes=1, seed=1)
    assert len(enough(Audits(0.010), (GUARDED,), wanted)) == heads


def test_each_line_of_moves_stands_with_and_without_the_share():
    cells = chosen("first-10,first-5", "share")
    rules = [(cell.key, cell.series.files.share, cell.mean is None) for cell in cells]
    assert rules == [
        ("first-10", 1.0, False),
        ("first-5", 1.0, False),
        ("first-10", SHARE, True),
        ("first-5", SHARE, True),
    ]
