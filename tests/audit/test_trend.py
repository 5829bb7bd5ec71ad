"""What signed audits show together."""

import datetime
import json
from dataclasses import replace
from itertools import count

import numpy as np
import pytest

from daq.audit import trend as trends
from daq.audit.history import KEPT, History, SignedAudit
from daq.audit.parts import AxisResult, AxisShift
from daq.audit.pivots import pivots
from daq.audit.state import MachineState
from daq.audit.trend import FEWEST
from daq.metrology.charts import ewma, individuals
from daq.metrology.rule import Limits
from daq.settings import plain
from daq.words import Both, Shown, said
from tests.audit.conftest import setup_of
from tests.words import en

TODAY = "2026-06-01"
MACHINE = setup_of(limit=0.025).machine
BEYOND = said("off-scale-beyond", position="back", by=Shown(1.2, "mm", 1), unit="mm")
FOUND = [0.004, -0.002, 0.006, 0.001, -0.005, 0.003, 0.002, -0.001, 0.005]
"""Errors as found, mm over the sweep."""


def axis(error_mm, diameter_mm=200.0, word="in"):
    return AxisResult(error_mm, error_mm, 0.025 * diameter_mm / 300.0, word)


def audits(found=FOUND, **other):
    """One audit a value, a month apart; the nod is found mirrored."""
    return tuple(
        audit(seq, value, day=datetime.date(2025, 1, 1) + datetime.timedelta(30 * seq), **other)
        for seq, value in zip(count(1), found, strict=False)
    )


def audit(
    seq, found, *, day=datetime.date(2026, 5, 1), reason="scheduled", diameter_mm=200.0, shifts=()
):
    allowed = Limits(-0.025 * diameter_mm / 300.0, 0.025 * diameter_mm / 300.0)
    return SignedAudit(
        audit=f"id-{seq}",
        short=f"A-{seq}",
        seq=seq,
        utc_us=seq,
        utc_trusted=True,
        day=day.isoformat(),
        reason=reason,
        diameter_mm=diameter_mm,
        as_found=Both(axis(found, diameter_mm), axis(-found, diameter_mm)),
        as_left=Both(axis(0.001, diameter_mm), axis(0.002, diameter_mm)),
        word="in",
        moves=2,
        limits=Both(allowed, allowed),
        pivots=pivots(None, MACHINE),
        shifts=tuple(AxisShift(*each) for each in shifts),
    )


def history_of(done):
    """What a machine keeps of them, each naming the one before it."""
    found, previous = History(), None
    for each in done:
        found = found.then(replace(each, previous=previous))
        previous = each.seq if each.reason != "practice" else previous
    return found


def trend(done, every_days, today):
    """Of few audits, all shown."""
    history = history_of(done)
    assert history.audits <= KEPT
    return shown(history, trends.latest(history, KEPT), every_days, today)


def shown(history, page, every_days=None, today=TODAY):
    """Of any page of a machine's history."""
    machine = replace(MACHINE, audit_every=every_days)
    return trends.trend(MachineState("mill", history=history), machine, today, page)


def values(series):
    return [point.value_mm for point in series.points]


def seqs(series):
    return [point.seq for point in series.points]


def test_errors_are_given_over_300_mm_whatever_the_sweep():
    # 0.004 over 200 is 0.006 over 300, and so is 0.002 over 100.
    view = trend([audit(1, 0.004), audit(2, 0.002, diameter_mm=100.0)], None, TODAY)
    assert view.over_mm == 300.0
    assert values(view.axes.side.as_found) == pytest.approx([0.006, 0.006], rel=1e-12)
    assert values(view.axes.nod.as_found) == pytest.approx([-0.006, -0.006], rel=1e-12)
    assert values(view.axes.side.as_left) == pytest.approx([0.0015, 0.003], rel=1e-12)
    for point in (*view.axes.side.as_found.points, *view.axes.nod.as_left.points):
        allowed = (point.allowed_low_mm, point.allowed_high_mm)
        assert allowed == pytest.approx((-0.025, 0.025), rel=1e-12)


def test_a_one_sided_tolerance_stays_one():
    one = audit(1, 0.004)
    one = replace(one, limits=one.limits.put("nod", Limits(None, 0.01)))
    (point,) = trend([one], None, TODAY).axes.nod.as_found.points
    assert point.allowed_low_mm is None
    assert point.allowed_high_mm == pytest.approx(0.015, rel=1e-12)


