"""Which adapter a gauge hangs on, so that no other one is taken for it later.

A name under by-id holds the adapter's serial number; where adapters have none, all
of a kind answer to the same name, and only the socket (by-path) tells them apart.
"""

import contextlib
import os
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from daq.gauges.errors import LinkError
from daq.words import Said, said

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
            raise exchanged(self._port)
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
            raise LinkError("unplugged", said("port-being-plugged-in", it=self._port))
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
        in_full = said(
            "port-ambiguous-in-full",
            it=self._port,
            folder=f"{self._tree}/by-path",
            sockets=_either(now.sockets | now.kin),
        )
        return LinkError("mixed-up", said("port-ambiguous", it=self._port), in_full)

    def _other_number(self, first: Adapter, now: Adapter) -> LinkError:
        number, before = now.number or "none", first.number or "none"
        say = said("port-other-adapter", it=self._port, number=number, before=before)
        return LinkError("mixed-up", say)

    def _other_socket(self, first: Adapter, now: Adapter) -> LinkError:
        in_full = said(
            "port-other-socket-in-full",
            it=self._port,
            socket=_either(now.sockets),
            before=_either(first.sockets),
            folder=f"{self._tree}/by-path",
        )
        return LinkError("mixed-up", said("port-other-socket", it=self._port), in_full)


def exchanged(port: str) -> LinkError:
    """What is said of a port that leads to another device than the one that was open."""
    return LinkError("mixed-up", said("port-exchanged", it=port))


def _either(names: frozenset[str]) -> Said | str:
    """One of these, whichever: "a or b" in English."""
    found: Said | str = ""
    for name in sorted(names):
        found = said("either", one=found, other=name) if found else name
    return found


def identity(url: str, sysfs: Path = SYSFS) -> Identity | None:
    """Return the identity to keep for a port; None for one that is no path of this machine."""
    return None if "://" in url else Identity(url, sysfs=sysfs)


def _text(path: Path) -> str:
    """Return a line of sysfs; "" when it is not there."""
    try:
        return path.read_text(encoding="utf-8", errors="replace").strip()
    except OSError:
        return ""
