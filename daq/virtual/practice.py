"""The practice panel's operations, as data: what can be done now, and how it is asked for."""

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, Final, TypeVar

from daq.settings import quoted
from daq.virtual.faults import FAULTS
from daq.words import AXES, POSITIONS, Axis

if TYPE_CHECKING:
    from daq.virtual.head import Head
    from daq.virtual.mill import VirtualMill
    from daq.virtual.standing import HeadState

COARSE_MM: Final = 0.05
FINE_MM: Final = 0.004

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

T = TypeVar("T")


def operations(head: "Head", plugged: bool) -> list[Operation]:
    """Return what a person can do now: verb, what the button says, arguments."""
    return [*_at_gauge(head.state), *_at_head(head), *_at_wire(plugged)]


def _one(verb: str, say: str, **args: str | float) -> Operation:
    return {"verb": verb, "say": say, "args": args}


def _at_gauge(head: "HeadState") -> list[Operation]:
    found = [
        _one("swing", f"Swing to the {p}", position=p) for p in POSITIONS if p != head.position
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
        _one("push", "Push the contact"),
        _one("zero", "Press zero"),
        _one("unit", "Press the unit button"),
    ]


def _at_head(head: "Head") -> list[Operation]:
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


def perform(mill: "VirtualMill", verb: str, args: Mapping[str, Any]) -> str:
    """Do one operation on `mill` and return its sentence.

    Raises ValueError naming the verb or argument, what was found and what is allowed.
    """
    plain: dict[str, Callable[[], str]] = {
        "free": mill.free,
        "set": mill.set_on,
        "push": mill.push_contact,
        "zero": mill.zero,
        "unit": mill.unit,
        "ring": mill.turn_ring,
        "arm": mill.turn_arm,
        "bump": mill.bump,
        "reset": mill.reset,
        "unplug": mill.unplug,
        "replug": mill.replug,
    }
    asked: dict[str, Callable[[], str]] = {
        "swing": lambda: mill.swing_to(_choice(args, "position", tuple(POSITIONS))),
        "loosen": lambda: mill.loosen(_choice(args, "axis", AXES)),
        "tighten": lambda: mill.tighten(_choice(args, "axis", AXES)),
        "bolt": lambda: mill.tighten_bolt(*_bolt(args, mill)),
        "turn": lambda: mill.turn(_choice(args, "axis", AXES), _amount(args, mill)),
        "fault": lambda: mill.fault(_choice(args, "name", FAULTS)),
    }
    act = {**plain, **asked}.get(verb)
    if act is None:
        raise ValueError(f"verb: found {quoted(verb)}; allowed: {', '.join((*plain, *asked))}")
    return act()


def _choice(args: Mapping[str, Any], name: str, allowed: tuple[T, ...]) -> T:
    found = args.get(name)
    for one in allowed:
        if one == found:
            return one
    raise ValueError(f"{name}: found {quoted(found)}; allowed: {', '.join(map(str, allowed))}")


def _bolt(args: Mapping[str, Any], mill: "VirtualMill") -> tuple[Axis, str]:
    axis = _choice(args, "axis", AXES)
    return axis, _choice(args, "bolt", mill.spec.joint(axis).bolts)


def _amount(args: Mapping[str, Any], mill: "VirtualMill") -> float:
    found = args.get("amount_mm")
    most = 4.0 * mill.spec.start_mm + 1.0
    if isinstance(found, bool) or not isinstance(found, int | float) or not abs(found) <= most:
        raise ValueError(
            f"amount_mm: found {quoted(found)}; allowed: a number from -{most} to {most}"
        )
    return float(found)
