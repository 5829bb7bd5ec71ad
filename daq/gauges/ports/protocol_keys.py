"""keys:///dev/input/by-id/…-event-kbd: a data cable that types the number as a keyboard does.

It is held for this program alone: what it types ends in no page and no terminal. Each key is
the character of a keyboard for the United States, Enter closes a line with carriage return and
line feed. What no such key is comes as a byte 0, which spoils the frame it stands in: so does
a key that the kernel had to drop.
"""

import contextlib
import select
from typing import Final
from urllib.parse import unquote, urlsplit

from daq.gauges.ports.incoming import Incoming, library

_SYN, _KEY = 0, 1
_DROPPED: Final = 3
"""Linux, linux/input-event-codes.h: EV_SYN, EV_KEY, SYN_DROPPED."""

_ROWS: Final = (
    (2, "1234567890-=", "!@#$%^&*()_+"),
    (15, "\tqwertyuiop[]", "\tQWERTYUIOP{}"),
    (30, "asdfghjkl;'`", 'ASDFGHJKL:"~'),
    (43, "\\zxcvbnm,./", "|ZXCVBNM<>?"),
    (55, "*", "*"),
    (57, " ", " "),
    (71, "789-456+1230.", "789-456+1230."),
    (98, "/", "/"),
    (117, "=", "="),
    (121, ",", ","),
)
"""The first code of each row of keys (there too), and its characters without and with shift."""

_PLAIN: Final = {first + nth: key for first, row, _ in _ROWS for nth, key in enumerate(row)}
_SHIFTED: Final = {first + nth: key for first, _, row in _ROWS for nth, key in enumerate(row)}
_ENTERS: Final = (28, 96)
_SHIFTS: Final = (42, 54)
_OTHERS: Final = (29, 56, 97, 100, 125, 126)
"""Control, Alt and the like: a key with one of them is no character."""

_LOCKS: Final = (58, 69, 70)
_SPOILT: Final = "\0"
_UP, _DOWN = 0, 1


class Keys(Incoming):
    """A port that hears one keyboard, and keeps it from everybody else."""

    def start(self, url: str) -> None:
        """Open the device and take it for this program alone.

        Raises:
            NotInstalledError: evdev is missing.
            OSError: no such device, or another program has taken it.
        """
        evdev = library("evdev", "python3-evdev")
        self._held: set[int] = set()
        self._device = evdev.InputDevice(unquote(urlsplit(url).path))
        try:
            self._device.grab()
        except OSError:
            self._device.close()
            raise

    def close(self) -> None:
        """Give the device back to all."""
        if self.is_open:
            self.is_open = False
            with contextlib.suppress(OSError):  # it has gone
                self._device.ungrab()
            with contextlib.suppress(OSError):
                self._device.close()

    def brought(self, wait_s: float) -> bytes:
        """Return the characters typed since the last time."""
        select.select([self._device.fd], [], [], wait_s)
        try:
            events = list(self._device.read())
        except BlockingIOError:
            return b""
        return "".join(self._typed(e.type, e.code, e.value) for e in events).encode()

    def _typed(self, kind: int, code: int, value: int) -> str:
        """What an event adds to the line."""
        if kind == _SYN and code == _DROPPED:
            self._held.clear()
            return _SPOILT
        if kind != _KEY or value not in (_UP, _DOWN):  # a key held down is no other
            return ""
        if code in (*_SHIFTS, *_OTHERS):
            (self._held.add if value == _DOWN else self._held.discard)(code)
        if value == _UP or code in (*_SHIFTS, *_OTHERS, *_LOCKS):
            return ""
        if not self._held.isdisjoint(_OTHERS):
            return _SPOILT
        if code in _ENTERS:
            return "\r\n"
        keys = _PLAIN if self._held.isdisjoint(_SHIFTS) else _SHIFTED
        return keys.get(code, _SPOILT)


Serial = Keys
"""As pyserial looks for it."""
