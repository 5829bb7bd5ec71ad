"""Whether another program reads an open port, or writes to it: bytes it took are gone for good.

The kernel tells of every read and write of a device file that moved a byte (inotify(7)), whoever
did it, and however long ago it opened the port. A lock keeps out only those who ask for it, and
exclusive use only those who come later and are not root.
"""

import contextlib
import ctypes
import os
import select
from typing import Final

_READ, _WRITTEN = 0x1, 0x2
"""Linux, linux/inotify.h: IN_ACCESS, IN_MODIFY."""

_BLOCK: Final = 4096


class Others:
    """Watches one open port, for the thread that uses it."""

    def __init__(self, device: int) -> None:
        """Watch the file behind the descriptor `device`; where that cannot be, nobody is seen."""
        libc = ctypes.CDLL(None, use_errno=True)
        self._watch: int = libc.inotify_init1(os.O_NONBLOCK | os.O_CLOEXEC)
        path = f"/proc/self/fd/{device}".encode()
        if self._watch >= 0 and libc.inotify_add_watch(self._watch, path, _READ | _WRITTEN) < 0:
            self.close()

    def wake(self, poll: select.poll) -> None:
        """Have `poll` return when somebody used the port, too."""
        if self._watch >= 0:
            poll.register(self._watch, select.POLLIN)

    def used(self) -> bool:
        """Whether the port was used since this was asked last; after a use of one's own, by it."""
        if self._watch < 0:
            return False
        with contextlib.suppress(OSError):
            return bool(os.read(self._watch, _BLOCK))
        return False

    def close(self) -> None:
        """Watch no more."""
        if self._watch >= 0:
            os.close(self._watch)
            self._watch = -1
