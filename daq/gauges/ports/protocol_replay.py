"""replay://PATH?rate=960&pause=1&loop=yes: a port that plays a capture file.

`rate` is in bytes a second, `pause` in seconds and takes the place of each silence in
the file; a played port with `loop=yes` begins again after such a silence, any other one
is silent from then on. It has no far end: what is written to it is lost.
"""

import contextlib
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.parse import parse_qsl, unquote, urlsplit

from serial import SerialException
from serial.serialutil import PortNotOpenError, SerialBase

from daq.gauges import capture

if TYPE_CHECKING:
    from _typeshed import ReadableBuffer

_OPTIONS: Final = {"rate": 960.0, "pause": 1.0}
_FASTEST: Final = 1e9
_ALLOWED: Final = 'allowed: replay://PATH?rate=960&pause=1&loop=yes, "loop" being yes or no'

Timed = tuple[float, int]
"""A byte and when it comes, in seconds from the opening."""


class Serial(SerialBase):
    """A port that plays a capture.  The line's settings are taken, and mean nothing."""

    def open(self) -> None:
        """Read the file and begin to play it.

        Raises:
            SerialException: no such file, no capture, or options that mean nothing.
        """
        path, options, loop = _parts(str(self.port))
        try:
            found = capture.parse(path.read_text(encoding="utf-8"), str(path))
        except (OSError, ValueError) as error:
            raise SerialException(getattr(error, "errno", None), str(error)) from error
        self._coming = _played(found.pieces, options["rate"], options["pause"], loop)
        self._next = next(self._coming, None)
        self._came = bytearray()
        self._closed = threading.Event()
        self._began = time.monotonic()
        self.is_open = True

    def close(self) -> None:
        """Stop playing; whoever reads comes back at once."""
        if self.is_open:
            self.is_open = False
            self._closed.set()

    @property
    def in_waiting(self) -> int:
        """How many bytes have come."""
        if not self.is_open:
            raise PortNotOpenError
        elapsed = time.monotonic() - self._began
        while self._next is not None and self._next[0] <= elapsed:
            self._came.append(self._next[1])
            self._next = next(self._coming, None)
        return len(self._came)

    def read(self, size: int = 1) -> bytes:
        """Return up to `size` bytes, waiting for all of them for as long as `timeout`."""
        end = None if self.timeout is None else time.monotonic() + self.timeout
        while self.in_waiting < size:
            now = time.monotonic()
            if end is not None and now >= end:
                break
            moments = [end, None if self._next is None else self._began + self._next[0]]
            waits = [moment - now for moment in moments if moment is not None]
            if self._closed.wait(max(0.0, min(waits)) if waits else None):
                break
        taken = bytes(self._came[:size])
        del self._came[:size]
        return taken

    def write(self, data: "ReadableBuffer", /) -> int:
        """Take bytes that nobody hears."""
        if not self.is_open:
            raise PortNotOpenError
        return memoryview(data).nbytes

    def _reconfigure_port(self, force_update: bool = False) -> None:
        """Take settings that mean nothing here."""

    _update_dtr_state = _update_rts_state = _reconfigure_port


def _parts(url: str) -> tuple[Path, dict[str, float], bool]:
    """Return a URL's path, its numbers, and whether it is played over and over."""
    parts = urlsplit(url)
    options, loop = dict(_OPTIONS), False
    for key, value in parse_qsl(parts.query, keep_blank_values=True):
        if key == "loop" and value in ("yes", "no"):
            loop = value == "yes"
            continue
        number = 0.0
        with contextlib.suppress(ValueError):
            number = float(value)
        if key not in options or not 0.0 < number <= _FASTEST:
            raise SerialException(f"found {key}={value}; {_ALLOWED}")
        options[key] = number
    return Path(unquote(parts.netloc + parts.path)), options, loop


def _played(pieces: tuple[bytes, ...], rate: float, pause_s: float, loop: bool) -> Iterator[Timed]:
    """Yield each byte with its moment, each piece a silence after the one before."""
    at = 0.0
    while any(pieces):
        for piece in pieces:
            for byte in piece:
                at += 1.0 / rate
                yield at, byte
            at += pause_s
        if not loop:
            return
