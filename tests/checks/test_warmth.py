"""A ring warmer on one side, against closed forms; α of steel 11.5e-6 a kelvin is textbook."""

import math
from dataclasses import replace

import pytest

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.terms import SweepFacts, terms
from daq.settings import SettingsError, build
from daq.units import UnitError, parse
from daq.words import AXES, Both

FACTS = SweepFacts(100.0, (270.0, 0.0, 90.0, 180.0), (), Both(0.0, 0.0), 7e-4, 8.0, 1e-3, 5e-3)


def u(seat: str, axis: str = "side", **doubts: float) -> float | None:
    found = terms(replace(FACTS, seat=seat), Doubts(**doubts), axis)
    return next((term.u_mm for term in found if term.code == "term-temperature"), None)


@pytest.mark.parametrize("axis", AXES)
@pytest.mark.parametrize("seat", ["ring", "plate"])
def test_a_ring_is_thicker_where_it_is_warmer(seat, axis):
    found = u(seat, axis, thickness=30.0, temperature=2.0)
    assert found == pytest.approx(11.5e-6 * 30.0 * 2.0 / math.sqrt(3.0))


@pytest.mark.parametrize("seat", ["table", "block"])
def test_nothing_lies_between_on_a_bare_table(seat):
    assert u(seat) is None


def test_a_difference_of_temperature_has_no_offset():
    assert parse("1.8 degF", "warmer") == pytest.approx(1.0)
    assert parse("1 °C", "warmer") == pytest.approx(1.0)
    with pytest.raises(UnitError, match="a difference of temperature"):
        parse("1 mm", "warmer")


def test_a_file_may_say_it_in_either():
    assert build(Doubts, {"temperature": "9 degF"}, "mill.toml").temperature == pytest.approx(5.0)
    with pytest.raises(SettingsError, match="path=temperature"):
        build(Doubts, {"temperature": "60 degC"}, "mill.toml")