def test_limits_are_those_of_the_charts():
    side = trend(audits(), None, TODAY).axes.side.as_found
    over_300 = [1.5 * value for value in FOUND]
    chart = individuals(over_300)
    smooth = ewma(over_300, chart.center, chart.sd)
    assert values(side) == pytest.approx(over_300, rel=1e-12)
    assert (side.limits.center_mm, side.limits.sd_mm) == pytest.approx(
        (chart.center, chart.sd), rel=1e-12
    )
    assert (side.limits.low_mm, side.limits.high_mm) == pytest.approx(
        (chart.low, chart.high), rel=1e-12
    )
    assert [p.smoothed.value_mm for p in side.points] == pytest.approx(smooth.points, abs=1e-12)
    assert [p.smoothed.high_mm for p in side.points] == pytest.approx(smooth.highs, rel=1e-12)
    assert side.limits.smoothed_low_mm == pytest.approx(smooth.low, rel=1e-12)


@pytest.mark.parametrize("number", [0, 1, FEWEST - 1])
def test_few_audits_have_no_limits_and_say_so(number):
    side = trend(audits(FOUND[:number]), None, TODAY).axes.side.as_found
    assert side.limits is None
    assert len(side.points) == number
    there = "is 1" if number == 1 else f"are {number}"
    assert en(side.say) == f"Limits come with {FEWEST} values; there {there}."
    assert not any(point.outside or point.smoothed for point in side.points)


def test_enough_audits_have_them():
    side = trend(audits(FOUND[:FEWEST]), None, TODAY).axes.side.as_found
    assert side.limits is not None
    assert en(side.say) == "Every value lies inside the limits, and it has not drifted."


def test_a_value_far_off_is_marked_and_said():
    side = trend(audits([*FOUND, 0.08]), None, TODAY).axes.side.as_found
    assert [p.seq for p in side.points if p.outside] == [10]
    assert en(side.say).startswith(f"Outside the limits: 1 value, last on {side.points[-1].day}.")


def test_a_slow_drift_is_said():
    # Twelve about zero, then twelve two standard deviations off: no value stands out.
    noise = np.random.default_rng(7).normal(0.0, 0.004, 24)
    noise[12:] += 0.008
    side = trend(audits(noise.tolist()), None, TODAY).axes.side.as_found
    assert not any(p.outside for p in side.points)
    drifted = [p for p in side.points if p.smoothed.outside]
    assert drifted
    assert en(side.say).startswith(f"It has drifted: {len(drifted)} smoothed value")
    assert f"last on {drifted[-1].day}, outside the smoothed limits." in en(side.say)


def test_an_audit_after_angled_work_is_not_in_the_as_found_series_but_in_the_others():
    swung = audit(10, 3.0, reason="after-angled-work", shifts=[("side", 0.002)])
    view = trend((*audits(), swung), None, TODAY)
    assert seqs(view.axes.side.as_found) == list(range(1, 10))
    assert seqs(view.axes.side.as_left) == list(range(1, 11))
    assert seqs(view.axes.side.tightening) == [10]
    assert [(left.seq, en(left.say)[:19]) for left in view.axes.nod.as_found.left_out] == [
        (10, "Started after angle")
    ]


def test_practice_is_in_nothing():
    played = audit(10, 3.0, reason="practice", shifts=[("side", 0.002)])
    assert trend((*audits(), played), 30, TODAY) == trend(audits(), 30, TODAY)


@pytest.mark.parametrize("reason", ["crash", "moved"])
def test_a_known_cause_is_shown_and_judged_but_makes_no_limits(reason):
    crash = audit(10, 0.5, reason=reason)
    after, before = trend((*audits(), crash), None, TODAY), trend(audits(), None, TODAY)
    assert after.axes.side.as_found.limits == before.axes.side.as_found.limits
    last = after.axes.side.as_found.points[-1]
    assert (last.seq, last.counts, last.outside, last.smoothed) == (10, False, True, None)
    assert after.axes.side.as_left.points[-1].counts


def test_a_head_found_off_scale_gives_no_point_and_is_told():
    off = replace(audit(10, 0.0), as_found=None, off_scale=BEYOND)
    view = trend((*audits(), off), None, TODAY)
    assert seqs(view.axes.nod.as_found) == list(range(1, 10))
    (left_out,) = view.axes.nod.as_found.left_out
    assert (left_out.audit, left_out.say) == ("id-10", BEYOND)
    assert seqs(view.axes.nod.as_left) == list(range(1, 11))


def test_every_tightening_is_a_point_of_its_axis():
    shifts = [("nod", 0.004), ("side", -0.001), ("nod", 0.002)]
    view = trend(audits(FOUND[:4], shifts=shifts), None, TODAY)
    assert seqs(view.axes.nod.tightening) == [1, 1, 2, 2, 3, 3, 4, 4]
    assert values(view.axes.nod.tightening)[:2] == pytest.approx([0.006, 0.003], rel=1e-12)
    assert values(view.axes.side.tightening) == pytest.approx([-0.0015] * 4, rel=1e-12)
    assert view.axes.nod.tightening.limits is not None
    assert view.axes.side.tightening.limits is None
    point = view.axes.nod.tightening.points[0]
    assert (point.word, point.allowed_low_mm, point.allowed_high_mm) == (None, None, None)


