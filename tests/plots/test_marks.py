"""What a drawing is made of: text that is safe, the same each time, and needs no style."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.plots import marks
from daq.plots.scale import scale, within, written
from tests.plots.seen import parsed

SPAN = st.floats(-1e300, 1e300)


def test_words_cannot_break_out():
    svg = marks.drawing(
        "run", 10, 10, '<b>"&', "]]>", marks.words(1, 1, "</text><script>"),
        marks.told("<x>", href='/a"onclick="b'),
    )  # fmt: skip
    root = parsed(svg)
    assert [each.tag.rpartition("}")[2] for each in root.iter()] == [
        "svg", "title", "desc", "rect", "text", "a", "title",
    ]  # fmt: skip
    assert root[0].text == '<b>"&' and root[3].text == "</text><script>"
    assert root[4].attrib == {"href": '/a"onclick="b'}


def test_nothing_carries_a_style_or_a_script():
    every = "".join(marks.group(kind, marks.path("M0 0h1", kind)) for kind in marks.PAPER)
    svg = marks.drawing("run", 10, 10, "a", "b", every, links=True)
    assert not re.search(r"\bstyle=|<style|<script|\bon\w+=|url\(|&[a-z]", svg)
    for each in parsed(svg).iter():
        assert each.get("class") is None or each.get("fill") or each.tag.endswith("svg")


@pytest.mark.parametrize(
    ("value", "text"), [(1.0, "1"), (-0.04, "0"), (0.05001, "0.1"), (12.34, "12.3"), (-7.96, "-8")]
)
def test_a_coordinate_is_written_with_one_decimal(value, text):
    assert marks.number(value) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_not_drawn(value):
    with pytest.raises(ValueError, match="allowed: a finite number"):
        marks.number(value)


@given(st.lists(SPAN, max_size=6), st.integers(2, 9))
def test_a_scale_holds_every_value_between_round_ticks(values, most):
    made = scale(values, 300.0, 40.0, most)
    assert made.low < made.high and 2 <= len(made.ticks) <= most + 3
    step = made.ticks[1] - made.ticks[0]
    first = step / 10.0 ** math.floor(math.log10(step))
    assert min(abs(first - n) for n in (1.0, 2.0, 5.0, 10.0)) < 1e-3
    for value in values:
        assert 40.0 <= made.at(value) <= 300.0
        assert abs(value) > 1e9 or made.beyond(value) == 0
    for tick in made.ticks:
        assert float(written(tick, made.digits)) == pytest.approx(tick, abs=step * 1e-3)


def test_a_scale_of_values_that_are_equal_or_none_is_one():
    assert scale([], 0.0, 1.0, 5, 1.0).ticks
    assert scale([3.0, 3.0], 0.0, 1.0, 5, 1.0).at(3.0) == pytest.approx(0.5)


def test_a_value_far_out_does_not_flatten_the_others():
    assert within([0.4, -0.01], [-0.025, 0.025], 1.3) == (-0.025, 0.025, 0.0325, -0.01)
    assert within([0.4], [0.0], 1.3) == (0.0, 0.4)


@given(SPAN, st.integers(0, 6))
def test_a_value_that_reads_as_zero_has_no_sign(value, digits):
    text = written(value, digits, plus=True)
    assert float(text) != 0.0 or text[0] == "0"
