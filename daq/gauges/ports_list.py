"""The serial ports there are, the names they keep, and which gauge's file claims each."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from daq.gauges.config import GaugeConfig
from daq.gauges.identity import SERIAL_TREE


@dataclass(frozen=True, slots=True)
class Port:
    """A device with its stable names, and the keys of the gauges whose files name it."""

    device: str
    by_id: tuple[str, ...]
    by_path: tuple[str, ...]
    gauges: tuple[str, ...]


def ports(gauges: Mapping[str, GaugeConfig], root: Path = SERIAL_TREE) -> list[Port]:
    """Return the ports below `root`, and those that gauges' files name besides."""
    names = {kind: _names(root / kind) for kind in ("by-id", "by-path")}
    claimed: dict[str, list[str]] = {}
    for key, gauge in sorted(gauges.items()):
        claimed.setdefault(_device(gauge.line.port), []).append(key)
    devices = sorted({*names["by-id"].values(), *names["by-path"].values(), *claimed})
    return [
        Port(
            device,
            _leading(names["by-id"], device),
            _leading(names["by-path"], device),
            tuple(claimed.get(device, ())),
        )
        for device in devices
    ]


def lines(found: list[Port]) -> list[str]:
    """Return the ports as people read them, a few lines each."""
    if not found:
        return ["No serial port is plugged in: is the adapter's cable in?"]
    said = []
    for port in found:
        said.append(f"{port.device}  {', '.join(port.gauges) or 'no gauge'}")
        said += [f"  {name}" for name in (*port.by_id, *port.by_path)]
        if not port.by_id and not port.by_path:
            said.append("  not plugged in, or a port without a stable name")
        elif not port.by_id:
            said.append("  no by-id name: write its by-path name in the gauge's file")
    return said


def _names(folder: Path) -> dict[str, str]:
    try:
        return {str(path): os.path.realpath(path) for path in sorted(folder.iterdir())}
    except OSError:  # no adapter was ever plugged in
        return {}


def _leading(names: Mapping[str, str], device: str) -> tuple[str, ...]:
    return tuple(name for name, leads_to in names.items() if leads_to == device)


def _device(port: str) -> str:
    return os.path.realpath(port) if port.startswith("/") else port
