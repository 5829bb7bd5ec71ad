"""A shop's files: shop.toml, machines/*.toml, gauges/*.toml, read once at the start.

A machine's file whose name begins with "example-" is checked with the others and not used.
"""

import difflib
import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from daq.audit.gauge_events import GaugeChecked
from daq.audit.setup import AuditSetup, GaugeSetup, MachineSetup
from daq.audit.shop_papers import ShopPapers, ToolKind
from daq.checks.gauge.reduce import SHORT_MM, worst_step
from daq.checks.sweep.plan import plan_of
from daq.gauges.config import GaugeConfig, read
from daq.service import machine_file, shop_file, sources
from daq.service.shop_file import ShopConfig
from daq.settings import SettingsError, quoted
from daq.words import AXES, Said

T = TypeVar("T")


@dataclass(frozen=True)
class ShopFiles:
    """Everything configured, by key (a file's name without its ending).

    `digest`: the SHA-256 of all these files, hex; "" of what came from none.
    """

    shop: ShopConfig
    machines: Mapping[str, MachineSetup]
    gauges: Mapping[str, GaugeConfig]
    takes: Sequence[sources.NamedSource] = ()
    digest: str = ""

    @property
    def used_gauges(self) -> dict[str, GaugeConfig]:
        """The gauges some machine names; only these ports are opened."""
        machines = self.machines.values()
        used = {m.gauge for m in machines} | {m.second_gauge for m in machines}
        return {key: gauge for key, gauge in self.gauges.items() if key in used}

    def audit_setup(self, machine_key: str) -> AuditSetup | None:
        """What an audit opened now on this machine embeds; None for one without a file."""
        machine = self.machines.get(machine_key)
        if machine is None:
            return None
        gauge = self.gauges[machine.gauge]
        return AuditSetup(
            machine_key=machine_key,
            machine=machine,
            gauge=gauge_setup(machine.gauge, gauge),
            settle=self.shop.settle,
            plan=plan_of(machine.positions),
            second_gauge=self._second(machine.second_gauge),
            others=self._finer(machine),
            rings=tuple(replace(ring, key=key) for key, ring in self.shop.rings.items()),
            shop=self.papers,
            tools=tuple(self.shop.tools.values()),
            config=self.digest,
        )

    @property
    def papers(self) -> ShopPapers:
        """What paper says of the shop: its name as the pages show it, unless it has another."""
        papers = self.shop.papers
        return replace(papers, name=papers.name or self.shop.name)

    def _finer(self, machine: MachineSetup) -> tuple[GaugeSetup, ...]:
        """The shop's gauges that count finer, or may be off by less; no examples."""
        here = self.gauges[machine.gauge]
        mine = (machine.gauge, machine.second_gauge)
        return tuple(
            gauge_setup(key, gauge)
            for key, gauge in self.gauges.items()
            if key not in mine
            and not key.startswith(machine_file.EXAMPLE)
            and (gauge.resolution < here.resolution or gauge.max_error < here.max_error)
        )

    def _second(self, key: str) -> GaugeSetup | None:
        return gauge_setup(key, self.gauges[key]) if key else None


def gauge_setup(key: str, gauge: GaugeConfig) -> GaugeSetup:
    """The part of a gauge's file that an audit keeps."""
    certified = gauge.certified_on
    return GaugeSetup(
        key=key,
        name=gauge.name,
        serial_number=gauge.serial_number,
        counts_up=gauge.counts_up,
        cosine=gauge.cosine,
        resolution=gauge.resolution,
        travel=gauge.travel,
        calibration_due=gauge.calibration_due.isoformat(),
        certificate=gauge.certificate.number,
        laboratory=gauge.laboratory,
        calibrated_on=None if certified is None else certified.isoformat(),
        kind=gauge.kind,
        max_error=gauge.max_error,
        certificate_u=gauge.certificate.u_mm,
        certificate_condition=gauge.certificate.condition,
        drift=gauge.drift_mm,
        angle_doubt=gauge.doubted_angle,
    )


def with_check(setup: AuditSetup | None, checks: Mapping[str, GaugeChecked]) -> AuditSetup | None:
    """The setup with its gauge's latest check, if one of that very gauge is on record."""
    check = None if setup is None else checks.get(setup.gauge.key)
    if setup is None or check is None or check.serial_number != setup.gauge.serial_number:
        return setup
    span_error = worst_step(check.points, SHORT_MM)
    gauge = replace(
        setup.gauge, checked_on=check.day, check_passed=check.passed, span_error=span_error
    )
    return replace(setup, gauge=gauge)


