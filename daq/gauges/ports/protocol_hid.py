"""hid://VENDOR:PRODUCT/SERIAL: a data cable of USB's class for input devices that types nothing.

The two numbers in four hexadecimal digits, the serial number where several such are plugged in
and have one; hid:///dev/… names the device itself, by a name that a udev rule has given it. Each
report comes as its bytes, the report's number first where the cable sends one.
"""

import errno
import os
import re
from types import ModuleType
from typing import Final
from urllib.parse import unquote

from serial import SerialException

from daq.gauges.ports.incoming import Incoming, library

_URL: Final = re.compile(
    r"hid://(?:(?P<vendor>[0-9a-f]{4}):(?P<product>[0-9a-f]{4})(?:/(?P<number>.+))?|(?P<path>/.+))",
    re.IGNORECASE,
)
_LONGEST: Final = 1024
_MOST_REPORTS: Final = 64
_SOON_MS: Final = 1


class Hid(Incoming):
    """A port that hears one device's input reports."""

    def start(self, url: str) -> None:
        """Open the device.

        Raises:
            NotInstalledError: hidapi is missing.
            SerialException: the URL names no device, or several have these numbers.
            OSError: it is not there, or this user may not open it.
        """
        hidraw = library("hidraw", "python3-hid")
        path = _path(hidraw, url)
        self._device = hidraw.device()
        try:
            self._device.open_path(path.encode())
        except OSError as error:  # the library says no more than that it failed
            os.close(os.open(path, os.O_RDWR))  # which says why
            raise OSError(errno.EIO, "not opened") from error

    def close(self) -> None:
        """Give the device back."""
        if self.is_open:
            self.is_open = False
            self._device.close()

    def brought(self, wait_s: float) -> bytes:
        """Return the reports that have come, the first of them awaited."""
        found = bytearray()
        wait_ms = max(_SOON_MS, round(wait_s * 1000.0))
        for _ in range(_MOST_REPORTS):
            report = self._device.read(_LONGEST, wait_ms)
            if not report:
                break
            found += bytes(report)
            wait_ms = _SOON_MS
        return bytes(found)


Serial = Hid
"""As pyserial looks for it."""


def _path(hidraw: ModuleType, url: str) -> str:
    """The one device that a URL names."""
    said = _URL.fullmatch(url)
    if said is None:
        raise SerialException(
            f"found {url}; allowed: hid://VENDOR:PRODUCT, four hexadecimal digits each, "
            "hid://VENDOR:PRODUCT/SERIAL or hid:///dev/NAME"
        )
    if said["path"]:
        return unquote(said["path"])
    number = unquote(said["number"] or "")
    ids = (int(said["vendor"], 16), int(said["product"], 16))
    paths = {
        bytes(each["path"]).decode()
        for each in hidraw.enumerate(*ids)
        if number in ("", each["serial_number"])
    }
    if not paths:
        raise OSError(errno.ENOENT, url)
    if len(paths) > 1:
        raise SerialException(
            f"found {len(paths)} devices: {', '.join(sorted(paths))}; allowed: one, told by its "
            "serial number or by hid:///dev/NAME"
        )
    return paths.pop()
