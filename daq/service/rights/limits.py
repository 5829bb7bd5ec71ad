"""How often somebody may ask, and how often somebody may be wrong."""

import math
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

MOST_CLIENTS = 1024
"""So many are remembered; then whoever was heard longest ago is forgotten."""

FREE_TRIES, FREE_IN_ALL = 5, 25
"""Before so many wrong tries in a row nobody is locked out: on one screen, and on all of them."""

FIRST_S, LONGEST_S = 60.0, 3600.0
"""How long the next one locks out, and the longest that doubling it comes to."""

FORGOTTEN_S = 24 * 3600.0
"""So long after the last wrong try nothing of them is left."""

_NOBODY: Final[Mapping[str, int]] = MappingProxyType({})


class Buckets:
    """A handful of tries for each client, of which one comes back every so many seconds."""

    def __init__(self, most: int, every_s: float, mono_ns: Callable[[], int]) -> None:
        """`most` in one go; then one in `every_s`."""
        self._most = most
        self._every_s = every_s
        self._mono_ns = mono_ns
        self._left: dict[str, tuple[float, float]] = {}
        self._lock = threading.Lock()

    def take(self, client: str) -> int:
        """Use one up: 0, or after how many seconds there is one again."""
        now_s = self._mono_ns() / 1e9
        with self._lock:
            left, at_s = self._left.pop(client, (float(self._most), now_s))
            left = min(self._most, left + (now_s - at_s) / self._every_s)
            there = left >= 1
            self._left[client] = (left - 1 if there else left), now_s
            if len(self._left) > MOST_CLIENTS:
                del self._left[next(iter(self._left))]
        return 0 if there else math.ceil((1 - left) * self._every_s)


@dataclass(frozen=True)
class _Wrong:
    count: int
    at_s: float
    until_s: float


class Lockout:
    """Locks out for longer and longer whoever is wrong again and again, and heals by itself."""

    def __init__(
        self,
        mono_ns: Callable[[], int],
        free: int = FREE_TRIES,
        kept: Mapping[str, int] = _NOBODY,
    ) -> None:
        """The wrong try that makes it `free` locks out.

        `kept`: who was locked out before a restart, and by how many wrong tries: they are anew,
        since nobody knows how long that was.
        """
        self._mono_ns = mono_ns
        self._free = free
        self._lock = threading.Lock()
        self._wrong = {who: self._after(count) for who, count in kept.items()}

    def left_s(self, who: str) -> int:
        """For how many seconds nothing of theirs is even looked at; 0 for none."""
        now_s = self._mono_ns() / 1e9
        with self._lock:
            found = self._wrong.get(who)
            return 0 if found is None else max(0, math.ceil(found.until_s - now_s))

    def wrong(self, who: str) -> int:
        """They were wrong once more: how often, once that locks them out; 0 before."""
        now_s = self._mono_ns() / 1e9
        with self._lock:
            before = self._wrong.get(who)
            fresh = before is None or now_s - before.at_s >= FORGOTTEN_S
            count = 1 if fresh or before is None else before.count + 1
            self._wrong[who] = self._after(count)
        return count if count >= self._free else 0

    def _after(self, count: int) -> _Wrong:
        now_s, over = self._mono_ns() / 1e9, count - self._free
        lasts_s = min(LONGEST_S, FIRST_S * 2.0 ** min(over, 30)) if over >= 0 else 0.0
        return _Wrong(count, now_s, now_s + lasts_s)

    def right(self, who: str) -> None:
        """They were right: all is well again."""
        with self._lock:
            self._wrong.pop(who, None)
