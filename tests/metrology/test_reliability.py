"""What was stated, held against the next reading: drawn readings, and reference libraries."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binomtest
from scipy.stats import norm as normal
from scipy.stats import t as student

from daq.metrology.reliability import (
    BANDS,
    FEWEST,
    LEARNS,
    Between,
    DoubtPart,
    band_of,
    brought_back,
    wilson,
)
from daq.metrology.student import normal_quantile


@pytest.mark.parametrize(
    ("stated", "begins"),
    [
        (0.02, 0.0), (0.7999, 0.0), (0.8, 0.8), (0.8999, 0.8), (0.9, 0.9), (0.95, 0.95),
        (0.9899, 0.95), (0.99, 0.99), (1.0, 0.99),
    ],
)  # fmt: skip
def test_a_probability_belongs_to_the_band_that_begins_below_it(stated, begins):
    assert BANDS[band_of(stated)] == begins


@settings(deadline=None, derandomize=True)
@given(of=st.integers(1, 5000), data=st.data(), coverage=st.floats(0.5, 0.999))
def test_the_interval_is_wilsons_as_a_reference_library_has_it(of, data, coverage):
    agreed = data.draw(st.integers(0, of))
    theirs = binomtest(agreed, of).proportion_ci(coverage, "wilson")
    assert wilson(agreed, of, coverage) == pytest.approx(tuple(theirs), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(("agreed", "of"), [(1, 0), (0, 0), (3, 2), (-1, 4)])
def test_what_cannot_be_counted_is_refused(agreed, of):
    with pytest.raises(ValueError, match=f"found {agreed} of {of}; allowed"):
        wilson(agreed, of)


def test_twenty_are_what_make_one_worth_the_width_of_the_band_that_is_asked_about():
    assert pytest.approx(BANDS[3] - BANDS[2]) == 1.0 / FEWEST


@settings(deadline=None, derandomize=True)
@given(
    apart=st.floats(-0.05, 0.05),
    parts=st.lists(
        st.tuples(st.floats(1e-4, 0.01), st.one_of(st.none(), st.floats(1.0, 500.0))),
        min_size=1,
        max_size=3,
    ),
    own=st.tuples(st.floats(1e-4, 0.01), st.one_of(st.none(), st.integers(1, 300))),
)
def test_it_is_as_far_out_among_its_own_doubts_as_it_is_among_all_of_them(apart, parts, own):
    back = brought_back(apart, tuple(DoubtPart(*each) for each in parts), DoubtPart(*own))
    u = math.hypot(*(u for u, _ in parts))
    doubt = sum((part / u) ** 4 / dof for part, dof in parts if dof is not None)
    whole = student(max(1.0, 1.0 / doubt)) if doubt else normal()
    alone = student(own[1]) if own[1] is not None else normal()
    assert math.copysign(1.0, back) == math.copysign(1.0, apart)
    share = whole.sf(abs(apart) / u)
    if share > 1e-12:
        assert alone.sf(abs(back) / own[0]) == pytest.approx(share, rel=1e-6)


def test_far_beyond_every_table_it_is_still_far_out():
    back = brought_back(5.0, (DoubtPart(0.001, 40.0), DoubtPart(0.001)), DoubtPart(0.001))
    assert back > 0.5
    assert brought_back(0.002, (DoubtPart(0.0),), DoubtPart(0.0)) == 0.002


def test_what_goes_by_itself_is_what_pairs_differ_by_beyond_their_doubt():
    draw, known = random.Random(3), Between()
    for _ in range(4000):
        known = known.then(draw.gauss(0.0, 5.0), 3.0, 100.0)
    assert known.sd_mm == pytest.approx(4.0, rel=0.05)
    assert known.dof == pytest.approx(4000 * (16.0 / 25.0) ** 2, rel=0.1)


def test_pairs_no_further_apart_than_they_are_in_doubt_show_nothing_going():
    known = Between().then(0.5, 3.0, 100.0).then(-0.2, 3.0, 100.0)
    assert (known.sd_mm, known.dof) == (0.0, None)
    assert (Between().sd_mm, Between().dof) == (0.0, None)


def test_one_knock_counts_as_half_of_what_is_allowed_and_no_more():
    assert Between().then(-250.0, 3.0, 10.0) == Between(1, 10.0, 9.0)


def shares(going, wrong=1.0, *, machines=400, audits=25, seed=7):
    """Audits stated 90 to 95 % sure of one limit: agreed, as read, and how many truly were in."""
    draw = random.Random(seed)
    counted = agreed = as_read = inside = 0
    for _ in range(machines):
        known = Between()
        for _ in range(audits):
            margin = normal_quantile(draw.uniform(0.90, 0.95))
            error = draw.gauss(0.0, wrong)
            apart = error + draw.gauss(0.0, going) + draw.gauss(0.0, wrong)
            both = (DoubtPart(1.0), DoubtPart(1.0))
            if known.pairs >= LEARNS:
                allowed = (*both, DoubtPart(known.sd_mm, known.dof))
                counted += 1
                inside += error <= margin
                agreed += brought_back(apart, allowed, DoubtPart(1.0)) <= margin
                as_read += brought_back(apart, both, DoubtPart(1.0)) <= margin
            known = known.then(apart, math.sqrt(2.0), 20.0)
    return agreed / counted, as_read / counted, inside / counted


@pytest.mark.parametrize("going", [0.0, 0.7, 1.5, 2.5])
def test_ninety_to_ninety_five_reads_so_where_it_is_however_far_the_head_goes(going):
    agreed, as_read, inside = shares(going)
    assert 0.915 < inside < 0.935
    assert 0.90 < agreed < 0.95
    assert as_read <= agreed


def test_doubts_stated_too_small_show_where_nothing_is_allowed_for_but_them():
    """By itself no pair tells a head that goes from a sweep that is off by more than it says."""
    agreed, as_read, inside = shares(0.0, wrong=1.5)
    assert inside < 0.85
    assert as_read == pytest.approx(inside, abs=0.02)
    assert agreed > as_read
