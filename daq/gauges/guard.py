"""Whether an open port is still the one that was opened, set up as it was then."""

import contextlib
import fcntl
import os
import select
import struct
from pathlib import Path
from typing import Final

from daq.gauges.errors import LinkError
from daq.gauges.identity import Identity, exchanged
from daq.words import Said, said

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
                raise LinkError("changed", self._changed())
        if self._is_link:
            # A link that is gone for the moment says nothing about the port that is open.
            with contextlib.suppress(OSError):
                if self._path.stat().st_rdev != self._node:
                    self._elsewhere()

    def _elsewhere(self) -> None:
        poll = select.poll()
        poll.register(self._device, 0)
        if poll.poll(0):  # hung up: pulled out, and back already
            raise LinkError("unplugged", said("port-gone", it=str(self._path)))
        if self._identity is not None:
            self._identity.exchange(self._node)
        raise exchanged(str(self._path))

    def _changed(self) -> Said:
        port = str(self._path)
        then, now = _LAYOUT.unpack(self._then), _LAYOUT.unpack(self._now)
        if then[_SPEED] != now[_SPEED]:
            return said("port-speed-changed", port=port, was=then[_SPEED], now=now[_SPEED])
        if then[_CONTROL] != now[_CONTROL]:
            return said("port-framing-changed", port=port)
        return said("port-reading-changed", port=port)
