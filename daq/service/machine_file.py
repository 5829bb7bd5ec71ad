"""One machine's file: its table, with a named tolerance put in, and what its keys say together."""

import difflib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from daq.audit.setup import AxisSetup, MachineSetup
from daq.checks.sweep.slots import in_a_slot, next_clear
from daq.checks.sweep.terms import ON_THE_TABLE
from daq.metrology.presets import DEFAULT, PRESETS, Preset
from daq.service.check_tables import checks
from daq.service.lengths import length
from daq.settings import SettingsError, build, quoted, read_toml
from daq.squaring.advice import sees_nothing
from daq.units import MM_PER_INCH
from daq.words import AXES, OPPOSITE, PARKED, Axis, Position

EXAMPLE: Final = "example-"
"""A machine's file whose name begins so is checked and shows what there is; nothing uses it."""

_BY_KEY: Final[Mapping[str, Preset]] = {preset.key: preset for preset in PRESETS}
_STEP_MM: Final = {"mm": 0.1, "in": 0.005 * MM_PER_INCH}
"""What a radius is proposed in whole steps of: nobody sets an arm finer."""
_OWN: Final = ("limit", "over")


def read(path: Path) -> MachineSetup:
    """Return the machine a file describes.

    Raises:
        SettingsError: every problem of the file, a line each.
    """
    table = read_toml(path)
    offered, wrong = checks(table.pop("checks", {}), str(path))
    problems = list(_named_wrongly(table))
    for axis in AXES:
        if isinstance(table.get(axis), Mapping):
            table[axis] = _axis(table[axis], table.get("tolerance"))
    if not _is_known(table.get("tolerance")):
        table = _without(table, "tolerance")
    try:
        machine = build(MachineSetup, table, str(path))
    except SettingsError as error:
        known = (f"{path}: {each}" for each in problems)
        raise SettingsError([*known, *error.problems, *wrong]) from None
    problems += _together(machine)
    if problems or wrong:
        raise SettingsError([*(f"{path}: {each}" for each in problems), *wrong])
    return replace(machine, checks=offered)


def preset(key: str) -> Preset | None:
    """A tolerance by its name; None for "", the limit then being the file's own."""
    return _BY_KEY.get(key)


def _axis(table: Mapping[str, Any], shared: object) -> dict[str, Any]:
    """An axis's table with the limit of its tolerance, or the machine's, unless it has its own."""
    filled = _without(table, "tolerance")
    if any(key in table for key in _OWN):
        return filled
    key = next((k for k in (table.get("tolerance"), shared) if _is_known(k)), DEFAULT)
    named = _BY_KEY[str(key)]
    return {
        **filled,
        "tolerance": named.key,
        "limit": f"{named.limit_mm} mm",
        "over": f"{named.over_mm} mm",
    }


def _named_wrongly(table: Mapping[str, Any]) -> Iterator[str]:
    """Tolerances nobody knows, and those that stand beside a limit of the axis's own."""
    tables = {"": table, "side": table.get("side"), "nod": table.get("nod")}
    for where, each in tables.items():
        if not isinstance(each, Mapping) or "tolerance" not in each:
            continue
        path = f"{where}.tolerance" if where else "tolerance"
        found = each["tolerance"]
        if not _is_known(found):
            said, known = quoted(found), ", ".join(_BY_KEY)
            near = difflib.get_close_matches(said, _BY_KEY, 1, 0.0)[0]
            yield f"{path}: found {said}; allowed: {known}; nearest known: {near!r}"
        own = [key for key in _OWN if where and key in each]
        if own:
            yield (
                f"{path}: found beside {' and '.join(own)}; allowed: a tolerance by name, or "
                "limit and over"
            )


def _is_known(key: object) -> bool:
    return isinstance(key, str) and key in _BY_KEY


def _without(table: Mapping[str, Any], key: str) -> dict[str, Any]:
    return {name: value for name, value in table.items() if name != key}


