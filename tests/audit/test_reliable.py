"""What verdicts were worth, told: never of few, and in one sentence of those 90 to 95 % sure."""

import pytest
from scipy.stats import binomtest

from daq.audit.reliable import of_machine, of_shop
from daq.audit.stated import WHY, Count, Reliability
from daq.metrology.reliability import FEWEST, LEARNS, Between
from daq.words import Both
from tests.words import en


def counted(of_the_band):
    """So many of 90 to 95 %, and no other."""
    none = Count()
    return Reliability((none, none, of_the_band, none, none))


@pytest.mark.parametrize("audits", [0, 1, 2, FEWEST - 1])
def test_of_few_there_is_no_figure_but_how_many_are_missing(audits):
    view = of_machine(counted(Count(audits, audits, audits)), "mm")
    band = view.bands[2]
    assert (band.low, band.high, band.audits) == (0.90, 0.95, audits)
    assert (band.agreed, band.share, band.share_low, band.share_high) == (None,) * 4
    assert (band.as_read, band.as_read_share, band.as_read_say) == (None, None, None)
    assert en(band.say) == f"Too few yet: {audits} of {FEWEST}"
    assert en(view.say).startswith(f"Too few yet to say: of {FEWEST} audits stated 90 to 95 % sure")


def test_the_share_comes_with_what_the_true_one_may_be_and_with_nothing_allowed():
    view = of_machine(counted(Count(44, 41, 36)), "mm")
    band = view.bands[2]
    ends = binomtest(41, 44).proportion_ci(0.95, "wilson")
    assert (band.agreed, band.share) == (41, pytest.approx(41 / 44))
    assert (band.share_low, band.share_high) == pytest.approx((ends.low, ends.high))
    assert (band.as_read, band.as_read_share) == (36, pytest.approx(36 / 44))
    assert (en(band.say), en(band.as_read_say)) == ("93 % (82 to 98 %)", "82 %")
    assert en(view.say) == (
        "Of 44 audits stated 90 to 95 % sure, the next as-found agreed with 93 % "
        "(the true share is 82 to 98 %, 19 times in 20)."
    )


def test_bands_are_told_by_what_was_stated():
    stated = [en(band.stated) for band in of_machine(Reliability(), "mm").bands]
    assert stated == ["under 80 %", "80 to 90 %", "90 to 95 %", "95 to 99 %", "99 % and over"]


def test_how_far_the_head_goes_by_itself_is_told_once_it_is_known():
    known = Both(Between(LEARNS, 0.012, 0.0), Between(LEARNS, 0.0, 0.0))
    view = of_machine(Reliability(going=known), "mm")
    assert view.side_going_mm == pytest.approx(0.004 * (3.14159265 / 2) ** 0.5)
    assert view.nod_going_mm == 0.0
    assert "about 0.005 mm side to side and 0.000 mm nod, over 300 mm" in en(view.allows)
    unknown = of_machine(Reliability(going=Both(known.side, Between(1, 0.0, 0.0))), "mm")
    assert (unknown.side_going_mm, unknown.nod_going_mm) == (None, None)
    assert f"1 of {LEARNS} pairs" in en(unknown.allows)


def test_what_was_left_out_is_told_by_why_each_with_its_own_words():
    view = of_machine(Reliability(left_out=dict.fromkeys(WHY, 2)), "mm")
    assert [(each.why, each.audits) for each in view.left_out] == [(why, 2) for why in WHY]
    told = {en(each.say) for each in view.left_out}
    assert len(told) == len(WHY) and all(say.startswith("Left out: 2 audits, ") for say in told)


def test_the_shop_is_its_machines_together():
    one = Reliability((Count(), Count(), Count(12, 11, 9), Count(), Count(3, 3, 3)), {"crash": 1})
    two = Reliability((Count(), Count(), Count(10, 9, 9), Count(), Count()), {"crash": 2, "ram": 1})
    view = of_shop([one, two, Reliability()])
    assert (view.bands[2].audits, view.bands[2].agreed, view.bands[2].as_read) == (22, 20, 18)
    assert view.bands[4].agreed is None
    assert {each.why: each.audits for each in view.left_out} == {"crash": 3, "ram": 1}
    assert (view.side_going_mm, view.nod_going_mm) == (None, None)
    assert of_shop([]).bands == of_machine(Reliability(), "mm").bands
