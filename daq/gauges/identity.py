"""Which adapter a gauge hangs on, so that no other one is taken for it later.

A name under by-id holds the adapter's serial number; where adapters have none, all
of a kind answer to the same name, and only the socket (by-path) tells them apart.
"""

import contextlib
import os
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.gauges.errors import PORT, LinkError

SERIAL_TREE: Final = Path("/dev/serial")
SYSFS: Final = Path("/sys")


@dataclass(frozen=True, slots=True)
class Adapter:
    """What is known of the adapter behind a device.

    `sockets` are its names under by-path, `number` its own serial number as sysfs tells
    it, "" when it has none. `kin` are the by-path names of other adapters of the same kind
    with the same number or none: nothing but the socket tells them apart.
    """

    sockets: frozenset[str] = frozenset()
    number: str = ""
    kin: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class _Usb:
    """One adapter as sysfs describes it: where it hangs, what it is, and its number."""

    place: Path
    kind: str
    number: str


class Identity:
    """Remembers a port's adapter from its first opening on."""

    def __init__(self, port: str, *, sysfs: Path = SYSFS) -> None:
        """Prepare for the port at this path; by-id and by-path are looked for beside it."""
        path = Path(port)
        self._port = port
        self._by_path = path.parent.name == "by-path"
        inside = path.parent.name in ("by-id", "by-path")
        self._tree = path.parent.parent if inside else SERIAL_TREE
        self._sysfs = sysfs
        self._first: Adapter | None = None
        self._exchanged: int | None = None

    def exchange(self, node: int) -> None:
        """Hear that the port led to another device while this one, its own, was still there.

        Without a serial number nothing tells then which is which, until it leads back there
        or was pulled out.
        """
        self._exchanged = node

    def absent(self) -> None:
        """Hear that there is no device behind the port now."""
        self._exchanged = None

    def verify(self, node: int) -> None:
        """Compare the device with that number (`st_rdev`) with the first one of this port.

        Raises:
            LinkError: "mixed-up" when it is another adapter or cannot be told from
                another; "unplugged" while the system has not named it yet.
        """
        now = self.adapter(node)
        sure = bool(now.number) and not now.kin
        self._compare(now, sure)
        if self._exchanged not in (None, node) and not sure:
            raise LinkError("mixed-up", EXCHANGED, self._port)
        self._exchanged = None

    def _compare(self, now: Adapter, sure: bool) -> None:
        first = self._first
        if first is None:
            if now.kin and not self._by_path:
                raise self._ambiguous(now)
            if now.sockets or now.number:
                self._first = now
        elif first.number != now.number:
            raise self._other_number(first, now)
        elif sure:
            return
        elif not now.sockets:
            raise LinkError("unplugged", f"{PORT} is just being plugged in.", self._port)
        elif not first.sockets & now.sockets:
            raise self._other_socket(first, now)

    def adapter(self, node: int) -> Adapter:
        """Return what is known of the adapter behind a device."""
        own = self._usb(node)
        sockets, kin = set(), set()
        for name, other in self._named():
            if other == node:
                sockets.add(name)
            elif own is not None:
                usb = self._usb(other)
                like = usb is not None and (usb.kind, usb.number) == (own.kind, own.number)
                if like and usb is not None and usb.place != own.place:
                    kin.add(name)
        return Adapter(frozenset(sockets), own.number if own else "", frozenset(kin))

    def _named(self) -> list[tuple[str, int]]:
        """Return the by-path names there are, each with its device's number."""
        found = []
        with contextlib.suppress(OSError):  # no such folder, or one is being pulled out just now
            for path in sorted((self._tree / "by-path").iterdir()):
                with contextlib.suppress(OSError):
                    found.append((path.name, path.stat().st_rdev))
        return found

    def _usb(self, node: int) -> _Usb | None:
        """Return the adapter a device belongs to: the nearest thing above it that is one."""
        place = self._sysfs / "dev" / "char" / f"{os.major(node)}:{os.minor(node)}" / "device"
        try:
            place = place.resolve(strict=True)
        except OSError:
            return None
        while not (place / "idVendor").exists():
            if place == place.parent:
                return None
            place = place.parent
        kind = f"{_text(place / 'idVendor')}:{_text(place / 'idProduct')}"
        return _Usb(place, kind, _text(place / "serial"))

    def _ambiguous(self, now: Adapter) -> LinkError:
        sockets = " or ".join(sorted(now.sockets | now.kin))
        say = f"{PORT} may be any of several adapters that differ in nothing but their socket: "
        todo = f"write the socket in the gauge's file, {self._tree}/by-path/… ({sockets})."
        short = f"{say}the setup page says what to write in its file."
        return LinkError("mixed-up", short, self._port, say + todo)

    def _other_number(self, first: Adapter, now: Adapter) -> LinkError:
        say = (
            f"{PORT} is another adapter than before (serial number "
            f"{now.number or 'none'}, it was {first.number or 'none'}): put the first one back, or "
            "restart the service if the exchange is meant."
        )
        return LinkError("mixed-up", say, self._port)

    def _other_socket(self, first: Adapter, now: Adapter) -> LinkError:
        was, is_now = " or ".join(sorted(first.sockets)), " or ".join(sorted(now.sockets))
        say = f"{PORT} is in another socket than before"
        short = (
            f"{say} and its adapter cannot be told from others: put it back; the setup page says "
            "what to do if the exchange is meant."
        )
        in_full = (
            f"{say} ({is_now}, it was {was}) and its "
            "adapter cannot be told from others: put it back, or write the new socket in the "
            f"gauge's file, {self._tree}/by-path/…, and restart the service."
        )
        return LinkError("mixed-up", short, self._port, in_full)


EXCHANGED: Final = (
    f"{PORT} leads to another device than before: were two gauges exchanged? Put them back, "
    "or pull the adapter out and plug it in again."
)
"""Said of a port that leads to another device than the one that was open."""


def identity(url: str, sysfs: Path = SYSFS) -> Identity | None:
    """Return the identity to keep for a port; None for one that is no path of this machine."""
    return None if "://" in url else Identity(url, sysfs=sysfs)


def _text(path: Path) -> str:
    """Return a line of sysfs; "" when it is not there."""
    try:
        return path.read_text(encoding="utf-8", errors="replace").strip()
    except OSError:
        return ""
