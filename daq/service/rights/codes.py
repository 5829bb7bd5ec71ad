"""The code that pairs a screen: one at a time, for two minutes and five tries."""

import hmac
import math
import secrets
import threading
from collections.abc import Callable
from dataclasses import dataclass

from daq.service.rights.limits import Buckets

LASTS_S = 120
TRIES = 5
DIGITS = 8

MADE_AT_ONCE, MADE_EVERY_S = 10, 60.0
"""Codes without one that paired a screen; then one a minute, whoever asks: five tries in a hundred
million a minute. Counted by address alone, who has many would try as often as they like."""


def _draw() -> str:
    return f"{secrets.randbelow(10**DIGITS):0{DIGITS}d}"


@dataclass(frozen=True)
class ShownCode:
    """A code as the own wall shows it, and for how many seconds more."""

    code: str
    seconds: int


class PairingCode:
    """The one code there is, if there is any. Any thread may ask."""

    def __init__(self, mono_ns: Callable[[], int], draw: Callable[[], str] = _draw) -> None:
        """There is none before somebody asks for one."""
        self._mono_ns = mono_ns
        self._draw = draw
        self._code = ""
        self._until_s = 0.0
        self._tries = 0
        self._makings = self._all_makings()
        self._lock = threading.Lock()

    def make(self) -> int:
        """See to it that there is one; one that still counts stays as it is.

        0, or in how many seconds there may be one: too many came to nothing.
        """
        with self._lock:
            if self._left_s() > 0:
                return 0
            wait_s = self._makings.take("")
            if not wait_s:
                self._code, self._tries = self._draw(), TRIES
                self._until_s = self._mono_ns() / 1e9 + LASTS_S
            return wait_s

    def shown(self) -> ShownCode | None:
        """What the own wall shows."""
        with self._lock:
            left_s = self._left_s()
            return ShownCode(self._code, math.ceil(left_s)) if left_s > 0 else None

    def spend(self, typed: str) -> bool:
        """Whether that is the code; it pairs once, and a wrong one is a try gone."""
        digits = "".join(each for each in typed if each in "0123456789")
        with self._lock:
            if self._left_s() <= 0:
                return False
            self._tries -= 1
            right = hmac.compare_digest(digits, self._code)
            if right:
                self._tries, self._makings = 0, self._all_makings()
            return right

    def _all_makings(self) -> Buckets:
        return Buckets(MADE_AT_ONCE, MADE_EVERY_S, self._mono_ns)

    def _left_s(self) -> float:
        return self._until_s - self._mono_ns() / 1e9 if self._tries > 0 else 0.0
