"""What is on record is read as it was allowed when it was written, whatever is allowed today."""

import dataclasses
import types
from collections.abc import Iterator, Mapping
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

import pytest

from daq.audit.apply import fold
from daq.audit.codec import UnknownEvent, decode
from daq.audit.events import AuditOpened
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.effects import Work
from daq.checks.sweep.slots import Slots, SlottedTable
from daq.metrology.settle import SettleRules
from daq.settings import Range, SettingsError, build, plain
from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from daq.words import Event
from tests.words import troubled

CROSSED = {
    "MachineSetup": {"positions": ["front", "left"]},
    "Adjust": {"kind": "shim", "bolt_spacing": None},
    "Tighten": {"bolts": ["a", "a"]},
    "AfterCrash": {"bolts": ["a", "a"]},
    "Slots": {"width": 60.0, "pitch": 60.0},
    "Work": {"cutter": 50.0, "cut_width": 60.0},
}
"""For each class that checks across its fields: what it refuses today."""


def parts(hint: object) -> Iterator[tuple[Any, tuple[object, ...]]]:
    """The bare types a hint allows, each with the marks on its way."""
    origin, arguments = get_origin(hint), get_args(hint)
    if origin is Annotated:
        for bare, marks in parts(arguments[0]):
            yield bare, (*marks, *arguments[1:])
    elif origin in (Union, types.UnionType, tuple, dict, Mapping):
        for argument in arguments:
            yield from parts(argument)
    else:
        yield hint, ()


def embedded(cls: type, path: tuple[str, ...] = ()) -> Iterator[tuple[type, tuple[str, ...]]]:
    """A dataclass and all it holds, each with where it stands; not what a list or table holds."""
    yield cls, path
    for name, hint in get_type_hints(cls, include_extras=True).items():
        if get_origin(hint) not in (tuple, Mapping):
            for bare, _ in parts(hint):
                if dataclasses.is_dataclass(bare):
                    yield from embedded(bare, (*path, name))


def limited() -> Iterator[tuple[tuple[str, ...], float]]:
    """Every number with limits that `AuditOpened` embeds, and one just outside them."""
    for cls, path in embedded(AuditOpened):
        for name, hint in get_type_hints(cls, include_extras=True).items():
            for bare, marks in parts(hint):
                for mark in marks:
                    if isinstance(mark, Range):
                        low = mark.lo if mark.lo is not None else mark.above
                        value = mark.hi + 1 if mark.hi is not None else low - 1
                        one = bare(value)
                        yield (*path, name), (one,) if get_origin(hint) is tuple else one


def changed(data: dict[str, Any], path: tuple[str, ...], value: object) -> dict[str, Any]:
    """A copy of a row's data with one value another; a table that was left out is begun."""
    name, *below = path
    inner = changed(data.get(name) or {}, tuple(below), value) if below else value
    return {**data, name: inner}


def at(data: object, path: tuple[str, ...]) -> object:
    for name in path:
        data = getattr(data, name)
    return data


@pytest.fixture
def opened(bench) -> Event:
    """The row that opens an audit on a machine with everything in its file."""
    b = bench()
    machine = b.setup.machine
    axes = {
        key: dataclasses.replace(getattr(machine, key), adjust=Adjust(), tighten=Tighten())
        for key in ("side", "nod")
    }
    table = SlottedTable(Slots(14.0, 63.0, -63.0, 3))
    machine = dataclasses.replace(machine, **axes, work=Work(), uncertainty=Doubts(), table=table)
    b.setup = dataclasses.replace(b.setup, machine=machine, settle=SettleRules())
    b.do("open", {"reason": "scheduled"})
    return b.events[0]


def test_the_walk_finds_what_is_there():
    found = {cls.__name__ for cls, _ in embedded(AuditOpened)}
    assert {"MachineSetup", "AxisSetup", "Rule", "Doubts", "Work", "Adjust", "Tighten"} <= found
    assert ("setup", "machine", "sweep_radius") in {path for path, _ in limited()}
    assert len(list(limited())) > 40


def test_a_row_whose_sweep_was_smaller_than_allowed_today_folds(opened):
    data = changed(dict(opened.data), ("setup", "machine", "sweep_radius"), 4.0)
    shop = fold([dataclasses.replace(opened, data=data)])
    (machine,) = shop.machines.values()
    assert machine.job is not None
    assert machine.job.setup.machine.sweep_radius == 4.0


@pytest.mark.parametrize(("path", "value"), list(limited()), ids=str)
def test_a_value_outside_the_limits_of_today_is_read(opened, path, value):
    data = changed(dict(opened.data), path, value)
    assert at(decode(dataclasses.replace(opened, data=data)), path) == value
    with troubled(SettingsError, match="allowed"):
        build(AuditOpened, data, "a file", quantities="plain")


def test_values_that_contradict_each_other_today_are_read(opened):
    checking = {cls: path for cls, path in embedded(AuditOpened) if hasattr(cls, "__post_init__")}
    assert {cls.__name__ for cls in checking} == set(CROSSED)
    for cls, path in checking.items():
        data = dict(opened.data)
        for name, value in CROSSED[cls.__name__].items():
            data = changed(data, (*path, name), value)
        found = at(decode(dataclasses.replace(opened, data=data)), path)
        assert {k: plain(getattr(found, k)) for k in CROSSED[cls.__name__]} == CROSSED[cls.__name__]
        with troubled(SettingsError, match="allowed"):
            build(AuditOpened, data, "a file", quantities="plain")


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("setup", "machine", "sweep_radius"), "4 mm"),
        (("setup", "machine", "sweep_radius"), None),
        (("setup", "machine", "sweep"), 4.0),
        (("setup", "machine"), []),
        (("reason",), "boredom"),
    ],
)
def test_types_and_shapes_are_checked_still(opened, path, value):
    with troubled(UnknownEvent, match="ledger row 1"):
        decode(dataclasses.replace(opened, data=changed(dict(opened.data), path, value)))
