"""shop.toml: the shop as a whole, what its papers say, its rings and its tools."""

import difflib
import ipaddress
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from daq.audit.shop_papers import UTC, ShopPapers, Tool
from daq.checks.sweep.rings import NamedRing
from daq.metrology.settle import SettleRules
from daq.service.delivery.config import OnSigning
from daq.service.letting_go import RecordRules
from daq.service.messages.config import Mqtt
from daq.service.power import PowerOptions
from daq.settings import Length, SettingsError, build, quoted, read_toml

USUAL_DISTANCE_MM, USUAL_SIZE_MM = 5000.0, 812.8
"""From where the wall is read, and the diagonal of its screen, which is 32 inches."""
LEAST_SCALE, MOST_SCALE = 0.6, 1.1
"""Of its letters: nearer by, other things would fit, but nobody would look for them there."""

SETTLE_LIMITS: Mapping[str, tuple[float, float]] = {
    "wait_s": (0, 60),
    "window_s": (0.05, 60),
    "slow_window_s": (0.05, 60),
    "min_samples": (3, 1000),
    "timeout_s": (0.5, 15),
}
"""Seconds, and a count. A reading cannot begin before its take, nor outlast its answer."""


@dataclass(frozen=True)
class ShopConfig:
    """shop.toml. `hosts`: the names, besides addresses, under which the pages may be asked for.

    `proxies`: addresses of those in front of the pages whose word for whom they ask is believed.
    `language`: what the pages speak, as `daq/says` has a file of sentences for it.
    `wall_pedal`: whether a pedal that types presses the big button from the wall screen's page.
    `wall_distance`, `wall_size`: from how far the wall is read, and its screen's diagonal.
    `takes`: the sources of takes beside the pages, each a table as `sources.choose` reads it.
    `rings`: the rings and plates that are told apart, by name. `papers`: what paper says of the
    shop; `tools`: its torque wrenches and thermometers, by a name of the file's own.
    `record`: how long raw samples stay; `on_signing`: where reports go by themselves.
    `power`: the pins that power the Pi off, for `headsweep power`.
    `mqtt`: the shop's broker, if its own systems are told; `metrics`: whether `/metrics` answers.
    """

    name: str
    hosts: tuple[str, ...] = ("headsweep.local",)
    proxies: tuple[str, ...] = ()
    language: str = "en"
    wall_pedal: bool = True
    wall_distance: Length = USUAL_DISTANCE_MM
    wall_size: Length = USUAL_SIZE_MM
    settle: SettleRules = field(default_factory=SettleRules)
    takes: tuple[Mapping[str, Any], ...] = ()
    rings: Mapping[str, NamedRing] = field(default_factory=dict)
    papers: ShopPapers = field(default_factory=ShopPapers)
    tools: Mapping[str, Tool] = field(default_factory=dict)
    record: RecordRules = field(default_factory=RecordRules)
    on_signing: OnSigning = field(default_factory=OnSigning)
    power: PowerOptions = field(default_factory=PowerOptions)
    mqtt: Mqtt | None = None
    metrics: bool = False

    def __post_init__(self) -> None:
        """Refuse rules by which nothing could settle, and what could not be told apart.

        Raises:
            ValueError: a rule is outside its limits, a proxy is named otherwise than by its
                address, or two tools of a kind bear one number.
        """
        _check_wall(self.wall_distance, self.wall_size)
        for i, found in enumerate(self.proxies):
            _check_address(f"proxies[{i}]", found)
        for key, (least, most) in SETTLE_LIMITS.items():
            found = getattr(self.settle, key)
            if not least <= found <= most:
                raise ValueError(f"settle.{key}: found {found:g}; allowed: {least:g} to {most:g}")
        _check_numbers(self.tools)

    @property
    def wall_scale(self) -> float:
        """How large the wall's letters are, of those that are read from 5 m on a 32-inch screen."""
        return max(_asked(self.wall_distance, self.wall_size), LEAST_SCALE)


def _asked(distance_mm: float, size_mm: float) -> float:
    return distance_mm / USUAL_DISTANCE_MM * USUAL_SIZE_MM / size_mm


def _check_wall(distance_mm: float, size_mm: float) -> None:
    """Refuse a wall on which what a step shows has no room in letters that can be read."""
    for key, found in (("wall_distance", distance_mm), ("wall_size", size_mm)):
        if not found > 0.0:
            raise ValueError(f"{key}: found {found:g} mm; allowed: above zero")
    if _asked(distance_mm, size_mm) > MOST_SCALE:
        most_m = MOST_SCALE * USUAL_DISTANCE_MM * size_mm / USUAL_SIZE_MM / 1000.0
        raise ValueError(
            f"wall_distance: found {distance_mm / 1000.0:g} m; allowed: up to {most_m:.1f} m, read "
            f"from a screen of wall_size = {size_mm / 25.4:.0f} in: in larger letters instruction, "
            "number and caution do not fit on it together"
        )


def read(path: Path) -> ShopConfig:
    """Return the shop that a file describes.

    Raises:
        SettingsError: every problem of the file, a line each.
    """
    shop = build(ShopConfig, read_toml(path), str(path))
    problems = [f"{path}: papers.{each}" for each in _no_time_zone(shop.papers.time_zone)]
    if problems:
        raise SettingsError(problems)
    return shop


def numbers(shop: ShopConfig, kind: str) -> list[str]:
    """The numbers of its tools of a kind, in order."""
    return sorted(tool.number for tool in shop.tools.values() if tool.kind == kind)


def _check_address(key: str, found: str) -> None:
    """Refuse what a connection's address could never be equal to."""
    try:
        same = str(ipaddress.ip_address(found)) == found
    except ValueError:
        same = False
    if not same:
        raise ValueError(f"{key}: found {quoted(found)}; allowed: an address such as 127.0.0.1")


def _check_numbers(tools: Mapping[str, Tool]) -> None:
    seen: set[tuple[str, str]] = set()
    for key, tool in tools.items():
        if not tool.number.strip():
            raise ValueError(f"tools.{key}.number: found none; allowed: the number on it")
        if (tool.kind, tool.number) in seen:
            raise ValueError(
                f"tools.{key}.number: found {quoted(tool.number)} twice; "
                f"allowed: one of its own for each {tool.kind}"
            )
        seen.add((tool.kind, tool.number))


def _no_time_zone(name: str) -> Iterator[str]:
    """What is wrong with a time zone's name, by the zones that this computer knows."""
    if name == UTC:
        return
    from zoneinfo import ZoneInfo, available_timezones

    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        near = difflib.get_close_matches(name, sorted(available_timezones()), 1, 0.0)
        known = f"nearest known: {near[0]!r}" if near else "no tzdata"
        yield (
            f"time_zone: found {quoted(name)}; allowed: {UTC}, or an IANA name such as "
            f"America/Chicago; {known}"
        )
