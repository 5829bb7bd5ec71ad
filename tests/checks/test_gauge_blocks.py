"""A set of gauge blocks: the stacks it makes, the plan through them, how far off they are."""

import dataclasses
import datetime
import itertools
import math

import numpy as np
import pytest
from GTC import reporting, ureal
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.gauge.blocks import BlockSet, GaugeBlock, SetCertificate
from daq.checks.gauge.doubt import SCALE_DOUBT, SQUARE, WorkedWith, doubted, judged
from daq.checks.gauge.plan import over, steps, within_a_turn
from daq.checks.gauge.reduce import LengthRead, reduce, short_span
from daq.metrology.rule import Rule

PAPERS = SetCertificate("C-9", datetime.date(2026, 2, 9), 0.00012)


def a_set(*sizes, **given):
    return BlockSet("Set", "B-1", PAPERS, tuple(GaugeBlock(mm) for mm in sizes), **given)


HUNDREDTHS = a_set(*(round(1 + 0.01 * n, 2) for n in range(50)), *(0.5 * n for n in range(3, 21)))


@settings(derandomize=True, max_examples=60)
@given(st.sets(st.integers(1, 30), min_size=1, max_size=8), st.integers(1, 70))
def test_a_stack_is_the_fewest_blocks_by_counting_all_out(sizes, wanted):
    ways = [w for n in (1, 2, 3) for w in itertools.combinations(sizes, n) if sum(w) == wanted]
    stack = a_set(*(size / 10.0 for size in sizes)).stack(wanted / 10.0)
    if not ways:
        assert stack is None
    else:
        assert len(stack) == min(len(way) for way in ways)
        assert sum(each.nominal for each in stack) == pytest.approx(wanted / 10.0)


def test_no_length_is_the_surface_they_stand_on():
    assert HUNDREDTHS.stack(0.0) == ()


def test_a_set_says_what_is_wrong_in_it():
    with pytest.raises(ValueError, match="found two blocks of 1 mm that are not told apart"):
        a_set(1.0, 2.0, 1.0)
    with pytest.raises(ValueError, match="found no blocks"):
        a_set()


def test_two_of_one_length_are_told_apart_by_what_stands_on_them():
    first, second = (GaugeBlock(1.0, mm, identification=f"W{mm:g}") for mm in (2e-5, -1e-5))
    worn = dataclasses.replace(HUNDREDTHS, blocks=(first, second, GaugeBlock(2.0)))
    assert worn.stack(1.0) == (first,) and worn.stack(3.0) == (GaugeBlock(2.0), first)
    for second in (dataclasses.replace(first, deviation=0.0), GaugeBlock(1.0)):
        with pytest.raises(ValueError, match="allowed: another identification for each of them"):
            dataclasses.replace(worn, blocks=(first, second))


def test_the_plan_goes_over_the_span_in_ten_and_within_a_turn_in_ten():
    whole = over(HUNDREDTHS, 0.0, 12.7)
    assert len(whole) == 11
    assert (whole[0], whole[-1] > 11.4, whole[-1] <= 12.7) == (0.0, True, True)
    turn = within_a_turn(HUNDREDTHS, 0.0, 12.7, 0.2)
    assert np.diff(turn) == pytest.approx([0.02] * 10)
    assert all(len(HUNDREDTHS.stack(mm)) == 1 for mm in turn)


def test_what_a_set_cannot_make_is_told():
    few = a_set(1.0, 2.0, 5.0)
    with pytest.raises(ValueError, match=r"found no ten steps of 0\.02 mm that this set makes"):
        within_a_turn(few, 0.0, 5.0, 0.2)
    with pytest.raises(ValueError, match="found 1 lengths of this set from 7 to 8 mm"):
        over(few, 7.0, 8.0)


def test_blocks_that_grow_as_steel_are_what_the_certificate_says_however_warm():
    one = GaugeBlock(10.0, deviation=0.0003)
    assert HUNDREDTHS.deviation_mm([one], 26.0) == pytest.approx(0.0003)
    other = a_set(10.0, expansion=9.5e-6)  # grows 2e-6 a kelvin less than the gauge
    assert other.deviation_mm([one], 25.0) == pytest.approx(0.0003 - 10.0 * 2e-6 * 5.0)


def way(errors, repeats=2):
    """Readings up and down through lengths of such errors; repeats differ by `noise`."""
    lengths = sorted(errors)
    return [
        LengthRead(s.nominal_mm, s.nominal_mm + errors[s.nominal_mm] + noise, s.direction)
        for s in steps(lengths, down=True, repeats=repeats)
        for noise in [0.0004 if s.round == 2 and s.nominal_mm == lengths[1] else 0.0]
    ]


def bench(points, celsius=23.0, rested_s=7200.0):
    stacks = tuple(HUNDREDTHS.stack(point.nominal_mm) for point in points)
    return WorkedWith(HUNDREDTHS, stacks, celsius, rested_s, 0.001)


