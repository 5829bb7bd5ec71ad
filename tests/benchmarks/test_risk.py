"""A small count of what the simple rule lets through, and whether the stated risk comes true."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

from daq.metrology.rule import Rule
from daq.metrology.student import t_quantile, whole_dof

sys.path.insert(0, str(Path(__file__).parent))  # as a script finds what lies beside it
from risk_rows import GUARDED, Audits, audited, drawn, risk

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
