import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.metrology.pushed import face, pushed_in

values = st.floats(-50.0, 50.0)
cosines = st.floats(0.5, 1.0)


def test_a_gauge_that_counts_up_is_taken_as_it_is():
    assert pushed_in(1.2, True, 1.0) == 1.2


def test_a_gauge_that_counts_down_is_turned_round():
    assert pushed_in(1.2, False, 1.0) == -1.2


def test_a_stylus_at_sixty_degrees_reads_double():
    # true = indicated × cos α: textbook geometry of the test indicator.
    assert pushed_in(2.0, True, math.cos(math.radians(60.0))) == pytest.approx(1.0, abs=1e-15)


@settings(derandomize=True)
@given(values, st.booleans(), cosines)
def test_face_undoes_pushed_in(value_mm: float, counts_up: bool, cosine: float):
    there = pushed_in(value_mm, counts_up, cosine)
    assert face(there, counts_up, cosine) == pytest.approx(value_mm, abs=1e-12)


@settings(derandomize=True)
@given(values, st.booleans(), cosines)
def test_the_other_direction_of_counting_is_the_other_sign(
    value_mm: float, counts_up: bool, cosine: float
):
    assert pushed_in(-value_mm, not counts_up, cosine) == pushed_in(value_mm, counts_up, cosine)
