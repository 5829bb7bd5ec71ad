"""The serial ports there are, the names they keep, and which gauge's file claims each."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.gauges.config import GaugeConfig
from daq.gauges.identity import SERIAL_TREE, SYSFS

_OWN: Final = ("serial0", "ttyAMA0", "ttyS0")
"""A computer's own port, a Pi's on its pins, which no adapter has: a name of its own that stays."""

_NO_UART: Final = "0"
"""Linux, serial_core.h, PORT_UNKNOWN: there is a name, but nothing behind it."""

KEYS: Final = "keys://"
"""How the port of a cable that types begins."""


@dataclass(frozen=True, slots=True)
class Port:
    """A device with its stable names, and the keys of the gauges whose files name it.

    `own`: its names where it is the computer's own port, on no adapter. `typed`: its ports where
    it is a keyboard, or a cable that types.
    """

    device: str
    by_id: tuple[str, ...]
    by_path: tuple[str, ...]
    gauges: tuple[str, ...]
    own: tuple[str, ...] = ()
    typed: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The one to write in a gauge's file: it leads there again after a restart."""
        return (*self.by_id, *self.by_path, *self.own, self.device)[0]


def ports(
    gauges: Mapping[str, GaugeConfig], root: Path = SERIAL_TREE, sysfs: Path = SYSFS
) -> list[Port]:
    """Return the ports below `root`, the computer's own beside it, and those that files name."""
    names = {kind: _names(root / kind) for kind in ("by-id", "by-path")}
    paths = [root.parent / name for name in _OWN if _is_real(name, sysfs)]
    own = {str(path): os.path.realpath(path) for path in paths if path.exists()}
    claimed: dict[str, list[str]] = {}
    for key, gauge in sorted(gauges.items()):
        claimed.setdefault(_device(gauge.line.port), []).append(key)
    devices = sorted(
        {*names["by-id"].values(), *names["by-path"].values(), *own.values(), *claimed}
    )
    return [
        Port(
            device,
            _leading(names["by-id"], device),
            _leading(names["by-path"], device),
            tuple(claimed.get(device, ())),
            _leading(own, device),
        )
        for device in devices
    ]


def keyboards(gauges: Mapping[str, GaugeConfig], root: Path = SERIAL_TREE) -> list[Port]:
    """Return what types, keyboards and data cables: nothing tells one from the other."""
    found: dict[str, list[str]] = {}
    for kind in ("by-id", "by-path"):
        for name, device in _names(root.parent / "input" / kind).items():
            if name.endswith("-event-kbd"):
                found.setdefault(device, []).append(f"{KEYS}{name}")
    claims = {key: _device(gauge.line.port) for key, gauge in sorted(gauges.items())}
    return [
        Port(device, (), (), _leading(claims, device), (), tuple(at))
        for device, at in sorted(found.items())
    ]


def _is_real(name: str, sysfs: Path) -> bool:
    """Whether there is a port behind such a name; a kernel makes some that nothing is behind."""
    try:
        kind = (sysfs / "class" / "tty" / name / "type").read_text(encoding="ascii")
    except OSError:  # no such file for a link of udev's, and for other drivers
        return True
    return kind.strip() != _NO_UART


def lines(found: list[Port]) -> list[str]:
    """Return the ports as people read them, a few lines each."""
    if not found:
        return ["No serial port is plugged in: is the adapter's cable in?"]
    said = []
    for port in found:
        said.append(f"{port.device}  {', '.join(port.gauges) or 'no gauge'}")
        said += [f"  {name}" for name in (*port.by_id, *port.by_path, *port.own, *port.typed)]
        if port.typed:
            said.append("  types: a keyboard, or a cable; a gauge's file takes it for the gauge")
        elif not (port.by_id or port.by_path or port.own):
            said.append("  not plugged in, or a port without a stable name")
        elif not (port.by_id or port.own):
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
    path = port.removeprefix(KEYS)
    return os.path.realpath(path) if path.startswith("/") else port
