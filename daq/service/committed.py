"""What a commit brought, and those who are told of it: after the commit, each like the others."""

import logging
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from threading import Thread
from types import MappingProxyType
from typing import Final

from daq.audit.state import Shop
from daq.service.turns import Turns
from daq.words import Event

TURNS, TURN_S = 20, 0.1
"""So long a subscriber may hold up the answer to a press, once. Counted in short waits: a
process that was itself stopped for a while finds the subscriber as far as it was before."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Committed:
    """The events of one commit as read back, the state before and after, and the chain's head."""

    events: tuple[Event, ...]
    before: Shop
    after: Shop
    head: str

    @property
    def machines(self) -> frozenset[str]:
        """The machines it touched."""
        return frozenset(event.machine for event in self.events)


Subscriber = Callable[[Committed], None]

Followers = Mapping[str, Subscriber]
"""By name, each of those who are told of every commit."""
NOBODY: Final[Followers] = MappingProxyType({})


class Publisher:
    """Tells every subscriber of each commit and waits for them, but for none too long.

    Each has a thread of its own, so that it can be left behind. One that fails or is too slow
    is told no more: it may hold up one press, and not the next.
    """

    def __init__(self, subscribers: Followers, when_lost: Callable[[str], None]) -> None:
        """`when_lost` is called with the name of a subscriber that is told no more."""
        self._followers = {name: _Follower(name, tell) for name, tell in subscribers.items()}
        self._when_lost = when_lost
        self.turns = {f"told-{name}": each.turns for name, each in self._followers.items()}
        """Each one's thread; of one that is told no more it stands still."""

    def publish(self, what: Committed) -> None:
        """Return once all have done with it, or had their time."""
        for follower in self._followers.values():
            follower.tell(what)
        left = TURNS
        for name, follower in list(self._followers.items()):
            # Whoever comes after one that hangs has a turn all the same.
            while (done := follower.done(TURN_S)) is None and left > 0:
                left -= 1
            if not done:
                _log.error("%s follows the ledger no more: it failed or was too slow", name)
                self._followers.pop(name).end()
                self._when_lost(name)

    def close(self) -> None:
        """Nobody is told any more."""
        while self._followers:
            self._followers.popitem()[1].end()


class _Follower:
    """A subscriber and its thread."""

    def __init__(self, name: str, tell: Subscriber) -> None:
        self._name = name
        self._told: SimpleQueue[Committed | None] = SimpleQueue()
        self._done: SimpleQueue[bool] = SimpleQueue()
        self.turns = Turns()
        Thread(target=self._work, args=(tell,), name=f"told-{name}", daemon=True).start()

    def tell(self, what: Committed) -> None:
        self._told.put(what)

    def done(self, within_s: float) -> bool | None:
        """Whether it has done with what it was told, or failed; None while it is at it."""
        try:
            return self._done.get(timeout=within_s)
        except Empty:
            return None

    def end(self) -> None:
        """It ends once it has done with what it is at."""
        self._told.put(None)

    def _work(self, tell: Subscriber) -> None:
        while (what := self.turns.next(self._told)) is not None:
            well = False
            try:
                tell(what)
                well = True
            except Exception:
                _log.exception("%s failed at row %d", self._name, what.events[-1].seq)
            finally:
                self._done.put(well)
