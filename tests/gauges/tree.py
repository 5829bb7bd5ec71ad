"""A /dev/serial and a /sys in a folder, in which adapters are plugged, pulled and moved.

Names as udev's serial rules give them, and sysfs as the kernel lays it out (from
memory): a tty's device is an interface of the USB device, whose folder holds idVendor,
idProduct and, where it has one, serial.
"""

import os
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Plug:
    """An adapter's device node, its number and its kind."""

    node: str
    serial: str | None = None
    product: str = "0001"

    @property
    def name(self):
        number = f"_{self.serial}" if self.serial else ""
        return f"usb-Serial_Adapter{number}-if00-port0"


class Tree:
    def __init__(self, folder: Path):
        self.serial = folder / "dev" / "serial"
        self.sysfs = folder / "sys"
        for each in ("by-id", "by-path"):
            (self.serial / each).mkdir(parents=True)
        (self.sysfs / "dev" / "char").mkdir(parents=True)

    def by_id(self, plug):
        return self.serial / "by-id" / plug.name

    def by_path(self, socket):
        return self.serial / "by-path" / f"platform-usb-0:{socket}:1.0-port0"

    def plug(self, plug, socket, described=True, named=True):
        if described:
            self._describe(plug, socket)
        links = [self.by_id(plug)]
        if named:
            links.append(self.by_path(socket))
        for link in links:
            point(link, plug.node)

    def pull(self, plug, socket):
        for link in (self.by_id(plug), self.by_path(socket)):
            link.unlink(missing_ok=True)
        char(self.sysfs, plug.node).unlink(missing_ok=True)

    def _describe(self, plug, socket):
        usb = self.sysfs / "devices" / "usb1" / f"1-{socket}"
        tty = usb / f"1-{socket}:1.0" / "ttyUSB"
        tty.mkdir(parents=True, exist_ok=True)
        (usb / "idVendor").write_text("ffff\n")
        (usb / "idProduct").write_text(f"{plug.product}\n")
        (usb / "serial").unlink(missing_ok=True)
        if plug.serial is not None:
            (usb / "serial").write_text(f"{plug.serial}\n")
        entry = self.sysfs / "class" / f"tty-{Path(plug.node).name}"
        entry.mkdir(parents=True, exist_ok=True)
        point(entry / "device", tty)
        point(char(self.sysfs, plug.node), entry)


def char(sysfs, node):
    number = Path(node).stat().st_rdev
    return sysfs / "dev" / "char" / f"{os.major(number)}:{os.minor(number)}"


def point(link, target):
    """Let a link lead there, in one step: there is always one."""
    new = link.with_name(f"{link.name}.new")
    new.unlink(missing_ok=True)
    new.symlink_to(target)
    new.replace(link)
