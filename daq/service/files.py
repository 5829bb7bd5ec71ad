"""A shop's files: shop.toml, machines/*.toml, gauges/*.toml, read at the start.

A machine's file whose name begins with "example-" is checked with the others and not used.
"""

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeVar

from daq.audit.gauge_events import GaugeChecked
from daq.audit.setup import AuditSetup, GaugeSetup, MachineSetup
from daq.audit.shop_papers import ShopPapers
from daq.checks.gauge.measured import BenchMeasured, measured
from daq.checks.gauge.reduce import short_span
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.plan import plan_of
from daq.gauges.config import GaugeConfig, read
from daq.service import machine_file, shop_file, sources
from daq.service.between_files import between_files
from daq.service.shop_file import ShopConfig
from daq.settings import SettingsError
from daq.words import Said, said

T = TypeVar("T")


@dataclass(frozen=True)
class Amiss:
    """What is wrong with one file, or with a folder that should hold some: a line a mistake."""

    path: Path
    problems: tuple[Said, ...]


@dataclass(frozen=True)
class ShopFiles:
    """Everything configured, by key (a file's name without its ending).

    `digest`: the SHA-256 of all these files, hex; "" of what came from none. `amiss`: what of
    the files cannot be used. `unsure`: `shop.toml` is among that, and nothing here is of it.
    """

    shop: ShopConfig
    machines: Mapping[str, MachineSetup]
    gauges: Mapping[str, GaugeConfig]
    takes: Sequence[sources.NamedSource] = ()
    digest: str = ""
    amiss: tuple[Amiss, ...] = ()
    unsure: bool = False

    @property
    def broken(self) -> tuple[str, ...]:
        """The machines whose file, or that of a gauge they name, has a mistake, by key."""
        of = {each.path.stem for each in self.amiss if each.path.parent.name == "machines"}
        return tuple(sorted(k for k in of if not k.startswith(machine_file.EXAMPLE)))

    def why_not(self, machine_key: str) -> Said | None:
        """Why no audit can be opened on a machine, if a file's mistake is the reason."""
        if machine_key in self.broken:
            return said("machine-file-amiss", file=f"machines/{machine_key}.toml")
        return said("shop-file-amiss") if self.unsure else None

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
    """The setup with its gauge's latest check, if one of that very gauge is on record.

    What it measured goes before common practice, not before another figure in the machine's file.
    """
    check = None if setup is None else checks.get(setup.gauge.key)
    if setup is None or check is None or check.serial_number != setup.gauge.serial_number:
        return setup
    gauge = replace(
        setup.gauge,
        checked_on=check.day,
        check_passed=check.passed,
        span_error=short_span(check.points),
        measured=_measured(check, setup.gauge.resolution, setup.machine.uncertainty),
    )
    return replace(setup, gauge=gauge)


def _measured(check: GaugeChecked, resolution_mm: float, doubts: Doubts) -> BenchMeasured:
    seen, usual = measured(check.day, check.points, resolution_mm), Doubts()
    told = doubts.repeatability_dof is not None or doubts.repeatability != usual.repeatability
    # What only the arm adds to a visit no bench sees: less than is assumed of both it is not.
    told |= seen.sd_mm is not None and seen.sd_mm < usual.repeatability
    rubs = seen.friction_mm if doubts.friction == usual.friction else None
    return BenchMeasured(check.day, rubs, None if told else seen.sd_mm)


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
    found = what_is_good(folder)
    if found.amiss:
        raise SettingsError([line for each in found.amiss for line in each.problems])
    return found


def what_is_good(folder: Path) -> ShopFiles:
    """Read a configuration folder as far as it can be used; `amiss` says what cannot, and why.

    One file with a mistake stops no machine but those it is about; a `shop.toml` with one stops
    every new audit. A folder that is empty or not there is a shop without machines.
    """
    found = _Found()
    if not folder.is_dir():
        found.add(folder, f"{folder}: found no such folder; allowed: one with shop.toml in it")
        return ShopFiles(ShopConfig(""), {}, {}, amiss=tuple(found.amiss), unsure=True)
    of_shop = folder / "shop.toml"
    read_shop = found.one(shop_file.read, of_shop)
    machines = found.all(machine_file.read, folder / "machines")
    gauges = found.all(read, folder / "gauges")
    used = {k: m for k, m in machines.items() if not k.startswith(machine_file.EXAMPLE)}
    amiss = any(each.path.parent == folder / "machines" for each in found.amiss)
    if machines and not used and not amiss:
        only = f"{folder / 'machines'}: found only examples; allowed: one file for each machine"
        found.add(folder / "machines", only)
    for key, why in between_files(folder, dict(used), gauges, read_shop):
        found.add(folder / "machines" / f"{key}.toml", *why)
        used.pop(key, None)
    takes = () if read_shop is None else found.takes(read_shop, of_shop, used, gauges)
    return ShopFiles(
        read_shop or ShopConfig(""),
        used,
        gauges,
        takes,
        found.digest(folder),
        tuple(found.amiss),
        unsure=read_shop is None,
    )


class _Found:
    """What is wrong with a folder's files, gathered while they are read."""

    def __init__(self) -> None:
        self.amiss: list[Amiss] = []

    def add(self, path: Path, *problems: Said | str) -> None:
        self.amiss.append(Amiss(path, SettingsError(problems).problems))

    def one(self, read_one: Callable[[Path], T], path: Path) -> T | None:
        try:
            return read_one(path)
        except SettingsError as error:
            self.amiss.append(Amiss(path, error.problems))
            return None

    def all(self, read_one: Callable[[Path], T], folder: Path) -> dict[str, T]:
        paths = sorted(folder.glob("*.toml")) if folder.is_dir() else []
        if not paths:
            self.add(folder, f"{folder}: found no .toml file; allowed: one file for each")
        found = {path.stem: self.one(read_one, path) for path in paths}
        return {key: value for key, value in found.items() if value is not None}

    def takes(
        self,
        shop: ShopConfig,
        path: Path,
        machines: Mapping[str, MachineSetup],
        gauges: Mapping[str, GaugeConfig],
    ) -> tuple[sources.NamedSource, ...]:
        """The sources that can be used; one with a mistake stops no other."""
        used = {key: gauges[machine.gauge] for key, machine in machines.items()}
        stopped = {each.path.stem for each in self.amiss if each.path.parent.name == "machines"}
        found = []
        for i, table in enumerate(shop.takes):
            if table.get("machine") in stopped:
                continue  # said of that file
            try:
                found.append(sources.choose(table, str(path), f"takes[{i}]", used))
            except SettingsError as error:
                self.amiss.append(Amiss(path, error.problems))
        return tuple(found)

    def digest(self, folder: Path) -> str:
        if any(each.path == folder / "shop.toml" for each in self.amiss):
            return ""
        try:
            return digest(folder)
        except OSError as error:
            self.add(folder, f"{folder}: found an unreadable file: {error}; allowed: readable ones")
            return ""


def digest(folder: Path) -> str:
    """The SHA-256 of a folder's files, as `sha256sum gauges/* machines/* shop.toml | sha256sum`."""
    paths = (path for kind in ("gauges", "machines") for path in (folder / kind).glob("*.toml"))
    named = sorted(path.relative_to(folder).as_posix() for path in paths)
    lines = (
        f"{hashlib.sha256((folder / name).read_bytes()).hexdigest()}  {name}\n"
        for name in (*named, "shop.toml")
    )
    return hashlib.sha256("".join(lines).encode()).hexdigest()
