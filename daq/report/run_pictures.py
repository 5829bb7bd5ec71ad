"""The pictures of a machine's run of audits, from its trend, for page and paper alike."""

from collections.abc import Callable, Collection, Iterator, Mapping
from itertools import takewhile
from typing import Final

from daq.plots.frame import Level
from daq.plots.picture import Picture
from daq.plots.pivots import PivotMark, PivotWords, pivots
from daq.plots.run import MOST, Mark, RunWords, run
from daq.report.drawn import Pen, low_end, pen_of
from daq.says import Language
from daq.says.language import Names
from daq.words import AXES, Axis, Said, Shown, said
from daq.words.trend import AxisTrend, PivotPoint, TrendPoint, TrendSeries, TrendView

Link = Callable[[str], str]
"""Where an audit's own page is, "" for nowhere."""

KEYS: Final = tuple(f"{kind}-{axis}" for kind in ("run", "shift", "pivot") for axis in AXES)
"""Every picture of a machine by its key, in the order they are shown."""

_PIVOT_DIGITS: Final = {"mm": 1, "in": 2}


def nowhere(_: str) -> str:
    """Links of a picture on paper."""
    return ""


def of_trend(
    view: TrendView,
    says: Language,
    names: Names,
    most: int = MOST,
    link: Link = nowhere,
    linked: Collection[str] = KEYS,
) -> Mapping[str, Picture]:
    """Return a machine's pictures by `KEYS`: of the latest so many audits that the trend holds.

    Those pictures are `linked` whose points lead to their audits.
    """
    pen, found = pen_of(says, names, view.unit), {}
    for axis, of in view.axes.items():
        to = {key: link if key in linked else nowhere for key in KEYS}
        run, shift, pivot = f"run-{axis}", f"shift-{axis}", f"pivot-{axis}"
        found[run] = _run(axis, of, view.over_mm, most, pen, to[run])
        found[shift] = _shift(axis, of, view.over_mm, most, pen, to[shift])
        found[pivot] = _pivots(axis, of, most, pen, to[pivot])
    return {key: found[key] for key in KEYS}


def _run(axis: Axis, of: AxisTrend, over_mm: float, most: int, pen: Pen, link: Link) -> Picture:
    pairs, name = tuple(_pairs(of, pen, link))[-most:], said("axis-name", axis=axis)
    told = RunWords(
        key=f"run-{axis}",
        title=pen.words(said("picture-run", axis=name, unit=pen.unit, over=pen.over(over_mm))),
        says=pen.words(said("picture-run-says", found=_all(of.as_found), left=_all(of.as_left))),
        headline=pen.words(_drifts(axis, of)),
        empty=pen.words(said("no-audit-yet")),
        up=pen.words(low_end(axis, above=True)),
        down=pen.words(low_end(axis, above=False)),
        found=pen.words(said("mark-found")),
        left=pen.words(said("mark-left")),
        hollow=pen.words(said("mark-hollow")) if any(each.hollow for each in pairs) else "",
        head=(
            pen.words(said("column-audit")),
            pen.words(said("column-date")),
            pen.words(said("column-found")),
            pen.words(said("column-left")),
            pen.words(said("column-allowed")),
            pen.words(said("column-smoothed")),
            pen.words(said("column-remarks")),
        ),
    )
    return run(pairs, tuple(_control(of, pen)), tuple(_beside(pairs, pen)), told, pen.digits)


def _drifts(axis: Axis, of: AxisTrend) -> Said | None:
    """Which way it drifts now, and since when; None where it does not."""
    smoothed = [(each, each.smoothed) for each in of.as_found.points if each.smoothed is not None]
    drifts = list(takewhile(lambda each: each[1].outside, reversed(smoothed)))
    if of.as_found.limits is None or not drifts:
        return None
    first, last = drifts[-1][0], drifts[0][1]
    end = low_end(axis, above=last.value_mm > of.as_found.limits.center_mm)
    return said("picture-drifts", day=first.day, audit=first.short, end=end)


def _all(series: TrendSeries) -> Said:
    assert isinstance(series.say, Said)
    return series.say


def _pairs(of: AxisTrend, pen: Pen, link: Link) -> Iterator[Mark]:
    """Every audit with what there is of it, oldest first: each has an as-left."""
    found = {point.audit: point for point in of.as_found.points}
    left_out = {each.audit: each for each in of.as_found.left_out}
    for left in of.as_left.points:
        point, none = found.get(left.audit), left_out.get(left.audit)
        why = "" if none is None else pen.words(none.say)
        if point is not None and not point.counts:
            why = f"{pen.words(said('reason', reason=point.reason))}."
        if not left.sure:
            why = " ".join(filter(None, (why, pen.words(said("clock-was-not-set")))))
        smoothed = None if point is None else point.smoothed
        yield Mark(
            name=left.short,
            day=left.day,
            href=link(left.audit),
            found=None if point is None else pen.value(point.value_mm),
            left=pen.value(left.value_mm),
            low=pen.maybe(left.allowed_low_mm),
            high=pen.maybe(left.allowed_high_mm),
            smoothed=None if smoothed is None else pen.value(smoothed.value_mm),
            drifted=smoothed is not None and smoothed.outside,
            hollow="both" if not left.sure else "found" if why else "",
            why=why,
            note=_note(point, pen),
        )


