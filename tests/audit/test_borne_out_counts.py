"""The counts of what was borne out: one by one they are what all audits at once come to."""

import math
import random
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import ndtr, stdtr

from daq.audit.borne_out import borne_out, stated
from daq.audit.stated import WHY, BorneOut, Count, Reliability
from daq.metrology.reliability import BANDS, LEARNS, WANDERS
from daq.words import AXES, Both
from tests.audit.test_borne_out import bench, sweep


@settings(deadline=None, derandomize=True)
@given(
    st.lists(
        st.tuples(
            st.floats(0.0, 1.0),
            st.sampled_from([None, None, None, *WHY]),
            st.booleans(),
            st.booleans(),
        ),
        max_size=60,
    ),
    st.integers(0, 60),
)
def test_the_shops_counts_are_the_sum_of_its_machines(drawn, cut):
    every = [BorneOut("A-1", p, why, a, r, None) for p, why, a, r in drawn]
    first, second = Reliability(), Reliability()
    for found in every[:cut]:
        first = first.then(found)
    for found in every[cut:]:
        second = second.then(found)
    both = first.plus(second)
    assert both.left_out == Counter(each.why for each in every if each.why)
    counted = [each for each in every if each.why is None]
    for begin, end, count in zip(BANDS, (*BANDS[1:], 2.0), both.bands, strict=True):
        band = [each for each in counted if begin <= each.probability < end]
        assert count == Count(
            len(band), sum(each.agreed for each in band), sum(each.as_read for each in band)
        )


@pytest.fixture(scope="module")
def pattern():
    """One audit that stands at its signature; what it read is changed at will."""
    b = bench()
    sweep(b, 0.004, -0.002)
    b.do("cleared")
    return b.state.job


lives = st.lists(
    st.tuples(
        st.sampled_from(["scheduled", "scheduled", "check-only", "bad-work", "crash"]),
        st.tuples(st.floats(-0.024, 0.024), st.floats(-0.024, 0.024)),  # as found less as left
        st.tuples(st.floats(-0.019, 0.019), st.floats(-0.019, 0.019)),
        st.floats(0.0005, 0.006),
        st.one_of(st.none(), st.floats(4.0, 60.0)),
    ),
    min_size=8,
    max_size=25,
)


def below(mm, u_mm, dof):
    """Which share lies below so far over the estimate."""
    return float(ndtr(mm / u_mm) if dof is None else stdtr(math.floor(dof), mm / u_mm))


def swept_as(job, mm, u_mm, dof):
    """A sweep that reads these differences with that doubt; nothing of it is the same again."""
    done = job.sweeps.done[-1]
    results = Both.of(
        lambda axis: replace(
            done.results[axis],
            d_mm=mm[axis],
            error_mm=mm[axis],
            u_mm=u_mm,
            dof=dof,
            word="in",
            probability=below(0.020 - mm[axis], u_mm, dof) - below(-0.020 - mm[axis], u_mm, dof),
        )
    )
    return replace(done, results=results, budgets=None)


def by_force(life):
    """The counts from all audits at once, each with all that came before it; by scipy."""
    found, pairs = Counter(), {axis: [] for axis in AXES}
    for (_, _, left, u1, dof1), (reason, moved, _, u2, dof2) in pairwise(life):
        if reason == "crash":
            found["crash"] += 1
            continue
        u = math.hypot(u1, u2)
        before = {axis: list(pairs[axis]) for axis in AXES}
        for axis, apart in zip(AXES, moved, strict=True):
            pairs[axis].append((min(abs(apart), 0.020), u))
        if len(before["side"]) < LEARNS:
            found["learning"] += 1
            continue
        going = {axis: beyond(before[axis]) for axis in AXES}
        if any(sd > WANDERS * u for sd, _ in going.values()):
            found["wanders"] += 1
            continue
        inside, p = [], 1.0
        for axis, at, apart in zip(AXES, left, moved, strict=True):
            low, high = below(-0.020 - at, u1, dof1), below(at - 0.020, u1, dof1)
            p *= 1.0 - high - low
            parts = [(u1, dof1), (u2, dof2), going[axis]]
            whole = math.hypot(*(part for part, _ in parts))
            doubt = sum((part / whole) ** 4 / dof for part, dof in parts if dof is not None)
            many = max(1.0, 1.0 / doubt) if doubt else math.inf
            far = -abs(apart) / whole  # the tail: beside one, what is far out would be lost
            share = float(ndtr(far) if math.isinf(many) else stdtr(many, far))
            inside.append(share >= (high if apart > 0.0 else low))
        found[sum(p >= begin for begin in BANDS) - 1, all(inside)] += 1
    return found


def beyond(pairs):
    """What these pairs differ by beyond their doubts, and its degrees of freedom."""
    seen = 0.5 * math.pi * (sum(apart for apart, _ in pairs) / len(pairs)) ** 2
    rest = seen - sum(u * u for _, u in pairs) / len(pairs)
    return (math.sqrt(rest), len(pairs) * (rest / seen) ** 2) if rest > 0.0 else (0.0, None)


@given(life=lives)
@settings(max_examples=40, deadline=None, derandomize=True)
def test_counted_one_by_one_they_are_what_all_audits_at_once_come_to(pattern, life):
    counted, before = Reliability(), None
    for reason, moved, left, u_mm, dof in life:
        job = replace(
            pattern,
            reason=reason,
            setup=replace(pattern.setup, stated=before, going=counted.going),
        )
        if before is not None:
            came = Both.of(
                lambda axis, moved=moved, was=before: (
                    was.axes[axis].lean_mm / 1.5 + moved[AXES.index(axis)]
                )
            )
            counted = counted.then(borne_out(job, swept_as(job, came, u_mm, dof), "2026-02-01"))
        before = stated(job, swept_as(job, Both(*left), u_mm, dof), "2026-01-01")
    wanted = by_force(life)
    assert counted.left_out == {why: wanted[why] for why in WHY if wanted[why]}
    for at, count in enumerate(counted.bands):
        agreed, not_agreed = wanted[at, True], wanted[at, False]
        assert (count.audits, count.agreed) == (agreed + not_agreed, agreed)


def test_stated_90_to_95_percent_sure_of_both_axes_so_many_agree(pattern):
    """Leans as likely one as another, read with two doubts; the head moves by itself meanwhile."""
    draw, counted, before, inside = random.Random(11), Reliability(), None, 0
    u_mm, moves_mm, true = 0.004, 0.003, None
    for _ in range(1500):
        job = replace(pattern, setup=replace(pattern.setup, stated=before, going=counted.going))
        if before is not None:
            came = Both.of(
                lambda axis, true=true: true[axis] + draw.gauss(0.0, math.hypot(u_mm, moves_mm))
            )
            counted = counted.then(borne_out(job, swept_as(job, came, u_mm, None), "2026-02-01"))
        left = Both(
            draw.choice((-1, 1)) * draw.uniform(0.0137, 0.0141), draw.uniform(-0.005, 0.005)
        )
        true = left.map(lambda mm: draw.gauss(mm, u_mm))
        inside += all(abs(mm) <= 0.020 for mm in true.values())
        before = stated(job, swept_as(job, left, u_mm, None), "2026-01-01")
    band = counted.bands[2]
    assert band.audits == 1500 - 1 - LEARNS
    assert 0.915 < inside / 1500 < 0.945
    assert band.agreed / band.audits == pytest.approx(inside / 1500, abs=0.015)
    assert band.as_read < band.agreed
