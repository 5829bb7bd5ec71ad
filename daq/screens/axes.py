"""Both axes as the screens show them, and the verdict on them in a sentence."""

from dataclasses import replace

from daq.audit.ages import axis_age, unread
from daq.audit.facts import together, unit_of
from daq.audit.parts import AxisResult, Whole
from daq.audit.setup import MachineSetup
from daq.audit.state import Closed, Job
from daq.audit.views.decides import can_be_in
from daq.audit.views.figures import same_place, with_unit
from daq.audit.views.shapes import AxisView
from daq.audit.views.whole import AS_A_WHOLE, good_enough
from daq.words import AXES, OPPOSITE, PARKED, Axis, Both, Position, Said, Shown, Unit, Word, said

VERDICTS: dict[Word, Said] = {
    "in": said("verdict-in"),
    "out": said("verdict-out"),
    "close": said("verdict-close"),
}

_NOT_GOOD_ENOUGH = said("gauge-not-good-enough")
_LEVEL_MM = 5e-4
_SIDES: dict[Axis, tuple[Position, Position]] = {
    axis: (PARKED[axis], OPPOSITE[PARKED[axis]]) for axis in AXES
}
"""What is low when the lean is above zero, and when it is below."""
_WIDE = {"mm": 0, "in": 1}


def short(word: Word) -> Said:
    """A verdict in a word or a few."""
    return said("word", word=word)


def axes_unknown() -> tuple[AxisView, ...]:
    """Both axes while there is no audit."""
    return tuple(AxisView(axis, said("axis-name", axis=axis)) for axis in AXES)


def axes_open(job: Job) -> tuple[AxisView, ...]:
    """Both axes of an open audit, as last read; of one worked on since, not what it is."""
    machine = job.setup.machine
    if not job.axes.results:
        return tuple(AxisView(axis, machine.axis(axis).say) for axis in AXES)
    return tuple(_aged(job, axis) for axis in AXES)


def _aged(job: Job, axis: Axis) -> AxisView:
    view = axis_view(job.setup.machine, unit_of(job), axis, job.axes.results[axis], job.axes.whole)
    age, can = axis_age(job, axis), can_be_in(job, axis)
    found = job.sweeps.as_found if job.sweeps.loosened else None
    was = None if found is None else found.results[axis].zone
    view = replace(view, age=None if age is None else said("age", age=age), found=was)
    if can is not None:
        # Read far out, an axis is in more doubt than it will be once it is set.
        view = replace(view, note=None if can else _NOT_GOOD_ENOUGH)
    return replace(view, word="", zone=None, note=None) if unread(job, axis) else view


def axes_closed(last: Closed, both: Both[AxisResult], whole: Whole | None) -> tuple[AxisView, ...]:
    """Both axes as a signed audit left them."""
    age, signed = said("age", age="as-left"), last.signed
    found = signed.as_found if signed is not None and signed.moves else None
    return tuple(
        replace(
            axis_view(last.setup.machine, last.unit, axis, result, whole),
            age=age,
            found=None if found is None else found[axis].zone,
        )
        for axis, result in both.items()
    )


def axis_view(
    machine: MachineSetup,
    unit: Unit,
    axis: Axis,
    result: AxisResult,
    whole: Whole | None,
    expanded_mm: float | None = None,
) -> AxisView:
    """One axis's result; `expanded_mm`: the uncertainty that is shown beside it."""
    # "0.010" out of ±0.010 says nothing: then one place more, of both.
    limits = (result.low_mm or 0.0, result.high_mm or 0.0)
    digits = same_place(result.error_mm, limits, unit, expanded_mm)
    return AxisView(
        axis=axis,
        say=machine.axis(axis).say,
        value=Shown(result.error_mm, unit, digits, plus=True),
        low=say_low(axis, result),
        limit=_limit(axis, result, unit, digits),
        over=with_unit(Shown(machine.diameter, unit, _WIDE[unit])),
        word=result.word,
        zone=result.zone,
        doubt=result.guard_mm / result.limit_mm if result.limit_mm else None,
        only="high" if result.low_mm == 0.0 else "low" if result.high_mm == 0.0 else "",
        note=None if good_enough(whole, result) else _NOT_GOOD_ENOUGH,
    )


def _limit(axis: Axis, result: AxisResult, unit: Unit, digits: int) -> Said:
    """±0.017, or where the two sides differ how much either may be low."""
    low, high = result.low_mm, result.high_mm
    if low is None or high is None or low == -high:
        return said("plus-minus", limit=Shown(result.limit_mm, unit, digits))
    first, second = (
        _may_be_low(side, Shown(size, unit, digits), leans=_leans(result))
        for size, side in zip((high, -low), _SIDES[axis], strict=True)
    )
    return said("list-more", before=first, next=second)


def _may_be_low(side: Position, size: Shown, *, leans: bool) -> Said:
    end = said("too-low-end", side=side) if leans else said("low-end", side=side)
    if not size.mm:
        return said("never-low", end=end)
    return said("low-by", end=end, limit=size)


def _leans(result: AxisResult) -> bool:
    """Whether a lean is wanted here: then the error is not the lean."""
    return abs(result.d_mm - result.error_mm) > 1e-9


def say_low(axis: Axis, result: AxisResult) -> Said:
    """Which side is low, and with a wanted lean what is wrong with that."""
    stands = _side(axis, result.d_mm)
    low = said("level") if stands is None else said("side-low", side=stands)
    if not _leans(result):
        return low
    lower, higher = _side(axis, result.error_mm), _side(axis, -result.error_mm)
    if lower is None or higher is None:
        return said("as-wanted", stands=low)
    if stands is None:
        return said("level-but-too-high", side=higher)
    if stands == lower:
        return said("too-low-end", side=stands)
    return said("low-but-too-high", end=said("low-end", side=stands))


def _side(axis: Axis, mm: float) -> Position | None:
    if abs(mm) < _LEVEL_MM:
        return None
    return _SIDES[axis][0 if mm > 0 else 1]


def say_verdict(word: Word, both: Both[AxisResult], whole: Whole | None) -> Said:
    """The verdict in a sentence; that the gauge is not good enough where that is why."""
    if word == "close" and not all(good_enough(whole, result) for result in both.values()):
        return _NOT_GOOD_ENOUGH
    if word != "in" and together(*both.values()) == "in":
        return AS_A_WHOLE[word]
    return VERDICTS[word]