def _note(point: TrendPoint | None, pen: Pen) -> str:
    if point is None:
        return ""
    told = [said("beyond-control")] if point.outside else []
    if point.smoothed is not None and point.smoothed.outside:
        told.append(said("beyond-smoothed"))
    return " ".join(map(pen.words, told))


def _at(mm: float, pen: Pen) -> Shown:
    return Shown(mm, pen.unit, pen.digits, plus=True)


def _control(of: AxisTrend, pen: Pen) -> Iterator[Level]:
    found, left = of.as_found.limits, of.as_left.limits
    for limit in () if found is None else (found.low_mm, found.high_mm):
        say = pen.words(said("level-control", at=_at(limit, pen)))
        yield Level(pen.value(limit), say, "control")
    for limit in () if left is None else (left.low_mm, left.high_mm):
        say = pen.words(said("level-as-left", at=_at(limit, pen)))
        yield Level(pen.value(limit), say, "control left")


def _beside(pairs: tuple[Mark, ...], pen: Pen) -> Iterator[Level]:
    """What the tolerance of the latest audit is called, and the smoothed line."""
    if not pairs:
        return
    mm = 1.0 / pen.value(1.0)
    for limit in (pairs[-1].low, pairs[-1].high):
        if limit is not None:
            say = pen.words(said("level-allowed", at=_at(limit * mm, pen)))
            yield Level(limit, say, "limit")
    smoothed = [each.smoothed for each in pairs if each.smoothed is not None]
    if smoothed:
        yield Level(smoothed[-1], pen.words(said("mark-smoothed")), "smooth")


def _shift(axis: Axis, of: AxisTrend, over_mm: float, most: int, pen: Pen, link: Link) -> Picture:
    series, name = of.tightening, said("axis-name", axis=axis)
    unsure = pen.words(said("clock-was-not-set"))
    pairs = tuple(
        Mark(
            name=each.short,
            day=each.day,
            href=link(each.audit),
            left=pen.value(each.value_mm),
            hollow="" if each.sure else "both",
            why="" if each.sure else unsure,
            note=_note(each, pen),
        )
        for each in series.points[-most:]
    )
    limits = () if series.limits is None else (series.limits.low_mm, series.limits.high_mm)
    control = tuple(
        Level(pen.value(mm), pen.words(said("level-control", at=_at(mm, pen))), "control")
        for mm in limits
    )
    told = RunWords(
        key=f"shift-{axis}",
        title=pen.words(said("picture-shift", axis=name, unit=pen.unit, over=pen.over(over_mm))),
        says=pen.words(series.say),
        empty=pen.words(said("no-tightening-yet")),
        up=pen.words(low_end(axis, above=True)),
        down=pen.words(low_end(axis, above=False)),
        found="",
        left=pen.words(said("mark-shift")),
        hollow=pen.words(said("mark-hollow")) if any(each.hollow for each in pairs) else "",
        head=(
            pen.words(said("column-audit")),
            pen.words(said("column-date")),
            "",
            pen.words(said("column-shift")),
            "",
            "",
            pen.words(said("column-remarks")),
        ),
    )
    return run(pairs, control, (), told, pen.digits)


def _pivots(axis: Axis, of: AxisTrend, most: int, pen: Pen, link: Link) -> Picture:
    shown = of.pivots[-most:]
    digits = _PIVOT_DIGITS[pen.unit]
    told = PivotWords(
        key=f"pivot-{axis}",
        title=pen.words(said("picture-pivot", axis=said("axis-name", axis=axis), unit=pen.unit)),
        says=_known(shown[-1], digits, pen) if shown else pen.words(said("no-pivot-yet")),
        empty=pen.words(said("no-pivot-yet")),
        learned=pen.words(said("mark-learned")) if any(each.audits for each in shown) else "",
        hollow="" if all(each.audits for each in shown) else pen.words(said("mark-from-file")),
        head=(
            pen.words(said("column-audit")),
            pen.words(said("column-date")),
            pen.words(said("column-pivot")),
            pen.words(said("column-doubt")),
            pen.words(said("column-remarks")),
        ),
    )
    now, from_file = pen.words(said("mark-now")), pen.words(said("mark-from-file"))
    known = [
        PivotMark(
            name=each.short or now,
            day=each.day or "",
            value=pen.value(each.value_mm),
            doubt=pen.value(each.doubt_mm),
            href=link(each.audit) if each.audit else "",
            why="" if each.audits else from_file,
        )
        for each in shown
    ]
    return pivots(known, told, digits)


def _known(last: PivotPoint, digits: int, pen: Pen) -> str:
    at, doubt = (Shown(mm, pen.unit, digits) for mm in (last.value_mm, last.doubt_mm))
    return pen.words(said("picture-pivot-says", at=at, doubt=doubt, audits=last.audits))
