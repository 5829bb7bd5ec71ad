"""One opening of a port: exclusive, set up as the gauge's file says, read in blocks."""

import contextlib
import errno
import fcntl
import io
import os
import select
import termios
from typing import Final

import serial

from daq.gauges.config import Line

_BLOCK: Final = 4096

_PARITY: Final = {
    "none": serial.PARITY_NONE,
    "even": serial.PARITY_EVEN,
    "odd": serial.PARITY_ODD,
    "mark": serial.PARITY_MARK,
    "space": serial.PARITY_SPACE,
}

_BUSY: Final = (errno.EBUSY, errno.EAGAIN)
_GONE: Final = (errno.ENOENT, errno.ENODEV, errno.ENXIO, errno.EIO)
_TROUBLE: Final = (OSError, ValueError, termios.error)
"""What pyserial lets through besides its own errors, which are OSErrors."""


class LinkError(Exception):
    """A port cannot be opened or read: a fault's `code` and a plain sentence."""

    def __init__(self, code: str, say: str) -> None:
        """Keep the code ("busy", "unplugged" or "cannot-open") beside the sentence."""
        super().__init__(say)
        self.code = code
        self.say = say


class Link:
    """An open port.  Used by one thread; `close` it in every case."""

    def __init__(self, line: Line, url: str, wait_s: float) -> None:
        """Open `url`; reads will wait for at most `wait_s` seconds.

        Raises:
            LinkError: the port is missing, taken by another program, or cannot be used.
        """
        self._url = url
        self._wait_s = wait_s
        try:
            self._port = serial.serial_for_url(
                url,
                do_not_open=True,
                baudrate=line.baud,
                bytesize=line.bits,
                parity=_PARITY[line.parity],
                stopbits=line.stop,
                rtscts=line.flow == "hardware",
                xonxoff=line.flow == "software",
                timeout=wait_s,
                exclusive=True,  # flock: keeps out whoever asks for the same lock
            )
            self._port.dtr = line.dtr
            self._port.rts = line.rts
            self._port.open()
        except _TROUBLE as error:
            raise _refusal(url, error) from error
        try:
            self._device: int | None = self._port.fileno()
        except io.UnsupportedOperation:  # a port that is no file of this machine
            self._device = None
        else:
            self._poll = select.poll()
            self._poll.register(self._device, select.POLLIN)
            with contextlib.suppress(OSError):  # no terminal, but a socket: its own already
                fcntl.ioctl(self._device, termios.TIOCEXCL)

    def read(self) -> bytes:
        """Return the bytes that have come, waiting for the first; none after the longest wait.

        Raises:
            LinkError: the port has gone.
        """
        try:
            if self._device is None:
                return self._port.read(self._port.in_waiting or 1)
            if not self._poll.poll(self._wait_s * 1000.0):
                return b""
            # pyserial's own read would ask once more whether there is anything to read.
            block = os.read(self._device, _BLOCK)
        except BlockingIOError:
            return b""
        except _TROUBLE as error:
            raise self._gone() from error
        if not block:  # how an adapter that was pulled out answers, for ever
            raise self._gone()
        return block

    def close(self) -> None:
        """Give the port back, also to other programs."""
        if self._device is not None:
            with contextlib.suppress(OSError):
                # Else a terminal stays shut for as long as its far end is open.
                fcntl.ioctl(self._device, termios.TIOCNXCL)
        self._port.close()

    def _gone(self) -> LinkError:
        return LinkError("unplugged", f"{self._url} has gone: is the cable plugged in?")


def _refusal(url: str, error: Exception) -> LinkError:
    """Say in plain words why a port was not opened."""
    number = error.errno if isinstance(error, OSError) else None
    if number in _BUSY:
        return LinkError("busy", f"another program has {url} open; close it there.")
    if number in _GONE:
        return LinkError("unplugged", f"{url} is not there: is the cable plugged in?")
    if number in (errno.EACCES, errno.EPERM):
        return LinkError("cannot-open", f"this user may not open {url}: add it to its group.")
    if isinstance(error, termios.error):
        return LinkError("cannot-open", f"{url} does not take this speed, bits or parity: {error}")
    return LinkError("cannot-open", f"{url} cannot be opened: {error}")
