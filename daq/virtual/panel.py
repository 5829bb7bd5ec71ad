"""The practice mill as the practice page works it."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

from daq.settings import quoted, shown
from daq.virtual.faults import FAULTS
from daq.virtual.mill import VirtualMill
from daq.virtual.tutor import Tutor
from daq.words import AXES, POSITIONS, Axis, Figure, SaidTrouble, said
from daq.words.said import Value

PRACTICE_MACHINE = "practice-mill"

T = TypeVar("T")


class Panel:
    """The practice mill and its lessons as their pages reach them.

    Each raises KeyError for a machine that is no practice mill.
    """

    def __init__(self, mill: VirtualMill, tutor: Tutor) -> None:
        """Show and work this mill, and let that person watch."""
        self._mill, self._tutor = mill, tutor

    def state(self, machine: str) -> Mapping[str, Any]:
        """How the mill stands, and what is to be said of its lesson."""
        _practice(machine)
        return {**self._mill.state(), "lesson": self._tutor.line()}

    def do(self, machine: str, verb: str, args: Mapping[str, Any]) -> None:
        """One operation; SaidTrouble for one that there is not."""
        _practice(machine)
        if perform(self._mill, verb, args):
            self._tutor.act(verb, args)

    def lessons(self, machine: str) -> Mapping[str, Any]:
        """The lessons, the run of now and the class."""
        _practice(machine)
        return self._tutor.told()

    def begin(self, machine: str, lesson: str, learner: str, error_mm: tuple[float, float]) -> None:
        """Begin a lesson; SaidTrouble for one that there is not."""
        _practice(machine)
        self._tutor.begin(lesson, learner, error_mm)

    def show(self, machine: str, nth: int) -> None:
        """Let the truth of a signed run be seen, or with 0 of all."""
        _practice(machine)
        self._tutor.show(nth)


def _practice(machine: str) -> None:
    if machine != PRACTICE_MACHINE:
        raise KeyError(machine)


def perform(mill: VirtualMill, verb: str, args: Mapping[str, Any]) -> bool:
    """Do one operation on `mill`; return whether it was done: it may be already, or not possible.

    Raises SaidTrouble naming the verb or argument, what was found and what is allowed.
    """
    plain: dict[str, Callable[[], object]] = {
        "free": mill.free,
        "set": mill.set_on,
        "push": mill.push_contact,
        "flick": mill.flick_arm,
        "zero": mill.zero,
        "unit": mill.unit,
        "ring": mill.turn_ring,
        "wipe": mill.wipe,
        "arm": mill.turn_arm,
        "bump": mill.bump,
        "reset": mill.reset,
        "unplug": mill.unplug,
        "replug": mill.replug,
    }
    asked: dict[str, Callable[[], object]] = {
        "swing": lambda: mill.swing_to(_choice(args, "position", tuple(POSITIONS))),
        "loosen": lambda: mill.loosen(_choice(args, "axis", AXES)),
        "tighten": lambda: mill.tighten(_choice(args, "axis", AXES)),
        "bolt": lambda: mill.tighten_bolt(*_bolt(args, mill)),
        "turn": lambda: mill.turn(_choice(args, "axis", AXES), _amount(args, mill)),
        "spindle": lambda: mill.turn_spindle(
            _within(args, "to", 0.0, 360.0),
            _within(args, "at", 0.0, 1000.0),
            _choice({"seat": 1, **args}, "seat", (1, 2)),
        ),
        "table": lambda: mill.move_table(
            _choice(args, "axis", ("x", "y")), _within(args, "to", -2000.0, 2000.0)
        ),
        "jaw": lambda: mill.move_along_jaw(_within(args, "to", 0.0, 2000.0)),
        "tap": lambda: mill.tap_jaw(_within(args, "away_mm", -1.0, 1.0)),
        "fault": lambda: mill.fault(_choice(args, "name", FAULTS)),
    }
    act = {**plain, **asked}.get(verb)
    if act is None:
        raise _none("verb", verb, (*plain, *asked))
    return act() is not False


def _choice(args: Mapping[str, Any], name: str, allowed: tuple[T, ...]) -> T:
    found = args.get(name)
    for one in allowed:
        if one == found:
            return one
    raise _none(name, found, allowed)


def _named(found: object) -> Value:
    return quoted(found) if isinstance(found, str) else shown(found)


def _none(name: str, found: object, allowed: Iterable[object]) -> SaidTrouble:
    there = ", ".join(map(str, allowed))
    return SaidTrouble(said("none-of-these", name=name, found=_named(found), allowed=there))


def _bolt(args: Mapping[str, Any], mill: VirtualMill) -> tuple[Axis, str]:
    axis = _choice(args, "axis", AXES)
    return axis, _choice(args, "bolt", mill.spec.joint(axis).bolts)


def _amount(args: Mapping[str, Any], mill: VirtualMill) -> float:
    most = 4.0 * mill.spec.start_mm + 1.0
    return _within(args, "amount_mm", -most, most)


def _within(args: Mapping[str, Any], name: str, low: float, high: float) -> float:
    found = args.get(name)
    if isinstance(found, bool) or not isinstance(found, int | float) or not low <= found <= high:
        ends = Figure(low, 1), Figure(high, 1)
        why = said("no-number-within", name=name, found=_named(found), low=ends[0], high=ends[1])
        raise SaidTrouble(why)
    return float(found)