def shipped() -> Path:
    """The folder of the configuration that comes with headsweep: in the package, or its checkout.

    An installation has it inside the package; a checkout has it beside the package.
    """
    package = Path(__file__).parents[1]
    inside = package / "config"
    return inside if inside.is_dir() else package.parent / "config"


def load(folder: Path) -> ShopFiles:
    """Read a configuration folder whole.

    Raises:
        SettingsError: every problem of every file, a line each.
    """
    if not folder.is_dir():
        raise SettingsError([f"{folder}: found no such folder; allowed: one with shop.toml in it"])
    problems: list[Said | str] = []
    shop = _one(shop_file.read, folder / "shop.toml", problems)
    machines = _all(machine_file.read, folder / "machines", problems)
    machines = _in_use(machines, folder / "machines", problems)
    gauges = _all(read, folder / "gauges", problems)
    if not problems:
        problems += _unknown_gauges(folder, machines, gauges)
        problems += [] if shop is None else _unknown_to_shop(folder, machines, shop)
    if problems or shop is None:
        raise SettingsError(problems)
    used = {key: gauges[machine.gauge] for key, machine in machines.items()}
    takes = _takes(shop, folder / "shop.toml", used)
    try:
        return ShopFiles(shop, machines, gauges, takes, digest(folder))
    except OSError as error:
        raise SettingsError([f"{folder}: found a file that cannot be read: {error}"]) from None


def digest(folder: Path) -> str:
    """The SHA-256 of a folder's files, as `sha256sum gauges/* machines/* shop.toml | sha256sum`."""
    paths = (path for kind in ("gauges", "machines") for path in (folder / kind).glob("*.toml"))
    named = sorted(path.relative_to(folder).as_posix() for path in paths)
    lines = (
        f"{hashlib.sha256((folder / name).read_bytes()).hexdigest()}  {name}\n"
        for name in (*named, "shop.toml")
    )
    return hashlib.sha256("".join(lines).encode()).hexdigest()


def _takes(
    shop: ShopConfig, path: Path, gauges: Mapping[str, GaugeConfig]
) -> tuple[sources.NamedSource, ...]:
    problems: list[Said | str] = []
    found = []
    for i, table in enumerate(shop.takes):
        try:
            found.append(sources.choose(table, str(path), f"takes[{i}]", gauges))
        except SettingsError as error:
            problems += error.problems
    if problems:
        raise SettingsError(problems)
    return tuple(found)


def _one(read_one: Callable[[Path], T], path: Path, problems: list[Said | str]) -> T | None:
    try:
        return read_one(path)
    except SettingsError as error:
        problems.extend(error.problems)
        return None


def _all(read_one: Callable[[Path], T], folder: Path, problems: list[Said | str]) -> dict[str, T]:
    paths = sorted(folder.glob("*.toml")) if folder.is_dir() else []
    if not paths:
        problems.append(f"{folder}: found no .toml file; allowed: one file for each")
    found = {path.stem: _one(read_one, path, problems) for path in paths}
    return {key: value for key, value in found.items() if value is not None}


def _in_use(
    machines: Mapping[str, MachineSetup], folder: Path, problems: list[Said | str]
) -> dict[str, MachineSetup]:
    """The machines that are no examples."""
    used = {k: m for k, m in machines.items() if not k.startswith(machine_file.EXAMPLE)}
    if machines and not used and not problems:
        problems.append(f"{folder}: found only examples; allowed: one file for each machine")
    return used


def _unknown_to_shop(
    folder: Path, machines: Mapping[str, MachineSetup], shop: ShopConfig
) -> list[str]:
    """Rings and tools that a machine's file names and shop.toml does not."""
    return [
        f"{folder / 'machines' / key}.toml: {where}: found {quoted(found)}; allowed: "
        f"{', '.join(known) or f'none: shop.toml names no {what}'}"
        for key, machine in machines.items()
        for where, found, what, known in _of_the_shop(machine, shop)
        if found and found not in known
    ]


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
    folder: Path, machines: Mapping[str, MachineSetup], gauges: Mapping[str, GaugeConfig]
) -> list[str]:
    problems = []
    for key, machine in machines.items():
        where = folder / "machines" / f"{key}.toml"
        named = {"gauge": machine.gauge, "second_gauge": machine.second_gauge}
        for field_name, gauge in named.items():
            if gauge not in gauges and (gauge or field_name == "gauge"):
                near = difflib.get_close_matches(quoted(gauge), gauges, 1, 0.0)
                problems.append(
                    f"{where}: {field_name}: found {quoted(gauge)}; allowed: "
                    f"{', '.join(sorted(gauges))}; nearest known: {near[0]!r}"
                )
        if machine.second_gauge and machine.second_gauge == machine.gauge:
            problems.append(f"{where}: second_gauge: found the same gauge twice; allowed: another")
    return problems
