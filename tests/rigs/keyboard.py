"""Stand-ins of evdev and hidapi: a keyboard and a HID device that are none.

Where tests run the kernel is often built without uinput. Only what the ports ask of the two
libraries is here; what these and the kernel do was seen in a virtual machine, see
tests/machines/keys.py.
"""

import errno
import os
import struct
import time
from types import SimpleNamespace
from typing import ClassVar

EVENT = struct.Struct("llHHi")
"""Linux, linux/input.h: struct input_event, its time as two longs."""
SYN, KEY = 0, 1
SHIFT, ENTER = 42, 28


class Keyboard:
    """A device at a path; what nobody has taken for himself a browser with the focus gets too."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.browser: list[int] = []
        self.taken_by: InputDevice | None = None
        self._ends: tuple[int, int] = (-1, -1)

    def plug(self) -> None:
        self._ends = os.pipe2(os.O_NONBLOCK)

    def unplug(self) -> None:
        for end in self._ends:
            if end >= 0:
                os.close(end)
        self._ends, self.taken_by = (-1, -1), None

    @property
    def end(self) -> int:
        if self._ends[0] < 0:
            raise OSError(errno.ENOENT, os.strerror(errno.ENOENT), self.path)
        return self._ends[0]

    def event(self, kind: int, code: int, value: int) -> None:
        if self.taken_by is None:
            self.browser.append(code)
        os.write(self._ends[1], EVENT.pack(0, 0, kind, code, value))

    def press(self, code: int, *held: int) -> None:
        """One key down and up, others held meanwhile."""
        for each in (*held, code):
            self.event(KEY, each, 1)
        for each in (code, *held):
            self.event(KEY, each, 0)
        self.event(SYN, 0, 0)


class InputDevice:
    """What evdev opens."""

    keyboards: ClassVar[dict[str, Keyboard]] = {}

    def __init__(self, path: str) -> None:
        if path not in self.keyboards:
            raise OSError(errno.ENOENT, os.strerror(errno.ENOENT), path)
        self._of = self.keyboards[path]
        self.fd = os.dup(self._of.end)

    def grab(self) -> None:
        if self._of.taken_by is not None:
            raise OSError(errno.EBUSY, os.strerror(errno.EBUSY))
        self._of.taken_by = self

    def ungrab(self) -> None:
        if self._of.taken_by is not self:
            raise OSError(errno.EINVAL, os.strerror(errno.EINVAL))
        self._of.taken_by = None

    def read(self):
        raw = os.read(self.fd, 64 * EVENT.size)
        if not raw:
            raise OSError(errno.ENODEV, os.strerror(errno.ENODEV))
        for _, _, kind, code, value in EVENT.iter_unpack(raw):
            yield SimpleNamespace(type=kind, code=code, value=value)

    def close(self) -> None:
        if self.fd >= 0:
            os.close(self.fd)
        self.fd = -1


class Cables:
    """hidapi with these devices: path to (vendor, product, serial number)."""

    def __init__(self, devices: dict[str, tuple[int, int, str]]) -> None:
        self.devices = devices
        self.reports: list[bytes] = []
        self.asked = 0

    def enumerate(self, vendor_id: int = 0, product_id: int = 0):
        return [
            {"path": path.encode(), "serial_number": number}
            for path, (vendor, product, number) in self.devices.items()
            if (vendor, product) == (vendor_id, product_id)
        ]

    def device(self) -> "Cable":
        return Cable(self)


class Cable:
    """One of them, opened."""

    def __init__(self, cables: Cables) -> None:
        self._cables = cables
        self._path = ""

    def open_path(self, device_path: bytes) -> None:
        self._path = device_path.decode()
        if self._path not in self._cables.devices or not os.access(self._path, os.W_OK):
            raise OSError("open failed")

    def read(self, max_length: int, timeout_ms: int = 0) -> list[int]:
        assert timeout_ms > 0, "it would wait for ever"
        if self._path not in self._cables.devices:
            raise OSError("read error")
        self._cables.asked += 1
        if not self._cables.reports:
            time.sleep(timeout_ms / 1000.0)
            return []
        return list(self._cables.reports.pop(0)[:max_length])

    def close(self) -> None:
        self._path = ""
