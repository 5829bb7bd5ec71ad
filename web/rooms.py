"""What the views share: what they were given, and the gates for what keeps a thread."""

import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from flask import current_app
from werkzeug.exceptions import NotFound

from daq.doctor.rounds import Rounds
from daq.says import Language
from daq.service.gauge_bench import GaugeBench
from daq.service.hub import Hub, Served
from daq.service.inbox import Inbox
from daq.service.listing import Listing
from daq.service.metrics import Metrics
from daq.service.no_record import NoRecord
from daq.service.on_record import OnRecord
from daq.service.rights.access import Access
from daq.service.set_up.shop_set_up import ShopSetUp
from daq.service.setup import Setup
from daq.service.trends import Trends
from daq.settings import quoted
from daq.words import Said
from daq.words.said import Value
from web.ports import PracticePanel
from web.settling import Settling
from web.streams import Streams
from web.tongue import chosen

EXTENSION = "headsweep"


class Gate:
    """Counts those within, in all and by whom they are of, and admits no more than so many."""

    def __init__(self, most: int, most_each: int) -> None:
        """Admit `most` at a time, and `most_each` of one."""
        self.most = most
        self.most_each = most_each
        self.within: Counter[str] = Counter()
        self._lock = threading.Lock()

    @property
    def open(self) -> int:
        """How many are within."""
        return self.within.total()

    @contextmanager
    def place(self, of: str, *, keeping: int = 0) -> Iterator[bool]:
        """Give whether there is a place; it is kept for as long as the block runs.

        The last `keeping` places are not for this one.
        """
        with self._lock:
            full = self.open >= self.most - keeping or self.within[of] >= self.most_each
            self.within[of] += not full
        try:
            yield not full
        finally:
            with self._lock:
                self.within[of] -= not full
                self.within += Counter()  # forgets those of whom none is within


@dataclass(frozen=True)
class Rooms:
    """What one application was given, the language of its shop, and what its views share."""

    of_shop: Language
    """What reports are in; a screen may have chosen another one."""
    hub: Hub
    inbox: Inbox | NoRecord
    practice: PracticePanel | None
    gate: Gate
    """The event streams. Each keeps a connection, and is written to whenever its gauge sends."""
    presses: Gate
    """The presses that wait for their answer: each until its gauge has settled, also when it was
    sent before, and when nobody waits for it any more."""
    settling: Settling
    streams: Streams
    setup: Setup | None = None
    trends: Trends | None = None
    proxies: frozenset[str] = frozenset()
    access: Access | None = None
    listing: Listing | None = None
    on_record: OnRecord | None = None
    doctor: Rounds | None = None
    set_up: ShopSetUp | None = None
    metrics: Metrics | None = None
    bench: GaugeBench | None = None

    @property
    def says(self) -> Language:
        """The language of the screen that asks."""
        return chosen(self.of_shop)

    def told(self, shown: object) -> Any:  # noqa: ANN401 - JSON
        """A JSON-ready copy of what is shown, in words, with people's names."""
        return self.streams.words.told(shown, self.says)

    def page(self, machine: str, name: str) -> Any:  # noqa: ANN401 - JSON
        """One of a machine's pages as it is now, the same way."""
        return self.streams.words.pages(machine, self.says)[name]


def words(code: str, /, **of: Value) -> str:
    """A sentence, in the language of the screen that asks."""
    return rooms().says.words(Said(code, of))


def rooms() -> Rooms:
    """Return the rooms of the application that handles this request."""
    found = current_app.extensions[EXTENSION]
    if not isinstance(found, Rooms):
        raise TypeError(f"the application carries no rooms but {type(found).__name__}")
    return found


def has_practice(machine: str) -> bool:
    """Return whether this machine is the practice mill, whose hands have pages of their own."""
    practice = rooms().practice
    try:
        return practice is not None and practice.state(machine) is not None
    except KeyError:
        return False


def setup_or_404() -> Setup:
    """Return what answers the setup page; answers 404 where nothing does."""
    found = rooms().setup
    if found is None:
        raise NotFound(words("no-setup-here"))
    return found


def set_up_or_404() -> ShopSetUp:
    """Return what sets the shop up; answers 404 where nothing does."""
    found = rooms().set_up
    if found is None:
        raise NotFound(words("no-set-up-here"))
    return found


def bench_or_404() -> GaugeBench:
    """Return where a gauge is checked; answers 404 where nothing does."""
    found = rooms().bench
    if found is None:
        raise NotFound(words("no-bench-here"))
    return found


def trends_or_404() -> Trends:
    """Return what knows the machines' trends; answers 404 where nothing does."""
    found = rooms().trends
    if found is None:
        raise NotFound(words("no-trends-here"))
    return found


def listing_or_404() -> Listing:
    """Return what keeps the list of audits; answers 404 where nothing does."""
    found = rooms().listing
    if found is None:
        raise NotFound(words("no-list-here"))
    return found


def on_record_or_404() -> OnRecord:
    """Return what reads audits from the record; answers 404 where nothing does."""
    found = rooms().on_record
    if found is None:
        raise NotFound(words("no-records-here"))
    return found


def machine_or_404(key: str) -> Served:
    """Return the machine of that key; answers 404, naming those there are."""
    machines = rooms().hub.machines()
    for machine in machines:
        if machine.key == key:
            return machine
    there = ", ".join(machine.key for machine in machines) or "none"
    raise NotFound(words("no-machine-so-called", key=quoted(key), there=there))


def doctor_or_404() -> Rounds:
    """Return what examines this computer; answers 404 where nothing does."""
    found = rooms().doctor
    if found is None:
        raise NotFound(words("no-doctor-here"))
    return found