def _together(machine: MachineSetup) -> Iterator[str]:
    """What each key says well by itself and yet makes no sense beside another.

    These are the files' rules and not the dataclass's: an audit of long ago still reads.
    """
    if machine.spindle == "horizontal":
        yield (
            'spindle: found "horizontal"; allowed: "vertical": a horizontal spindle is squared to '
            "its travel another way, and this sweeps a table under a vertical one"
        )
    if machine.second_gauge and machine.second_radius is None:
        yield (
            f"second_radius: missing beside second_gauge = {quoted(machine.second_gauge)}; "
            'allowed: from the spindle axis to its contact, a length such as "100 mm" or "4 in"'
        )
    if machine.second_radius is not None and not machine.second_gauge:
        yield (
            "second_radius: found without second_gauge; allowed: both, for a bar with two gauges, "
            "or neither"
        )
    yield from _over_slots(machine, "sweep_radius", machine.sweep_radius, machine.positions)
    if machine.second_radius is not None:
        far = tuple(OPPOSITE[position] for position in machine.positions)
        yield from _over_slots(machine, "second_radius", machine.second_radius, far)
    for axis in AXES:
        yield from (f"{axis}.{each}" for each in _of_axis(machine.axis(axis)))
        yield from _unseen(machine, axis)
    work = machine.work
    if work.cut_width is not None and work.cutter is None:
        yield "work.cut_width: found without cutter; allowed: both, or cutter alone"


def _over_slots(
    machine: MachineSetup, key: str, radius_mm: float, positions: tuple[Position, ...]
) -> Iterator[str]:
    """A contact, or a block, that would stand in a slot of the table."""
    slots, unit = machine.table.slots, machine.unit
    if slots is None or machine.seat not in ON_THE_TABLE:
        return
    inside = in_a_slot(slots, positions, radius_mm)
    if not inside:
        return
    step_mm = _STEP_MM[unit]
    clear = [
        next_clear(slots, positions, radius_mm, "smaller", step_mm),
        next_clear(slots, positions, radius_mm, "larger", step_mm),
    ]
    near = " or ".join(length(mm, unit) for mm in clear if mm is not None)
    yield (
        f"{key}: found {length(radius_mm, unit)}, where a slot of the table is nearer than "
        f"{length(slots.clear, unit)} at {', '.join(inside)}; allowed: "
        f"{f'the next clear of all, {near}' if near else 'none, as the table stands: move it'}"
    )


def _unseen(machine: MachineSetup, axis: Axis) -> Iterator[str]:
    """A pivot right under the only place where the gauge could be parked: it would not move."""
    near, far = PARKED[axis], OPPOSITE[PARKED[axis]]
    radius_mm, away_mm = machine.sweep_radius, machine.axis(axis).pivot_distance
    if far not in machine.positions and sees_nothing(radius_mm, away_mm):
        yield (
            f"{axis}.pivot_distance: found {away_mm:g} mm, where a gauge parked at {near} stands "
            f"and sees no move; allowed: elsewhere, or positions with {far}"
        )


def _of_axis(axis: AxisSetup) -> Iterator[str]:
    if axis.one_sided and axis.limit_low is not None:
        yield (
            f"limit_low: found beside one_sided = {axis.one_sided!r}; allowed: one of them: "
            "limit is then that of the one side"
        )
    adjust = axis.adjust
    turned = adjust.kind in ("worm", "rack")
    for key, value in (("lead", adjust.lead), ("backlash", adjust.backlash)):
        if value is not None and not turned:
            yield f'adjust.{key}: found with kind = "{adjust.kind}"; allowed: with a worm or a rack'
    if adjust.bolt_spacing is not None and adjust.kind != "shim":
        yield (
            f'adjust.bolt_spacing: found with kind = "{adjust.kind}"; allowed: with kind = "shim"'
        )
    if adjust.shelf and adjust.kind != "shim":
        key = "shims" if adjust.shims else "shim_step"
        yield f'adjust.{key}: found with kind = "{adjust.kind}"; allowed: with kind = "shim"'
    if axis.tighten.wrench and axis.tighten.torque is None:
        yield "tighten.wrench: found without torque; allowed: both, or torque alone"
