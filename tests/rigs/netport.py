"""A serial port on the network: the gauge's cable ends in a server on this machine."""

import contextlib
import select
import socket
import threading
import time
from collections.abc import Callable
from typing import Final

from daq.virtual.model import always
from daq.virtual.uart import LineEnd
from tests.rigs.comport import ComPort, doubled

_HERE: Final = "127.0.0.1"
_BLOCK: Final = 4096


class NetPort:
    """The gauge's end of such a port, for one reader at a time. Safe from several threads."""

    def __init__(self) -> None:
        """Nothing is opened before `plug`."""
        self._lock = threading.RLock()
        self._number = 0
        self._server: socket.socket | None = None
        self._reader: socket.socket | None = None
        self._com = ComPort()
        self._came = b""

    @property
    def url(self) -> str:
        """The port's URL, the same after the cable was out. Raises ValueError before `plug`."""
        if not self._number:
            raise ValueError("url: found a port that was never plugged in; allowed: after plug()")
        return f"rfc2217://{_HERE}:{self._number}"

    @property
    def plugged(self) -> bool:
        """Whether readers can connect."""
        return self._server is not None

    def plug(self) -> None:
        """Let readers connect; nothing happens when they can already."""
        with self._lock:
            if self._server is None:
                self._server = socket.create_server((_HERE, self._number))
                self._server.setblocking(False)
                self._number = self._server.getsockname()[1]

    def unplug(self) -> None:
        """Break the connection, and take no other."""
        with self._lock:
            self._drop()
            if self._server is not None:
                self._server.close()
                self._server = None

    def send(self, frame: bytes, still: Callable[[], bool] = always) -> bool:
        """Send `frame` if that is `still` right; return False when nobody took it in time."""
        with self._lock:
            self._pump()
            return self._reader is not None and still() and self._write(doubled(frame))

    def receive(self, wait_s: float) -> bytes:
        """Return what the reader has sent, waiting for the first of it; b"" when nothing came."""
        due = time.monotonic() + wait_s
        while not self._came and (left := due - time.monotonic()) > 0.0:
            with self._lock:
                ends = [end for end in (self._reader, self._server) if end is not None]
            with contextlib.suppress(OSError, ValueError):  # closed in the meantime
                select.select(ends, [], [], left)
            self.tend()
        with self._lock:
            came, self._came = self._came, b""
        return came

    def heard(self, own: LineEnd) -> LineEnd:
        """Return the settings the reader has asked for; those not asked for, as in `own`."""
        with self._lock:
            return self._com.heard(own)

    def tend(self) -> None:
        """Let a reader in, and answer what it asks of the port."""
        with self._lock:
            self._pump()

    def _pump(self) -> None:
        if self._server is None:
            return
        with contextlib.suppress(BlockingIOError):
            if self._reader is None:
                self._reader, _ = self._server.accept()
                self._reader.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
                self._reader.setblocking(False)
                self._com = ComPort()
        with contextlib.suppress(BlockingIOError):
            while self._reader is not None:
                try:
                    block = self._reader.recv(_BLOCK)
                except ConnectionError:
                    block = b""
                if not block:
                    self._drop()
                    return
                fed = self._com.feed(block)
                self._came += fed.data
                self._write(fed.answer)

    def _write(self, data: bytes) -> bool:
        try:
            if self._reader is not None and data:
                self._reader.sendall(data)
        except OSError:  # gone, or reads nothing: half a frame would spoil the next
            self._drop()
            return False
        return True

    def _drop(self) -> None:
        if self._reader is not None:
            self._reader.close()
            self._reader = None
        self._com, self._came = ComPort(), b""
