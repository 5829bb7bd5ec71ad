import math

import pytest

from daq.checks.sweep.doubts import Doubts
from daq.settings import SettingsError, build, plain


def test_an_empty_table_is_the_defaults():
    assert build(Doubts, {}, "mill.toml") == Doubts()


def test_a_shop_writes_its_own_with_units():
    doubts = build(
        Doubts,
        {
            "wedge": "0.0001 in",
            "wedge_known": True,
            "parallel": "2 deg",
            "scale": 0.001,
            "local_error": "2 um",
            "condition": "locks on, cold",
        },
        "mill.toml",
    )
    assert doubts.wedge == pytest.approx(0.00254)
    assert doubts.parallel == pytest.approx(math.radians(2.0))
    assert (doubts.wedge_known, doubts.scale, doubts.condition) == (True, 0.001, "locks on, cold")
    assert doubts.local(0.010, 0.001) == pytest.approx(0.002)


def test_what_was_embedded_reads_back():
    doubts = Doubts(wedge=0.001, local_error=0.002, condition="warm")
    assert build(Doubts, plain(doubts), "event", quantities="plain") == doubts


def test_without_a_local_error_it_is_a_fifth_of_the_permissible_one_less_half_a_count():
    assert Doubts().local(0.010, 0.001) == pytest.approx(0.0019)
    assert Doubts().local(0.010, 0.010) == pytest.approx(0.001)
    assert Doubts().local(0.005, 0.0127) == 0.0


@pytest.mark.parametrize(
    "table", [{"wedge": "-1 um"}, {"repeatability_dof": 0.5}, {"wdge": "1 um"}]
)
def test_what_cannot_be_is_refused(table):
    with pytest.raises(SettingsError):
        build(Doubts, table, "mill.toml")
