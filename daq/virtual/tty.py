"""A serial port that is not there: a pseudo-terminal with a steady name.

The reader opens the link like any port. The mill is never held up: a frame
that nobody can take is dropped, and frames sent while nobody has the port open
are not kept, so that whoever opens it late gets the present and not the past.
"""

import contextlib
import os
import select
import termios
import threading
import tty
from pathlib import Path

from daq.virtual.store import replace_link


class PtyLine:
    """The gauge's end of the cable. Safe to use from several threads."""

    def __init__(self, link: Path) -> None:
        """Remember where the link goes; nothing is opened before `plug`."""
        self.link = link
        self._lock = threading.Lock()
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
                tty.setraw(slave)
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

    def send(self, frame: bytes) -> bool:
        """Send `frame`; return False when it was dropped. Never blocks."""
        with self._lock:
            if self._master < 0:
                return False
            if not self._attended():
                self._forget()
                return False
            self._watched = True
            return self._write(frame)

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
        with contextlib.suppress(OSError):
            slave = os.open(self._name, os.O_RDWR | os.O_NOCTTY | os.O_NONBLOCK)
            try:
                termios.tcflush(slave, termios.TCIFLUSH)
            finally:
                os.close(slave)

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
