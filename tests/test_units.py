"""Text to millimetres and back: the inch from NIST SP 811, the rest from its definitions."""

import math
import re
from contextlib import suppress

import hypothesis
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from daq import units

steady = hypothesis.settings(deadline=None, derandomize=True)


@pytest.mark.parametrize(
    ("text", "kind", "inside"),
    [
        ("100 mm", "length", 100.0),
        ("100mm", "length", 100.0),
        ("-0.5 mm", "length", -0.5),
        ("1e2 mm", "length", 100.0),
        (".5 cm", "length", 5.0),
        ("2 m", "length", 2000.0),
        ("5 µm", "length", 0.005),  # the micro sign
        ("5 μm", "length", 0.005),  # the Greek letter, which some keyboards give
        # NIST SP 811, appendix B.8: 1 in = 25.4 mm, 1 ft = 0.3048 m, both exactly.
        ("1 in", "length", 25.4),
        ("4 inches", "length", 101.6),
        ("1 ft", "length", 304.8),
        ("1 thou", "length", 0.0254),
        ("0.025 mm/300 mm", "slope", 0.025 / 300),
        ("0.001 in/12 in", "slope", 0.001 / 12),
        ("0.001 in / ft", "slope", 0.001 / 12),
        ("0.02 mm/m", "slope", 0.00002),
        ("0.5 s", "time", 0.5),
        ("200 ms", "time", 0.2),
        ("2 min", "time", 120.0),
        ("1 h", "time", 3600.0),
        ("0.1 rad", "angle", 0.1),
        # A full turn is 2 pi rad and 360 degrees, a degree 60 minutes of 60 seconds.
        ("180 deg", "angle", math.pi),
        ("15°", "angle", math.pi / 12),
        ("60 arcmin", "angle", math.pi / 180),
        ("3600 arcsec", "angle", math.pi / 180),
        ("1 mrad", "angle", 0.001),
        ("60 N m", "torque", 60.0),
        ("60 N·m", "torque", 60.0),
        ("60Nm", "torque", 60.0),
        ("0.06 m*N", "torque", 0.06),
        ("5000 N-mm", "torque", 5.0),
        # NIST SP 811, appendix B.8: lbf ft, lbf in and kgf m, the first digits of exact ratios.
        ("1 lbf ft", "torque", 1.3558179483314004),
        ("1 ft-lb", "torque", 1.3558179483314004),
        ("12 in lbf", "torque", 1.3558179483314004),
        ("1 kgf m", "torque", 9.80665),
    ],
)
def test_parse(text, kind, inside):
    assert units.parse(text, kind) == pytest.approx(inside, rel=1e-14)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("12 bananas", "length"),
        ("12", "length"),
        ("mm", "length"),
        ("", "length"),
        ("12 s", "length"),
        ("0,5 mm", "length"),
        ("1 mm 2 mm", "length"),
        ("1e999 mm", "length"),
        ("nan mm", "length"),
        ("inf mm", "length"),
        ("1 pi", "length"),
        ("1 ª", "length"),
        ("١ mm", "length"),  # a digit, but not one a shop's file means
        ("1 mm", "slope"),
        ("1 mm/0 mm", "slope"),
        ("1 mm/-5 mm", "slope"),
        ("1 mm/s", "slope"),
        ("1 mm/2 mm/3 mm", "slope"),
        ("5 mm", "time"),
        ("5 mm", "angle"),
        ("60", "torque"),
        ("60 N", "torque"),
        ("60 mm", "torque"),
        ("60 N m m", "torque"),
        ("60 N/m", "torque"),
        ("60 lbf mm s", "torque"),
    ],
)
def test_parse_refuses_in_plain_words(text, kind):
    with pytest.raises(units.UnitError) as caught:
        units.parse(text, kind)
    assert str(caught.value) == f'found "{text}"; allowed: {units.EXAMPLES[kind]}'


WRITTEN = [(text, kind) for kind, say in units.EXAMPLES.items() for text in say.split('"')[1::2]]
NUMBER = r"[\d.]+"


@steady
@given(st.floats() | st.integers(), st.sampled_from(WRITTEN))
@example(1e308, ("1 in", "length"))
def test_any_number_with_a_unit_is_a_finite_quantity_or_a_unit_error(number, written):
    text, kind = written
    try:
        value = units.parse(re.sub(NUMBER, str(number), text, count=1), kind)
    except units.UnitError as error:
        assert not math.isfinite(number) or abs(number) > 1e290, error
    else:
        assert math.isfinite(value)


@steady
@given(st.text(max_size=20), st.sampled_from(list(units.EXAMPLES)))
def test_any_text_is_a_quantity_or_a_unit_error(text, kind):
    with suppress(units.UnitError):
        assert math.isfinite(units.parse(text, kind))


def test_examples_in_messages_are_themselves_allowed():
    for kind, words in units.EXAMPLES.items():
        for text in words.split('"')[1::2]:
            assert math.isfinite(units.parse(text, kind))


def test_a_millimetre_and_an_inch():
    assert units.MM_PER == {"mm": 1.0, "in": 25.4}  # NIST SP 811, appendix B.8


def test_what_torque_wrenches_count_by():
    assert units.NM_PER["mm"] == units.parse("1 N m", "torque")
    assert units.NM_PER["in"] == pytest.approx(units.parse("1 lbf ft", "torque"), rel=1e-14)
    assert units.NM_PER["in"] == pytest.approx(1.355818, abs=5e-7)  # NIST SP 811, appendix B.8


@pytest.mark.parametrize(
    ("value_mm", "unit", "decimals", "plus", "text"),
    [
        (1.2, "mm", 3, False, "1.200"),
        (1.2, "mm", 3, True, "+1.200"),
        (-1.2, "mm", 3, True, "-1.200"),
        (25.4, "in", 4, False, "1.0000"),
        (-0.0004, "mm", 3, False, "0.000"),
        (-0.0004, "mm", 3, True, "0.000"),
        (0.0004, "mm", 3, True, "0.000"),
        (-0.0, "in", 4, True, "0.0000"),
        (0.0, "mm", 0, False, "0"),
    ],
)
def test_show(value_mm, unit, decimals, plus, text):
    assert units.show(value_mm, unit, decimals, plus=plus) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_show_refuses_what_is_no_number(value):
    with pytest.raises(units.UnitError, match="allowed: a finite number"):
        units.show(value, "mm", 3)


@steady
@given(st.integers(-999_999, 999_999), st.sampled_from(["mm", "in"]))
def test_a_gauge_face_survives_the_way_in_and_out(counts, unit):
    decimals = 3 if unit == "mm" else 5
    face = f"{counts / 10**decimals:.{decimals}f}"
    shown = units.show(float(face) * units.MM_PER[unit], unit, decimals)
    assert float(shown) == float(face)
    assert shown.lstrip("-") == face.lstrip("-")


@pytest.mark.parametrize(
    ("text", "decimals"), [("+001.234", 3), ("0,125-", 3), ("12", 0), (".5", 1), ("-0.00005", 5)]
)
def test_places_are_those_sent(text, decimals):
    assert units.places(text) == decimals
