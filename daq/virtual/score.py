"""Workmanship: a score out of 100 for one audit on the practice mill, from what it truly did.

Pure. What each fault costs is a choice of ours, no source. Faults only ever take points away, each
kind no more than its share, so that one fault fewer never scores less.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Final, Literal

from daq.virtual.deeds import Deed, Stand
from daq.words import AXES, Axis

WHOLE: Final = 100

Why = Literal[
    "move", "out", "spot", "refused", "both-loose", "knocked", "swept-loose", "not-tight",
    "not-loose", "denied", "unread", "lesser", "on-chip", "to-and-fro", "slow",
]  # fmt: skip

COSTS: Final[dict[Why, tuple[int, int]]] = {
    "move": (10, 30),
    "out": (1, 40),
    "spot": (8, 24),
    "refused": (2, 10),
    "both-loose": (10, 20),
    "knocked": (10, 20),
    "swept-loose": (10, 10),
    "not-tight": (10, 20),
    "not-loose": (5, 10),
    "denied": (10, 10),
    "unread": (5, 10),
    "lesser": (10, 10),
    "on-chip": (10, 10),
    "to-and-fro": (2, 10),
    "slow": (1, 5),
}
"""What one fault of a kind costs, and at most all of that kind."""

OUT_FIRST: Final = 10
OUT_MOST: Final = 20
"""An axis truly out costs the first, and a point more for each tenth of its limit, to the most."""
TAKES: Final = ("take", "pushed", "slow-turn")
READS: Final = ("ReadingTaken", "Parked", "BaseRead")
PULLS: Final = ("tighten", "bolt")
LESSER: Final = 0.5
"""An axis that is out by less than this part of the other one is clearly not the worse."""
COMES_BACK: Final = 2
"""So often an adjuster may be turned the other way before its move is pressed."""
SLOW_FROM, SLOW_STEP = 2.0, 0.1
"""Time counts beyond so many usual ones; a point for each such part more."""


@dataclass(frozen=True, slots=True)
class Bound:
    """The tolerance of an axis: `limit_mm` over `over_mm`, to either side of the slope `wanted`."""

    limit_mm: float
    over_mm: float
    wanted: float = 0.0

    def times(self, lean: float) -> float:
        """How far out this slope is, in limits; 1 is the limit."""
        return abs(lean - self.wanted) * self.over_mm / self.limit_mm


@dataclass(frozen=True, slots=True)
class Lost:
    """Points that went: why, how many, at which row, and what is to be said of it."""

    why: Why
    points: int
    row: int
    of: Mapping[str, str | int | float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Assignment:
    """What was to be done: from where it began, to which tolerances, in which usual time.

    `more`: moves that no hand saves, because nobody knows yet what tightening does here.
    """

    begun: Stand
    bounds: Mapping[Axis, Bound]
    usual_s: float
    more: int = 0

    @property
    def fewest(self) -> int:
        """How many moves the truth asked for: one for each axis that was out, and those `more`."""
        out = sum(self.bounds[axis].times(self.begun.leans[axis]) > 1.0 for axis in AXES)
        return out + self.more


Rule = Callable[[Assignment, Sequence[Deed]], Iterator[Lost]]


def workmanship(task: Assignment, deeds: Sequence[Deed]) -> tuple[Lost, ...]:
    """Return each lost point with its row, in the order it went; what was taken back is no fault.

    `deeds` end with the row "Signed".
    """
    voided = {row for deed in _rows(deeds, "Voided") for row in deed.of.get("voids", ())}
    kept = [deed for deed in deeds if deed.kind != "row" or deed.row not in voided]
    found = sorted((lost for rule in RULES for lost in rule(task, kept)), key=lambda each: each.row)
    left = {why: most for why, (_, most) in COSTS.items()}
    counted = []
    for lost in found:
        points = min(lost.points, left[lost.why])
        left[lost.why] -= points
        if points:
            counted.append(Lost(lost.why, points, lost.row, lost.of))
    return tuple(counted)


def points(lost: Sequence[Lost]) -> int:
    """The score: what is left of 100, and never less than nothing."""
    return max(0, WHOLE - sum(each.points for each in lost))


def _lost(why: Why, deed: Deed, **of: str | int | float) -> Lost:
    return Lost(why, COSTS[why][0], deed.row, of)


def _rows(deeds: Sequence[Deed], *names: str) -> Iterator[Deed]:
    return (deed for deed in deeds if deed.kind == "row" and deed.name in names)


def _acts(deeds: Sequence[Deed], *verbs: str) -> Iterator[Deed]:
    return (deed for deed in deeds if deed.kind == "act" and deed.name in verbs)


def _moves(task: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    for nth, deed in enumerate(_rows(deeds, "Moved"), 1):
        if nth > task.fewest:
            yield _lost("move", deed, nth=nth, fewest=task.fewest)


def _out(task: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    """What was signed truly stands out."""
    for deed in _rows(deeds, "Signed"):
        for axis in AXES:
            times = task.bounds[axis].times(deed.stand.leans[axis])
            if times > 1.0:
                cost = min(OUT_MOST, OUT_FIRST + int(10.0 * (times - 1.0)))
                yield Lost("out", cost, deed.row, {"axis": axis, "times": times})


def _spots(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    for deed in _rows(deeds, *READS):
        called = deed.of["reading"]["position"]
        if called is not None and (called != deed.stand.place or not deed.stand.down):
            stood = deed.stand.place if deed.stand.down else "air"
            yield _lost("spot", deed, called=called, stood=stood or "elsewhere")


def _refused(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    for deed in deeds:
        if deed.kind == "refused" and deed.name in TAKES:
            yield _lost("refused", deed)


def _bolts(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    """What was said, or done, of the bolts against what they were."""
    for deed in _acts(deeds, "loosen"):
        if len(deed.stand.loose) > 1:
            yield _lost("both-loose", deed)
    for deed in _rows(deeds, "Loosened"):
        if deed.of["axis"] not in deed.stand.loose:
            yield _lost("not-loose", deed, axis=deed.of["axis"])
    for deed in _rows(deeds, "Tightened"):
        if deed.of["axis"] in deed.stand.part:
            yield _lost("not-tight", deed, axis=deed.of["axis"])
    for deed in _rows(deeds, "Signed"):
        for axis in deed.stand.part:
            yield _lost("not-tight", deed, axis=axis)
    for deed in _rows(deeds, "SweepDone"):
        if deed.stand.loose:
            yield _lost("swept-loose", deed, axis=deed.stand.loose[0])


def _hurts(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    for deed in _acts(deeds, "bump"):
        yield _lost("knocked", deed)


def _denied(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    """A zero that was noticed, and had been pressed, was denied."""
    zeroed = False
    for deed in deeds:
        zeroed |= deed.kind == "act" and deed.name == "zero"
        if zeroed and deed.kind == "row" and deed.cause == "not-zeroed":
            yield _lost("denied", deed)


def _unread(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    """The bolts of an axis were pulled up before the two spots of its move were read."""
    waits: dict[str, bool] = {}
    for deed in deeds:
        if deed.kind == "row" and deed.name == "Moved":
            # What is next stands in the row: where nothing is to be read, nothing is left out.
            waits[deed.of["axis"]] = deed.of["next"]["step"] == "check"
        elif deed.kind == "row" and deed.name in ("CheckDone", "SweepDone", "Loosened"):
            waits.clear()
        elif deed.kind == "act" and deed.name in PULLS and waits.pop(deed.of["axis"], False):
            yield _lost("unread", deed, axis=deed.of["axis"])


def _lesser(task: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    """The axis turned first was clearly not the worse."""
    first = next(_rows(deeds, "Moved"), None)
    if first is None:
        return
    out = {axis: task.bounds[axis].times(task.begun.leans[axis]) for axis in AXES}
    axis: Axis = first.of["axis"]
    worse = max(AXES, key=lambda each: out[each])
    if axis != worse and out[axis] < LESSER * out[worse]:
        yield _lost("lesser", first, axis=axis)


def _chips(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    for deed in _acts(deeds, "turn"):
        if deed.stand.chip:
            yield _lost("on-chip", deed)


def _to_and_fro(_: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    """An adjuster may be tried, go past and come back; more of it is no way to a stop."""
    way: dict[str, float] = {}
    back: dict[str, int] = {}
    for deed in deeds:
        if deed.kind == "row" and deed.name in ("Loosened", "Moved"):
            way, back = {}, {}
        elif deed.kind == "act" and deed.name == "turn":
            axis, amount = deed.of["axis"], float(deed.of["amount_mm"])
            if way.get(axis, amount) * amount < 0.0:
                back[axis] = back.get(axis, 0) + 1
                if back[axis] > COMES_BACK:
                    yield _lost("to-and-fro", deed, axis=axis)
            way[axis] = amount


def _slow(task: Assignment, deeds: Sequence[Deed]) -> Iterator[Lost]:
    began_s = next((deed.at_s for deed in deeds if deed.kind == "row"), 0.0)
    for deed in _rows(deeds, "Signed"):
        over = (deed.at_s - began_s) / task.usual_s - SLOW_FROM
        if over > 0.0:
            most = COSTS["slow"][1]
            lost: dict[str, Any] = {"times": SLOW_FROM + over}
            yield Lost("slow", min(most, 1 + int(over / SLOW_STEP)), deed.row, lost)


RULES: Final[tuple[Rule, ...]] = (
    *(_moves, _out, _spots, _refused, _bolts, _hurts, _denied, _unread, _lesser, _chips),
    *(_to_and_fro, _slow),
)