@pytest.mark.parametrize(("rested_s", "unlike_k"), [(7200.0, 0.5), (60.0, 2.0)])
def test_its_budget_is_that_of_a_reference_for_the_gum(rested_s, unlike_k):
    """Reference: GTC, linear propagation of the difference of two readings on two stacks."""
    points = way({0.0: 0.0, 1.0: -0.001, 5.0: 0.0, 10.0: 0.002})
    found = reduce(points, 0.004)
    budget = doubted(found, bench(points, rested_s=rested_s), 0.95)

    def within(bound, label):
        return ureal(0.0, bound / math.sqrt(3.0), label=label)

    apart, block = 9.0, [ureal(0.0, 0.00006, label=f"block {n}") for n in (1, 10)]
    digit = [ureal(0.0, 0.001 / math.sqrt(12.0), label=f"digit {n}") for n in (1, 10)]
    spread = ureal(0.0, math.sqrt(2.0) * found.repeatability_mm, found.freedom, label="repeats")
    both = within(math.hypot(1e-6, SCALE_DOUBT), "expansion") * apart * 3.0
    warm = within(unlike_k, "unlike") * apart * 11.5e-6
    tilt = within(apart * (1.0 - math.cos(SQUARE)), "square")
    span = block[1] - block[0] + digit[1] - digit[0] + spread + both + warm + tilt
    assert budget.u_mm == pytest.approx(span.u, rel=1e-6)
    assert budget.dof == pytest.approx(span.df, rel=1e-6)
    k = reporting.k_factor(math.floor(span.df))
    assert budget.expanded_mm == pytest.approx(k * span.u, rel=1e-4)


def test_without_repeats_nothing_is_judged():
    points = way({0.0: 0.0, 1.0: 0.001, 2.0: 0.0}, repeats=1)
    with pytest.raises(ValueError, match="found no repeats"):
        doubted(reduce(points, 0.004), bench(points), 0.95)


def test_by_the_shops_rule_the_same_check_is_too_close_or_good():
    points = way({0.0: 0.0, 1.0: 0.0, 5.0: 0.0033, 10.0: 0.0})
    found = reduce(points, 0.004)
    budget = doubted(found, bench(points), 0.95)
    assert judged(found, budget, Rule("guarded")).word == "close"
    assert judged(found, budget, Rule("simple")).word == "in"


def test_a_gauge_far_outside_is_bad_by_either_rule():
    points = way({0.0: 0.0, 1.0: 0.0, 5.0: 0.012, 10.0: 0.0})
    found = reduce(points, 0.004)
    for rule in (Rule("guarded"), Rule("simple")):
        assert judged(found, doubted(found, bench(points), 0.95), rule).word == "out"


def test_of_gauges_outside_hardly_any_is_called_good_nor_of_those_inside_bad():
    """400 gauges each, errors of a smooth curve and readings drawn anew: counted, 5 % stated."""
    draw = np.random.default_rng(20260209)
    lengths, limit = np.array([0.0, 1.0, 2.5, 5.0, 7.5, 10.0]), 0.004
    wrong, at_bench = {"in": 0, "out": 0}, None
    for true_span, never in ((limit * 1.0001, "in"), (limit * 0.9999, "out")):
        for _ in range(400):
            phase = draw.uniform(0.0, 2.0 * math.pi)
            curve = np.sin(lengths / draw.uniform(1.0, 3.0) + phase)
            curve *= true_span / np.ptp(curve)
            points = [
                LengthRead(s.nominal_mm, read, s.direction)
                for s in steps(lengths, down=True, repeats=2)
                for at in [int(np.searchsorted(lengths, s.nominal_mm))]
                for exact in [s.nominal_mm + curve[at] + draw.normal(0.0, 0.0004)]
                for read in [0.001 * round(exact / 0.001)]
            ]
            found, at_bench = reduce(points, limit), at_bench or bench(points)
            word = judged(found, doubted(found, at_bench, 0.95), Rule("guarded")).word
            wrong[never] += word == never
    assert wrong["in"] <= 0.05 * 400
    assert wrong["out"] <= 0.05 * 400


def test_the_short_span_is_read_from_one_side_by_means():
    points = way({1.0: 0.0, 1.1: 0.002, 1.2: 0.001, 5.0: -0.004})
    down = [LengthRead(p.nominal_mm, p.read_mm - 0.003, p.direction) for p in points[4:7]]
    mixed = [*points[:4], *down, *points[7:]]
    # Up: 0.002 and 0.0024 at 1.1; down: all 0.003 lower, which is no short span's doing.
    assert short_span(mixed) == pytest.approx(0.0022)
    assert reduce(mixed, 0.01).short_mm == pytest.approx(0.0022)
