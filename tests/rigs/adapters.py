"""USB serial adapters as they show in a folder like /dev: plugged, pulled, swapped.

Names follow the links of udev's serial rules (from memory): `by-id` carries an
adapter's serial number, `by-path` the socket it is in, and both point to a device
whose number is the lowest one free when it was plugged in. Of adapters without a
serial number all have the same name in `by-id`, and only the one plugged in last
is found there.
"""

import os
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.virtual.store import replace_link

_ID: Final = "usb-Serial_Adapter{}-if00-port0"
_PATH: Final = "platform-usb-0:1.{}:1.0-port0"


@dataclass(frozen=True, slots=True)
class Adapter:
    """An adapter with a gauge behind it, whose tty is at `tty`; twins have no serial number."""

    tty: Path
    serial: str = ""

    @property
    def id_name(self) -> str:
        """Its name in by-id."""
        return _ID.format(f"_{self.serial}" if self.serial else "")


class SerialTree:
    """A folder with `ttyUSB0`… and serial/by-id and serial/by-path beside them."""

    def __init__(self, folder: Path) -> None:
        """Use `folder`, which is made when something is plugged in."""
        self._folder = folder
        self._in: dict[int, tuple[Adapter, Path]] = {}

    def by_id(self, adapter: Adapter) -> Path:
        """Return where `adapter` is found by its serial number, plugged in or not."""
        return self._folder / "serial" / "by-id" / adapter.id_name

    def by_path(self, socket: int) -> Path:
        """Return where what is in `socket` is found."""
        return self._folder / "serial" / "by-path" / _PATH.format(socket)

    def plug(self, adapter: Adapter, socket: int) -> Path:
        """Put `adapter` into `socket`; return its device. Raises ValueError when it is taken."""
        if socket in self._in:
            raise ValueError(f"socket: found {socket}, which is taken; allowed: a free one")
        taken = {device for _, device in self._in.values()}
        numbered = (self._folder / f"ttyUSB{n}" for n in range(len(taken) + 1))
        device = next(one for one in numbered if one not in taken)
        self._in[socket] = adapter, device
        replace_link(device, str(adapter.tty.absolute()))
        for link in (self.by_id(adapter), self.by_path(socket)):
            replace_link(link, os.path.relpath(device, link.parent))
        return device

    def pull(self, socket: int) -> Adapter:
        """Pull out what is in `socket`: its links go. Raises KeyError when it is empty."""
        adapter, device = self._in.pop(socket)
        self.by_path(socket).unlink()
        link = self.by_id(adapter)
        if link.is_symlink() and (link.parent / link.readlink()).resolve() == device.resolve():
            link.unlink()
            self._other_twin(adapter)
        device.unlink()
        return adapter

    def swap(self, one: int, other: int) -> None:
        """Pull both out and put each into the other's socket; `one`'s adapter goes in first."""
        first, second = self.pull(one), self.pull(other)
        self.plug(first, other)
        self.plug(second, one)

    def exchange(self, one: Path, other: Path) -> None:
        """Let two links lead where the other did, each in one step: never is either missing."""
        here, there = str(one.readlink()), str(other.readlink())
        replace_link(one, there)
        replace_link(other, here)

    def _other_twin(self, gone: Adapter) -> None:
        """Let a name that `gone` leaves lead to another adapter of that name."""
        link = self.by_id(gone)
        for adapter, device in self._in.values():
            if adapter.id_name == gone.id_name:
                replace_link(link, os.path.relpath(device, link.parent))
