"""What a machine's file names that another file is to describe: gauges, rings, tools."""

import difflib
from collections.abc import Iterator, Mapping
from pathlib import Path

from daq.audit.setup import MachineSetup
from daq.audit.shop_papers import ToolKind
from daq.gauges.config import GaugeConfig
from daq.gauges.sharing import apart
from daq.service import shop_file
from daq.service.shop_file import ShopConfig
from daq.settings import quoted
from daq.words import AXES


def between_files(
    folder: Path,
    machines: Mapping[str, MachineSetup],
    gauges: Mapping[str, GaugeConfig],
    shop: ShopConfig | None,
) -> Iterator[tuple[str, list[str]]]:
    """What is wrong with each machine by the files besides its own, by its key; none is empty.

    `gauges`: those whose files are good. `shop`: None where its file is not.
    """
    cannot = _cannot_share(folder / "gauges", machines, gauges)
    for key, machine in machines.items():
        where = folder / "machines" / f"{key}.toml"
        found = [*_unknown_gauges(folder / "gauges", machine, gauges)]
        for gauge in (machine.gauge, machine.second_gauge):
            found += cannot.get(gauge, ())
        found += [] if shop is None else _unknown_to_shop(machine, shop)
        found += [] if shop is None else _no_collar(key, machine, shop)
        if found:
            yield key, [f"{where}: {each}" for each in found]


def _cannot_share(
    folder: Path, machines: Mapping[str, MachineSetup], gauges: Mapping[str, GaugeConfig]
) -> dict[str, list[str]]:
    """Why a gauge some machine names cannot be read, by its key: another one is on its port."""
    used = {key for each in machines.values() for key in (each.gauge, each.second_gauge)}
    named = {key: gauge for key, gauge in gauges.items() if key in used}
    told = apart({str(folder / f"{key}.toml"): gauge for key, gauge in named.items()})
    return {Path(name).stem: why for name, why in told.items()}


def _unknown_to_shop(machine: MachineSetup, shop: ShopConfig) -> Iterator[str]:
    """Rings and tools that a machine's file names and shop.toml does not."""
    for where, found, what, known in _of_the_shop(machine, shop):
        if found and found not in known:
            none = f"allowed: none: shop.toml names no {what}"
            there = f"allowed: {', '.join(known)}" if known else none
            yield f"{where}: found {quoted(found)}; {there}"


def _no_collar(key: str, machine: MachineSetup, shop: ShopConfig) -> Iterator[str]:
    """A slow turn without the switches that it goes by."""
    wanted = {"four": "passed", "mark": "mark"}.get(machine.slow_turn, "")
    of_pins = [t for t in shop.takes if (t.get("machine"), t.get("source")) == (key, "pins")]
    if wanted and not any(table.get(wanted) for table in of_pins):
        yield (
            f"slow_turn: found {quoted(machine.slow_turn)} and no switches for it in shop.toml; "
            f'allowed: with {wanted} in a [[takes]] of source = "pins" for this machine'
        )


def _of_the_shop(
    machine: MachineSetup, shop: ShopConfig
) -> Iterator[tuple[str, str, str, list[str]]]:
    """What a machine's file names of the shop: where, what, of which kind, and which there are."""
    yield "ring", machine.ring, "rings", sorted(shop.rings)
    yield from _tools("thermometer", "thermometer", machine.thermometer, shop)
    for axis in AXES:
        yield from _tools(
            f"{axis}.tighten.wrench", "wrench", machine.axis(axis).tighten.wrench, shop
        )


def _tools(
    where: str, kind: ToolKind, number: str, shop: ShopConfig
) -> Iterator[tuple[str, str, str, list[str]]]:
    """A shop that names no tool of the kind keeps their papers elsewhere: any number goes."""
    known = shop_file.numbers(shop, kind)
    if known:
        yield where, number, kind, known


def _unknown_gauges(
    folder: Path, machine: MachineSetup, gauges: Mapping[str, GaugeConfig]
) -> Iterator[str]:
    for field_name, gauge in {"gauge": machine.gauge, "second_gauge": machine.second_gauge}.items():
        if gauge in gauges or not (gauge or field_name == "gauge"):
            continue
        found = f"{field_name}: found {quoted(gauge)}"
        if gauge and (folder / f"{gauge}.toml").is_file():
            yield f"{found}, whose own file has a mistake; allowed: a gauge with a good one"
        elif not gauges:
            yield f"{found}; allowed: one with a file in {folder}: there is none"
        else:
            near = difflib.get_close_matches(quoted(gauge), gauges, 1, 0.0)[0]
            yield f"{found}; allowed: {', '.join(sorted(gauges))}; nearest known: {near!r}"
    if machine.second_gauge and machine.second_gauge == machine.gauge:
        yield "second_gauge: found the same gauge twice; allowed: another"
