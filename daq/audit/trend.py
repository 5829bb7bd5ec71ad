"""The trend of a machine: what its signed audits show together, and when the next is due."""

import datetime
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final, Literal

from daq.audit.history import Done
from daq.audit.parts import AxisResult
from daq.metrology.charts import LAMBDA, Chart, EwmaChart, ewma, individuals
from daq.words import Axis, Said, said
from daq.words.trend import (
    AuditDue,
    AxisTrend,
    LeftOut,
    Smoothed,
    TrendLimits,
    TrendPoint,
    TrendSeries,
    TrendView,
)

OVER_MM: Final = 300.0
"""The length every error is given over: the one tolerances of spindles are stated for."""

FEWEST: Final = 8
"""So many values that count make limits; limits of fewer say little (common practice, no
source)."""

ANGLED = said("found-angled")
OFF_SCALE = said("found-off-scale")


def trend(history: Sequence[Done], every_days: int | None, today: str) -> TrendView:
    """Return what a machine's signed audits show, oldest first.

    Practice stays out. As found, an audit after angled work stays out too: the head was
    swung on purpose. One after a crash is shown but does not count: its cause is known, and
    limits made with it would hide the next. `every_days`: the interval the shop agreed, if
    any; `today`: ISO date.
    """
    real = [each for each in history if each.reason != "practice"]
    return TrendView(
        OVER_MM,
        len(real),
        _axis(real, "side"),
        _axis(real, "nod"),
        due(real, every_days, today),
    )


def _axis(history: Sequence[Done], axis: Axis) -> AxisTrend:
    found = [(each, each.found(axis)) for each in history]
    return AxisTrend(
        as_found=_series(
            [
                _error(each, axis, result, counts=each.reason != "crash")
                for each, result in found
                if result is not None and each.reason != "after-angled-work"
            ],
            tuple(_left_out(history)),
        ),
        as_left=_series([_error(each, axis, each.left(axis)) for each in history]),
        tightening=_series([p for each in history for p in _shifts(each, axis)]),
    )


def _left_out(history: Sequence[Done]) -> Iterator[LeftOut]:
    for each in history:
        if each.reason == "after-angled-work":
            yield LeftOut(each.audit, each.short, each.seq, each.day, ANGLED)
        elif not each.as_found:
            say = each.as_found_say or OFF_SCALE
            yield LeftOut(each.audit, each.short, each.seq, each.day, say)


def _error(each: Done, axis: Axis, result: AxisResult, *, counts: bool = True) -> TrendPoint:
    allowed = each.limits(axis)
    return _point(
        each,
        result.error_mm,
        counts=counts,
        low_mm=allowed.low_mm,
        high_mm=allowed.high_mm,
        word=result.word,
    )


def _shifts(each: Done, axis: Axis) -> list[TrendPoint]:
    return [_point(each, shift_mm) for shift_mm in each.shifted(axis)]


def _point(
    each: Done,
    value_mm: float,
    *,
    counts: bool = True,
    low_mm: float | None = None,
    high_mm: float | None = None,
    word: Literal["in", "out", "close"] | None = None,
) -> TrendPoint:
    scale = OVER_MM / each.diameter_mm
    return TrendPoint(
        audit=each.audit,
        short=each.short,
        seq=each.seq,
        day=each.day,
        reason=each.reason,
        value_mm=value_mm * scale,
        allowed_low_mm=None if low_mm is None else low_mm * scale,
        allowed_high_mm=None if high_mm is None else high_mm * scale,
        word=word,
        counts=counts,
        outside=False,
        smoothed=None,
    )


def _series(points: Sequence[TrendPoint], left_out: tuple[LeftOut, ...] = ()) -> TrendSeries:
    counted = [i for i, each in enumerate(points) if each.counts]
    if len(counted) < FEWEST:
        say = said("limits-come", fewest=FEWEST, there=len(counted))
        return TrendSeries(tuple(points), None, left_out, say)
    values = [points[i].value_mm for i in counted]
    chart = individuals(values)
    smooth = ewma(values, chart.center, chart.sd)
    beyond = set(chart.outside([each.value_mm for each in points]))
    smoothed = dict(zip(counted, _smoothed(smooth), strict=True))
    marked = tuple(
        replace(each, outside=i in beyond, smoothed=smoothed.get(i))
        for i, each in enumerate(points)
    )
    return TrendSeries(marked, _limits(chart, smooth), left_out, _shown(marked))


def _smoothed(chart: EwmaChart) -> list[Smoothed]:
    outside = set(chart.outside)
    each = zip(chart.points, chart.lows, chart.highs, strict=True)
    return [Smoothed(at, low, high, i in outside) for i, (at, low, high) in enumerate(each)]


def _limits(chart: Chart, smooth: EwmaChart) -> TrendLimits:
    return TrendLimits(
        center_mm=chart.center,
        low_mm=chart.low,
        high_mm=chart.high,
        sd_mm=chart.sd,
        smoothed_low_mm=smooth.low,
        smoothed_high_mm=smooth.high,
        weight=LAMBDA,
    )


def _shown(points: Sequence[TrendPoint]) -> Said:
    single = [each for each in points if each.outside]
    drifted = [each for each in points if each.smoothed is not None and each.smoothed.outside]
    shown = []
    if single:
        shown.append(said("outside-limits", values=len(single), day=single[-1].day))
    if drifted:
        shown.append(said("has-drifted", values=len(drifted), day=drifted[-1].day))
    if len(shown) > 1:
        return said("and-then", first=shown[0], next=shown[1])
    return shown[0] if shown else said("inside-limits")


def due(history: Sequence[Done], every_days: int | None, today: str) -> AuditDue:
    """Return when the next audit is due: so many days after the last signed one.

    Any signed audit counts, whatever its reason and its verdict. On the day itself it is
    due and not yet overdue; where an interval is agreed and none was ever signed, it is.
    """
    last = history[-1] if history else None
    last_day = last.day if last else None
    if every_days is None:
        say = said("no-interval")
        return AuditDue(last_day, None, None, None, False, say)
    if last is None:
        say = said("none-signed")
        return AuditDue(None, every_days, None, None, True, say)
    day = datetime.date.fromisoformat(last.day) + datetime.timedelta(days=every_days)
    left = (day - datetime.date.fromisoformat(today)).days
    say = _due_say(day.isoformat(), left)
    if not last.utc_trusted:
        say = said("and-then", first=say, next=said("clock-not-set"))
    return AuditDue(last_day, every_days, day.isoformat(), left, left < 0, say)


def _due_say(day: str, left: int) -> Said:
    if left < 0:
        return said("overdue", days=-left, day=day)
    return said("due-on", days=left, day=day) if left else said("due-today")
