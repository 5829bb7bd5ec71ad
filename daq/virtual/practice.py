"""The practice panel's operations, as data: what can be done now, and how it is asked for."""

from typing import Any, Final

from daq.virtual.faults import FAULTS
from daq.virtual.head import Head
from daq.virtual.standing import HeadState
from daq.words import AXES, POSITIONS, Axis

COARSE_MM: Final = 0.05
FINE_MM: Final = 0.004

TURNED_DEG: Final = (0, 90, 180, 270)
BELOW_MM: Final = (10, 160)
TABLE_MM: Final = (0, 100, 200, 300)
JAW_MM: Final = (10, 75, 140)
"""Where the practice mill's file has the spindle, the gauge beside it and the table stand."""
TAP_MM: Final = 0.02

AXIS_SAY: Final[dict[Axis, str]] = {"side": "side-to-side", "nod": "nod"}

LOWERS: Final[dict[Axis, tuple[str, str]]] = {"side": ("right", "left"), "nod": ("front", "back")}
"""Which side of the circle a positive and a negative turn lowers."""

FAULT_SAY: Final[dict[str, str]] = {
    "none": "Mend the wire",
    "junk": "Junk before each frame",
    "truncated": "Break off some frames",
    "garbage": "Nothing but garbage",
    "stuck": "Stick at this number",
    "silent": "Fall silent",
}

Operation = dict[str, Any]


def operations(head: Head, plugged: bool) -> list[Operation]:
    """Return what a person can do now: verb, what the button says, arguments."""
    return [*_at_gauge(head.state), *_at_head(head), *_at_wire(plugged)]


def _one(verb: str, say: str, **args: str | float) -> Operation:
    return {"verb": verb, "say": say, "args": args}


def _at_gauge(head: HeadState) -> list[Operation]:
    found = [
        _one("swing", f"Swing to the {p}", position=p)
        for p in POSITIONS
        if p != head.position or head.set_up != "ring"
    ]
    if head.contact == "free":
        found += [
            _one("set", "Set the contact down"),
            _one("ring", "Turn the ring half round"),
            _one("arm", "Clamp the arm the other way round"),
        ]
    else:
        found.append(_one("free", "Lift the contact"))
    return [
        *found,
        *_at_stations(head),
        _one("push", "Push the contact"),
        _one("zero", "Press zero"),
        _one("unit", "Press the unit button"),
    ]


def _at_stations(head: HeadState) -> list[Operation]:
    turns = [
        _one("spindle", f"Spindle to {to}°, gauge {at} mm below the nose", to=to, at=at)
        for at in BELOW_MM
        for to in TURNED_DEG
    ]
    table = [_one("table", f"Table to X {to} mm", axis="x", to=to) for to in TABLE_MM]
    jaw = [
        _one("jaw", f"Contact on the vise's jaw, {to} mm from its left end", to=to) for to in JAW_MM
    ]
    return [*turns, *table, *jaw, *(_taps() if head.set_up == "jaw" else ())]


def _taps() -> list[Operation]:
    return [
        _one("tap", f"Tap the vise {way} the gauge, {how}", away_mm=sign * amount)
        for amount, how in ((TAP_MM, "a lot"), (FINE_MM, "a touch"))
        for sign, way in ((1.0, "away from"), (-1.0, "toward"))
    ]


def _at_head(head: Head) -> list[Operation]:
    found: list[Operation] = []
    for axis in AXES:
        joint = head.joint(axis)
        if joint.tight:
            found.append(_one("loosen", f"Loosen the {AXIS_SAY[axis]} bolts", axis=axis))
        else:
            found += _turns(axis)
        if not joint.tight or joint.pulled < 1.0:
            found += _bolts(axis, head.spec.joint(axis).bolts)
    return [*found, _one("bump", "Knock into it"), _one("reset", "Throw it out of square")]


def _turns(axis: Axis) -> list[Operation]:
    return [
        _one(
            "turn",
            f"Turn the {AXIS_SAY[axis]} adjuster: {side} lower, {how}",
            axis=axis,
            amount_mm=sign * amount,
        )
        for amount, how in ((COARSE_MM, "a lot"), (FINE_MM, "a touch"))
        for sign, side in zip((1.0, -1.0), LOWERS[axis], strict=True)
    ]


def _bolts(axis: Axis, names: tuple[str, ...]) -> list[Operation]:
    return [
        _one("tighten", f"Tighten the {AXIS_SAY[axis]} bolts", axis=axis),
        *(_one("bolt", f"Pull up {AXIS_SAY[axis]} bolt {n}", axis=axis, bolt=n) for n in names),
    ]


def _at_wire(plugged: bool) -> list[Operation]:
    cable = _one("unplug", "Pull the cable") if plugged else _one("replug", "Put the cable back")
    return [cable, *(_one("fault", FAULT_SAY[name], name=name) for name in FAULTS)]
