"""What a commit brought, and those who are told of it: after the commit, each like the others."""

import logging
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from threading import Event as Signal
from threading import Thread

from daq.audit.state import Shop
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


class Publisher:
    """Tells every subscriber of each commit and waits for them, but for none too long.

    One that fails or is too slow is told no more: it may hold up one press, and not the next.
    """

    def __init__(
        self, subscribers: Mapping[str, Subscriber], when_lost: Callable[[str], None]
    ) -> None:
        """`when_lost` is called with the name of a subscriber that is told no more."""
        self._subscribers = dict(subscribers)
        self._when_lost = when_lost

    def publish(self, what: Committed) -> None:
        """Return once all have done with it, or had their time."""
        telling = [(name, *_told(name, tell, what)) for name, tell in self._subscribers.items()]
        left = TURNS
        for name, thread, done in telling:
            while thread.is_alive() and left > 0:
                thread.join(TURN_S)
                left -= 1
            if not done.is_set():
                _log.error("%s follows the ledger no more: it failed or was too slow", name)
                del self._subscribers[name]
                self._when_lost(name)


def _told(name: str, tell: Subscriber, what: Committed) -> tuple[Thread, Signal]:
    """Tell it on a thread of its own, so that it can be left behind."""
    done = Signal()

    def work() -> None:
        try:
            tell(what)
            done.set()
        except Exception:
            _log.exception("%s failed at row %d", name, what.events[-1].seq)

    thread = Thread(target=work, name=f"told-{name}", daemon=True)
    thread.start()
    return thread, done
