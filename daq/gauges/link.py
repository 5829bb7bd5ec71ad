"""One opening of a port: exclusive, set up as the gauge's file says, read in blocks."""

import contextlib
import errno
import fcntl
import io
import os
import select
import socket
import termios
from collections.abc import Callable
from pathlib import Path
from typing import Final

import serial

from daq.gauges import ports
from daq.gauges.config import SerialLine
from daq.gauges.errors import LinkError
from daq.gauges.guard import Guard
from daq.gauges.identity import Identity
from daq.gauges.others import Others
from daq.gauges.refusals import gone, refusal
from daq.words import said

_BLOCK: Final = 4096
_KEEP_ALIVE: Final = (
    (socket.SOL_SOCKET, socket.SO_KEEPALIVE, 1),
    (socket.IPPROTO_TCP, socket.TCP_KEEPIDLE, 5),
    (socket.IPPROTO_TCP, socket.TCP_KEEPINTVL, 2),
    (socket.IPPROTO_TCP, socket.TCP_KEEPCNT, 3),
)
"""A serial server that lost its power says nothing: it is noticed after 11 s."""

_PARITY: Final = {
    "none": serial.PARITY_NONE,
    "even": serial.PARITY_EVEN,
    "odd": serial.PARITY_ODD,
    "mark": serial.PARITY_MARK,
    "space": serial.PARITY_SPACE,
}
_INPUT: Final = 0
_TOLD_MS: Final = 200
_HUNG_UP: Final = select.POLLHUP | select.POLLERR | select.POLLNVAL
_TROUBLE: Final = (OSError, ValueError, termios.error)
"""What pyserial lets through besides its own errors, which are OSErrors."""

if ports.__name__ not in serial.protocol_handler_packages:
    serial.protocol_handler_packages.insert(0, ports.__name__)


class Link:
    """An open port.  Used by one thread; `close` it in every case."""

    def __init__(
        self, line: SerialLine, url: str, wait_s: float, identity: Identity | None = None
    ) -> None:
        """Open `url`, but only if `identity` finds the adapter it was before.

        A read from a port that is no file of this machine waits for `wait_s` seconds.

        Raises:
            LinkError: the port is missing, taken by another program, cannot be used, or
                is not the one it was.
        """
        self._url = url
        self._others: Others | None = None
        self.look: Callable[[], None] = lambda: None
        """Make sure that what was read is this port's, set up as it was: see `Guard.look`."""
        node = None
        try:
            if identity is not None:  # before a wrong one is touched
                node = _node(url, identity)
                identity.verify(node)
            self._port = _opened(line, url, wait_s)
        except _TROUBLE as error:
            raise refusal(url, error) from error
        try:
            self._device: int | None = self._port.fileno()
        except io.UnsupportedOperation:  # a port that is no file of this machine
            self._device = None
        else:
            try:
                self._take(self._device, node, identity)
            except _TROUBLE as error:
                self.close()
                raise refusal(url, error) from error

    def _take(self, device: int, node: int | None, identity: Identity | None) -> None:
        """Make sure of the open file, and keep others from it."""
        if node not in (None, os.fstat(device).st_rdev):  # exchanged in this very moment
            raise OSError(errno.ENODEV, "another device")
        self._poll = select.poll()
        self._poll.register(device, select.POLLIN)
        self._terminal = os.isatty(device)
        if self._terminal:
            self._others = Others(device)
            self._others.wake(self._poll)
            fcntl.ioctl(device, termios.TIOCEXCL)
            # A byte with a wrong parity or stop bit is read as 0, which is in no frame of
            # text, instead of as if nothing were wrong with it.
            settings = termios.tcgetattr(device)
            settings[_INPUT] |= termios.INPCK
            termios.tcsetattr(device, termios.TCSANOW, settings)
        else:
            _keep_alive(device)
        self.look = Guard(device, self._url, identity).look

    def read(self, wait_s: float) -> bytes:
        """Return the bytes that have come, waiting for the first; none after `wait_s` seconds.

        Raises:
            LinkError: the port has gone, or another program uses it ("shared").
        """
        try:
            if self._device is None:
                return self._port.read(self._port.in_waiting or 1)
            ready = self._poll.poll(wait_s * 1000.0)
            self._alone()
            if not ready:
                return b""
            # pyserial's own read would ask once more whether there is anything to read.
            block = os.read(self._device, _BLOCK)
            self._used()
        except BlockingIOError:
            self._alone()  # what there was to read somebody else has taken
            return b""
        except _TROUBLE as error:
            raise gone(self._url) from error
        if not block:  # how an adapter that was pulled out answers, for ever
            self._alone()  # and a port whose bytes somebody else has taken since
            if self._others is not None and not any(event & _HUNG_UP for _, event in ready):
                self._poll.poll(_TOLD_MS)  # of that the kernel may tell a moment later
                self._alone()
            raise gone(self._url)
        return block

    def write(self, data: bytes) -> None:
        """Send `data`, in place of what could not yet be sent of any earlier.

        Raises:
            LinkError: the port has gone, or another program uses it ("shared").
        """
        try:
            if self._device is None:
                self._port.write(data)
                return
            self._alone()
            if self._terminal:
                termios.tcflush(self._device, termios.TCOFLUSH)
            os.write(self._device, data)
            self._used()
        except BlockingIOError:  # held up by flow control: it stays without an answer
            return
        except _TROUBLE as error:
            raise gone(self._url) from error

    def close(self) -> None:
        """Give the port back, also to other programs."""
        if self._device is not None:
            with contextlib.suppress(OSError):
                # Else a terminal stays shut for as long as its far end is open.
                fcntl.ioctl(self._device, termios.TIOCNXCL)
        if self._others is not None:
            self._others.close()
        self._port.close()

    def _alone(self) -> None:
        if self._others is not None and self._others.used():
            raise LinkError("shared", said("port-shared", port=self._url))

    def _used(self) -> None:
        """That was this program itself."""
        if self._others is not None:
            self._others.used()


def _node(path: str, identity: Identity) -> int:
    """Return the number of the device behind a path; `identity` is told when there is none."""
    try:
        return Path(path).stat().st_rdev
    except OSError:
        identity.absent()
        raise


def _opened(line: SerialLine, url: str, wait_s: float) -> serial.Serial:
    port = serial.serial_for_url(
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
    port.dtr = line.dtr
    port.rts = line.rts
    port.open()
    return port


def _keep_alive(device: int) -> None:
    """Let a connection's end be noticed although nothing is sent."""
    with contextlib.suppress(OSError), socket.socket(fileno=os.dup(device)) as own:
        for level, option, value in _KEEP_ALIVE:
            own.setsockopt(level, option, value)
