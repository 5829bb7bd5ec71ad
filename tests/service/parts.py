"""The parts that decide and record, put together as the service does, without their thread."""

from dataclasses import dataclass

from daq.service.book import Book
from daq.service.committed import Publisher
from daq.service.hub import SCREENS
from daq.service.office import Office
from daq.service.screens import Screens


@dataclass(frozen=True)
class Parts:
    book: Book
    screens: Screens
    office: Office


def parts(ledger, shop, hub, clock, readable, floor, followers=()):
    """`followers`: who follows the ledger besides the screens, by name."""
    screens = Screens(hub, shop, ledger.head, clock, readable)
    publisher = Publisher({SCREENS: screens.committed, **dict(followers)}, hub.drop)
    book = Book(ledger, shop, publisher, hub.record, clock, "test")
    return Parts(book, screens, Office(book, screens, floor, clock))
