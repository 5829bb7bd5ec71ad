"""Both axes as the screens show them, and the verdict on them in a sentence."""

from typing import Any, Literal

from daq.audit.ages import axis_age, unread
from daq.audit.facts import together, unit_of
from daq.audit.parts import AxisResult, Word
from daq.audit.state import Closed, Job
from daq.audit.views.whole import AS_A_WHOLE, good_enough
from daq.metrology.rule import NOT_GOOD_ENOUGH
from daq.units import FINE, show
from daq.words import AXES, Axis, Said

VERDICTS: dict[Word, str] = {
    "in": "Inside tolerance on both axes.",
    "out": "Outside tolerance.",
    "close": "The reading cannot tell inside from outside.",
}

SHORT: dict[Word, str] = {"in": "in", "out": "out", "close": "too close to call"}

_LEVEL_MM = 5e-4
_SIDES: dict[Axis, tuple[str, str]] = {
    "side": ("right side", "left side"),
    "nod": ("front", "back"),
}
_WIDE = {"mm": 0, "in": 1}


def axes_unknown() -> list[dict[str, Any]]:
    """Both axes while there is no audit."""
    return [_unknown(a, {"side": "Side to side", "nod": "Nod"}[a]) for a in AXES]


def axes_open(job: Job) -> list[dict[str, Any]]:
    """Both axes of an open audit, as last read; of one worked on since, not what it is."""
    if not job.results:
        return [_unknown(a, job.setup.machine.axis(a).say) for a in AXES]
    both = (job.results["side"], job.results["nod"])
    nothing_of_now = {"word": "", "zone": None, "note": ""}
    return [
        {
            **_axis(job, a, both),
            "age": axis_age(job, a) or "",
            **(nothing_of_now if unread(job, a) else {}),
        }
        for a in AXES
    ]


def axes_closed(last: Closed, both: tuple[AxisResult, AxisResult]) -> list[dict[str, Any]]:
    """Both axes as a signed audit left them."""
    return [{**_axis(last, a, both), "age": "as left"} for a in AXES]


def _unknown(axis: Axis, say: str) -> dict[str, Any]:
    texts = dict.fromkeys(("value", "age", "low", "limit", "over", "word", "only", "note"), "")
    return {"axis": axis, "say": say, **texts, "zone": None}


def _axis(shown: Job | Closed, axis: Axis, both: tuple[AxisResult, AxisResult]) -> dict[str, Any]:
    unit = unit_of(shown) if isinstance(shown, Job) else shown.unit
    machine = shown.setup.machine
    result = both[AXES.index(axis)]
    return {
        "axis": axis,
        "say": machine.axis(axis).say,
        "value": show(result.error_mm, unit, FINE[unit], plus=True),
        "age": "",
        "low": _low(axis, result),
        "limit": _limit(axis, result, unit),
        "over": f"{show(machine.diameter, unit, _WIDE[unit])} {unit}",
        "word": result.word,
        "zone": result.zone,
        "only": "high" if result.low_mm == 0.0 else "low" if result.high_mm == 0.0 else "",
        "note": "" if good_enough(shown, result, *both) else NOT_GOOD_ENOUGH,
    }


def _limit(axis: Axis, result: AxisResult, unit: Literal["mm", "in"]) -> str:
    """±0.017, or where the two sides differ how much either may be low."""
    digits = FINE[unit]
    low, high = result.low_mm, result.high_mm
    if low is None or high is None or low == -high:
        return f"±{show(result.limit_mm, unit, digits)}"
    than = "too low" if _leans(result) else "low"
    sides = zip((high, -low), _SIDES[axis], strict=True)
    return ", ".join(
        f"{side} {than} {show(size, unit, digits) if size else 'not at all'}"
        for size, side in sides
    )


def _leans(result: AxisResult) -> bool:
    """Whether a lean is wanted here: then the error is not the lean."""
    return abs(result.d_mm - result.error_mm) > 1e-9


def _low(axis: Axis, result: AxisResult) -> str:
    """Which side is low, and with a wanted lean what is wrong with that."""
    stands = _side(axis, result.d_mm)
    low = f"{stands} low" if stands else "level"
    if not _leans(result):
        return low
    lower = _side(axis, result.error_mm)
    if not lower:
        return f"{low}, as wanted"
    if stands == lower:
        return f"{stands} too low"
    return f"{low}, but too high" if stands else f"level: {_side(axis, -result.error_mm)} too high"


def _side(axis: Axis, mm: float) -> str:
    if abs(mm) < _LEVEL_MM:
        return ""
    return _SIDES[axis][0 if mm > 0 else 1]


def say_verdict(shown: Job | Closed, word: Word, both: tuple[AxisResult, AxisResult]) -> str | Said:
    """The verdict in a sentence; that the gauge is not good enough where that is why."""
    if word == "close" and not all(good_enough(shown, result, *both) for result in both):
        return NOT_GOOD_ENOUGH
    if word != "in" and together(*both) == "in":
        return AS_A_WHOLE[word]
    return VERDICTS[word]
