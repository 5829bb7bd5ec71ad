"""Whether an open port is still the one that was opened, set up as it was then."""

import contextlib
import fcntl
import os
import select
import struct
from pathlib import Path
from typing import Final

from daq.gauges.errors import PORT, LinkError
from daq.gauges.identity import EXCHANGED, Identity

_TCGETS2: Final = 0x802C542A
"""Linux, asm-generic/ioctls.h: a terminal's settings, its speeds as numbers."""

_LAYOUT: Final = struct.Struct("@IIIIB19sII")
"""Linux, struct termios2: input, output, control, local, discipline, keys, speed in, out."""

_CONTROL: Final = 2
_SPEED: Final = 7


class Guard:
    """Remembers how a port was opened; `look` is cheap enough to be done for every block."""

    def __init__(self, device: int, path: str, identity: Identity | None = None) -> None:
        """Remember the open port `device` (a descriptor) and where `path` leads.

        `identity` is told when the path leads elsewhere while the port is still there.
        """
        self._device = device
        self._path = Path(path)
        self._identity = identity
        self._node = os.fstat(device).st_rdev
        self._is_link = self._path.is_symlink()
        self._now = bytearray(_LAYOUT.size)
        self._watched = True
        try:
            fcntl.ioctl(device, _TCGETS2, self._now, True)
        except OSError:  # no terminal
            self._watched = False
        self._then = bytes(self._now)

    def look(self) -> None:
        """Compare.

        Raises:
            LinkError: "changed" when another program changed the settings, "mixed-up"
                when the path leads to another device now, "unplugged" when it does so
                because this one was pulled out.
        """
        if self._watched:
            try:
                fcntl.ioctl(self._device, _TCGETS2, self._now, True)
            except OSError:  # it has gone, and the next read will say so
                return
            if self._now != self._then:
                raise LinkError("changed", self._changed(), str(self._path))
        if self._is_link:
            # A link that is gone for the moment says nothing about the port that is open.
            with contextlib.suppress(OSError):
                if self._path.stat().st_rdev != self._node:
                    self._elsewhere()

    def _elsewhere(self) -> None:
        poll = select.poll()
        poll.register(self._device, 0)
        if poll.poll(0):  # hung up: pulled out, and back already
            say = f"{PORT} has gone: is the cable plugged in?"
            raise LinkError("unplugged", say, str(self._path))
        if self._identity is not None:
            self._identity.exchange(self._node)
        raise LinkError("mixed-up", EXCHANGED, str(self._path))

    def _changed(self) -> str:
        then, now = _LAYOUT.unpack(self._then), _LAYOUT.unpack(self._now)
        if then[_SPEED] != now[_SPEED]:
            what = f"the speed of {PORT} from {then[_SPEED]} to {now[_SPEED]} baud"
        elif then[_CONTROL] != now[_CONTROL]:
            what = f"the bits, parity or stop bits of {PORT}"
        else:
            what = f"how {PORT} is read"
        return f"another program changed {what}; close that program."