def test_mirrored_errors_have_mirrored_limits():
    view = trend(audits(), None, TODAY)
    side, nod = view.axes.side.as_found.limits, view.axes.nod.as_found.limits
    assert (nod.low_mm, nod.high_mm) == pytest.approx((-side.high_mm, -side.low_mm), rel=1e-9)
    assert nod.sd_mm == pytest.approx(side.sd_mm, rel=1e-12)


@pytest.mark.parametrize(
    ("today", "left", "overdue", "say"),
    [
        ("2026-05-02", 29, False, "Due on 2026-05-31, in 29 days."),
        ("2026-05-30", 1, False, "Due on 2026-05-31, in 1 day."),
        ("2026-05-31", 0, False, "Due today."),
        ("2026-06-01", -1, True, "Overdue by 1 day: it was due on 2026-05-31."),
        ("2027-05-31", -365, True, "Overdue by 365 days: it was due on 2026-05-31."),
    ],
)
def test_the_next_audit_is_due_so_many_days_after_the_last(today, left, overdue, say):
    due = trend([audit(1, 0.0)], 30, today).due
    assert (due.last_day, due.every_days, due.day) == ("2026-05-01", 30, "2026-05-31")
    assert (due.days_left, due.overdue, en(due.say)) == (left, overdue, say)


def test_where_none_was_signed_one_is_due():
    due = trend([], 30, TODAY).due
    assert (due.last_day, due.day, due.overdue) == (None, None, True)
    assert "one is due" in en(due.say)


def test_without_an_interval_nothing_is_due():
    due = trend(audits(), None, "2099-01-01").due
    assert (due.every_days, due.day, due.overdue) == (None, None, False)
    assert due.last_day == audits()[-1].day


def test_a_clock_nobody_had_set_is_told():
    adrift = replace(audit(1, 0.0), utc_trusted=False)
    say = en(trend([adrift], 30, TODAY).due.say)
    assert say.endswith("No time server had set the clock when the last one was signed.")


def test_the_whole_of_it_is_json():
    view = trend((*audits(), audit(10, 0.5, reason="crash")), 30, TODAY)
    again = json.loads(json.dumps(plain(view), allow_nan=False))
    assert again["audits"] == 10
    assert again["axes"]["side"]["as_found"]["points"][0]["smoothed"]["outside"] is False


@pytest.mark.parametrize("most", [1, 30, KEPT])
def test_what_is_kept_does_not_grow_and_the_limits_are_those_of_all(most):
    """By the charts of every value there ever was."""
    errors = np.random.default_rng(11).normal(0.0, 0.004, 3 * KEPT + 7).tolist()
    done = audits(errors, shifts=[("side", 0.001), ("side", -0.002)])
    history = history_of(done)
    assert (len(history.latest), history.audits) == (KEPT, len(errors))
    assert history.latest == tuple(
        replace(each, previous=before.seq)
        for before, each in zip(done[-KEPT - 1 : -1], done[-KEPT:], strict=True)
    )
    view = shown(history, trends.latest(history, most))
    side, over_300 = view.axes.side.as_found, [1.5 * error for error in errors]
    chart = individuals(over_300)
    smooth = ewma(over_300, chart.center, chart.sd)
    assert values(side) == pytest.approx(over_300[-most:], rel=1e-12)
    assert (side.limits.low_mm, side.limits.high_mm) == pytest.approx((chart.low, chart.high))
    found = [p.smoothed.value_mm for p in side.points]
    assert found == pytest.approx(smooth.points[-most:], rel=1e-9, abs=1e-12)
    shifts = individuals([0.0015, -0.003] * len(errors))
    assert view.axes.side.tightening.limits.sd_mm == pytest.approx(shifts.sd, rel=1e-9)
    assert len(view.axes.side.tightening.points) == 2 * most
    assert (view.more, view.audits) == (history.latest[-most].seq, len(errors))


def test_where_not_all_is_shown_the_words_say_so():
    quiet = history_of(audits([*FOUND, 0.08, *FOUND, *FOUND]))
    view = shown(quiet, trends.latest(quiet, 3))
    assert en(view.axes.side.as_found.say).startswith("Every value shown lies inside the limits")
    last = history_of(audits([*FOUND, *FOUND, 0.08]))
    view = shown(last, trends.latest(last, 3))
    assert en(view.axes.side.as_found.say).startswith("Outside the limits: 1 value shown, last on ")


def test_those_not_kept_are_for_the_ledger():
    history = history_of(audits([0.001] * (KEPT + 1)))
    assert trends.latest(history, KEPT + 1) is None
    assert trends.latest(history, 2, before=3) is None
    assert [each.seq for each in trends.latest(history, 2, before=5).shown] == [3, 4]
