"""The practice panel's operations, as data: what can be done now, and how it is asked for."""

import math
from typing import Any, Final

from daq.virtual.faults import FAULTS
from daq.virtual.head import Head
from daq.virtual.standing import HeadState
from daq.words import AXES, POSITIONS, Axis, Position, Said, said

COARSE_MM: Final = 0.05
FINE_MM: Final = 0.004

TURNED_DEG: Final = (0, 90, 180, 270)
BELOW_MM: Final = (10, 160)
TABLE_MM: Final = (0, 100, 200, 300)
JAW_MM: Final = (10, 75, 140)
"""Where the practice mill's file has the spindle, the gauge beside it and the table stand."""
TAP_MM: Final = 0.02

LOWERS: Final[dict[Axis, tuple[Position, Position]]] = {
    "side": ("right", "left"),
    "nod": ("front", "back"),
}
"""Which side of the circle a positive and a negative turn lowers."""

FARTHER: Final = 60
"""Leans are drawn so many times larger: half a millimetre across the sweep is seen at a glance."""
DRAWN_DEG: Final = 1.0
DRAWN_MOST_DEG: Final = 12.0
"""In such steps, and no farther: what is within a tolerance is not to be seen in a picture."""

Operation = dict[str, Any]


def operations(head: Head, plugged: bool) -> list[Operation]:
    """Return what a person can do now: verb, what its button says, arguments."""
    return [*_at_gauge(head.state), *_at_head(head), *_at_wire(plugged)]


def picture(head: Head) -> dict[str, float | bool]:
    """Return what is drawn of the head, degrees: its leans, `FARTHER` times larger, and the arm."""
    leans = zip(AXES, head.leans(), strict=True)
    drawn = {f"{axis}_deg": _drawn(lean) for axis, lean in leans}
    down = head.state.contact == "set"
    return {**drawn, "azimuth_deg": head.state.azimuth_deg, "down": down, "farther": FARTHER}


def _drawn(lean: float) -> float:
    steps = round(math.degrees(math.atan(lean)) * FARTHER / DRAWN_DEG)
    return max(-DRAWN_MOST_DEG, min(DRAWN_MOST_DEG, steps * DRAWN_DEG))


def _one(verb: str, say: Said, **args: str | float) -> Operation:
    return {"verb": verb, "say": say, "args": args}


def _at_gauge(head: HeadState) -> list[Operation]:
    found = [
        _one("swing", said("panel-place", place=p), position=p)
        for p in POSITIONS
        if p != head.position or head.set_up != "ring"
    ]
    if head.contact == "free":
        found += [
            _one("set", said("panel-set")),
            _one("ring", said("panel-ring")),
            _one("wipe", said("panel-wipe")),
            _one("arm", said("panel-arm")),
        ]
    else:
        found += [_one("free", said("panel-free")), _one("flick", said("panel-flick"))]
    return [
        *found,
        *_at_stations(head),
        _one("push", said("panel-push")),
        _one("zero", said("panel-zero")),
        _one("unit", said("panel-unit")),
    ]


def _at_stations(head: HeadState) -> list[Operation]:
    turns = [
        _one("spindle", said("panel-spindle", to=to, at=at), to=to, at=at)
        for at in BELOW_MM
        for to in TURNED_DEG
    ]
    table = [_one("table", said("panel-table", to=to), axis="x", to=to) for to in TABLE_MM]
    jaw = [_one("jaw", said("panel-jaw", to=to), to=to) for to in JAW_MM]
    return [*turns, *table, *jaw, *(_taps() if head.set_up == "jaw" else ())]


def _taps() -> list[Operation]:
    return [
        _one("tap", said("panel-tap", way=way, much=much), away_mm=sign * amount)
        for amount, much in ((TAP_MM, "a-lot"), (FINE_MM, "a-touch"))
        for sign, way in ((1.0, "away"), (-1.0, "toward"))
    ]


def _at_head(head: Head) -> list[Operation]:
    found: list[Operation] = []
    for axis in AXES:
        joint = head.joint(axis)
        if joint.tight:
            found.append(_one("loosen", said("panel-loosen", axis=axis), axis=axis))
        else:
            found += _turns(axis)
        if not joint.tight or joint.pulled < 1.0:
            found += _bolts(axis, head.spec.joint(axis).bolts)
    return [*found, _one("bump", said("panel-bump")), _one("reset", said("panel-reset"))]


def _turns(axis: Axis) -> list[Operation]:
    return [
        _one(
            "turn",
            said("panel-turn", axis=axis, lower=side, much=much),
            axis=axis,
            amount_mm=sign * amount,
        )
        for amount, much in ((COARSE_MM, "a-lot"), (FINE_MM, "a-touch"))
        for sign, side in zip((1.0, -1.0), LOWERS[axis], strict=True)
    ]


def _bolts(axis: Axis, names: tuple[str, ...]) -> list[Operation]:
    return [
        _one("tighten", said("panel-tighten", axis=axis), axis=axis),
        *(_one("bolt", said("panel-bolt", axis=axis, bolt=n), axis=axis, bolt=n) for n in names),
    ]


def _at_wire(plugged: bool) -> list[Operation]:
    pull, put = _one("unplug", said("panel-unplug")), _one("replug", said("panel-replug"))
    faults = (_one("fault", said("panel-fault", name=name), name=name) for name in FAULTS)
    return [pull if plugged else put, *faults]
