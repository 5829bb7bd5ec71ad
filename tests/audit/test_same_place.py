"""A result, its uncertainty and its limit to one last place (JCGM 100, 7.2.6)."""

import pytest

from daq.audit.views.figures import rounded_up, same_place
from daq.screens.numbers import _freedom
from daq.units import show
from daq.words import Figure, said
from tests.words import en


# U 0.0040 beside a lean of -0.0055: both to four places.
@pytest.mark.parametrize(
    ("expanded", "unit", "digits"),
    [(0.0040, "mm", 4), (0.012, "mm", 3), (0.00042, "mm", 5), (25.4 * 0.0004, "in", 5)],
)
def test_the_uncertainty_has_two_digits(expanded, unit, digits):
    assert same_place(0.0, (-0.025, 0.025), unit, expanded) == digits


@pytest.mark.parametrize("value", [0.0104, 0.01004, -0.0104, -0.00996, 0.010004])
def test_what_is_past_a_limit_never_reads_as_the_limit(value):
    digits = same_place(value, (-0.010, 0.010), "mm")
    assert show(abs(value), "mm", digits) != show(0.010, "mm", digits)


def test_what_is_at_the_limit_or_far_from_it_takes_no_more_places():
    assert same_place(0.010, (-0.010, 0.010), "mm") == 3
    assert same_place(0.002, (-0.010, 0.010), "mm") == 3
    # One that may not be low at all on one side: nothing reads as no lean.
    assert same_place(0.0001, (0.0, 0.010), "mm") == 3


def test_an_uncertainty_is_never_shown_smaller():
    assert en(rounded_up(0.00401, "mm", 4)) == "0.0041 mm"
    assert en(rounded_up(0.0040, "mm", 4)) == "0.0040 mm"


def test_degrees_of_freedom_are_whole_ones_cut():
    assert (_freedom(5691.9), _freedom(8.0)) == (Figure(5691.0, 0), Figure(8.0, 0))
    assert _freedom(None) == said("many")
