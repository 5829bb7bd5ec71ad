"""A serial port that is not there: a pseudo-terminal with a steady name.

The reader opens the link like any port. The gauge is never held up: a frame
that nobody can take is dropped, and frames sent while nobody has the port open
are not kept, so that whoever opens it late gets the present and not the past.

What a pseudo-terminal keeps of a reader's settings (seen on Linux): the speed and the
number of stop bits. It always answers 8 data bits and no parity, whatever was asked.
And it refuses a request that would change nothing but these with EINVAL: so a
reader that opens it twice in the same way for 7 bits would be refused the second time.
Once a reader has gone the port therefore forgets CLOCAL, which means nothing here and
which readers of serial ports ask for: then there is something to change.
"""

import contextlib
import fcntl
import os
import re
import select
import termios
import threading
import time
import tty
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Final

from daq.virtual.model import always
from daq.virtual.store import replace_link
from daq.virtual.uart import LineEnd

_SPEEDS: Final = {
    getattr(termios, name): int(name[1:]) for name in dir(termios) if re.fullmatch(r"B\d+", name)
}
_UNSET: Final = termios.B134
_CFLAG, _ISPEED, _OSPEED = 2, 4, 5
_BLOCK: Final = 4096
_NO: Final = bytes(4)


class PtyLine:
    """The gauge's end of the cable. Safe to use from several threads."""

    def __init__(self, link: Path) -> None:
        """Remember where the link goes; nothing is opened before `plug`."""
        self.link = link
        self._lock = threading.RLock()
        self._master = -1
        self._name = ""
        self._tail = b""
        self._watched = False

    @property
    def plugged(self) -> bool:
        """Whether the cable is in."""
        return self._master >= 0

    def plug(self) -> None:
        """Create the port and its link; nothing happens when it is there already.

        Raises FileExistsError when something else than a link has its name.
        """
        with self._lock:
            if self._master >= 0:
                return
            master, slave = os.openpty()
            try:
                _unset(slave)
                os.set_blocking(master, False)
                replace_link(self.link, os.ttyname(slave))
            except BaseException:
                os.close(master)
                raise
            else:
                self._master, self._name, self._tail = master, os.ttyname(slave), b""
                self._watched = True
            finally:
                # Held open, the port would look attended and collect stale frames.
                os.close(slave)

    def unplug(self) -> None:
        """Pull the cable: the link goes first, then whoever reads is hung up on."""
        with self._lock:
            if self._master < 0:
                return
            with contextlib.suppress(OSError):
                if str(self.link.readlink()) == self._name:
                    self.link.unlink()
            os.close(self._master)
            self._master = -1

    def send(self, frame: bytes, still: Callable[[], bool] = always) -> bool:
        """Send `frame`; return False when it was dropped. Never blocks.

        `still` is asked last of all: a reader may have come and set the port meanwhile.
        """
        with self._lock:
            if self._master < 0:
                return False
            if not self._attended():
                self._forget()
                return False
            self._watched = True
            return still() and self._write(frame)

    def receive(self, wait_s: float) -> bytes:
        """Return what the reader has sent, waiting for the first of it; b"" when nothing came."""
        with self._lock:
            # A copy of the descriptor, so that the cable can be pulled meanwhile.
            own = -1 if self._master < 0 else os.dup(self._master)
        if own < 0:
            time.sleep(wait_s)
            return b""
        try:
            poll = select.poll()
            poll.register(own, select.POLLIN)
            events = poll.poll(1000.0 * wait_s)
            if events and not events[0][1] & select.POLLIN:  # hung up: nobody is there
                time.sleep(wait_s)
                return b""
            return os.read(own, _BLOCK) if events else b""
        except OSError:
            return b""
        finally:
            os.close(own)

    def heard(self, own: LineEnd) -> LineEnd:
        """Return the reader's speed and stop bits, as long as it has set them; else as in `own`.

        Data bits and parity are always as in `own`: a pseudo-terminal does not keep them.
        """
        with self._lock:
            if self._master < 0:
                return own
            found = termios.tcgetattr(self._master)
        if found[_OSPEED] == _UNSET or found[_OSPEED] not in _SPEEDS:
            return own
        two = bool(found[_CFLAG] & termios.CSTOPB)
        return replace(own, baud=_SPEEDS[found[_OSPEED]], stop=2 if two else 1)

    def tend(self) -> None:
        """Notice when a reader has come or gone."""
        with self._lock:
            if self._master < 0:
                return
            if self._attended():
                self._watched = True
            else:
                self._forget()

    def _attended(self) -> bool:
        """Return whether anyone has the port open: else the master's end reports a hang-up."""
        poll = select.poll()
        poll.register(self._master, 0)
        return not any(event & select.POLLHUP for _, event in poll.poll(0))

    def _forget(self) -> None:
        """Empty what the last reader left behind, once."""
        if not self._watched:
            return
        self._watched, self._tail = False, b""
        with contextlib.suppress(OSError, termios.error):
            slave = os.open(self._name, os.O_RDWR | os.O_NOCTTY | os.O_NONBLOCK)
            try:
                termios.tcflush(slave, termios.TCIFLUSH)
            finally:
                os.close(slave)
            # Of all settings only this one can be changed without touching the others,
            # which a reader that has just come may be about to set.
            fcntl.ioctl(self._master, termios.TIOCSSOFTCAR, _NO)

    def _write(self, frame: bytes) -> bool:
        # A frame that fitted only in part is finished first, or the next would grow onto it.
        whole = self._tail + frame
        try:
            done = os.write(self._master, whole)
        except BlockingIOError:
            return False
        begun = done > len(self._tail)
        self._tail = whole[done:] if begun else self._tail[done:]
        return begun


def _unset(slave: int) -> None:
    """Make the port raw, at no reader's speed: that of a port nobody has set yet."""
    tty.setraw(slave, termios.TCSANOW)
    found = termios.tcgetattr(slave)
    found[_ISPEED] = found[_OSPEED] = _UNSET
    termios.tcsetattr(slave, termios.TCSANOW, found)
