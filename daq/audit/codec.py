"""Events as the ledger keeps them, and back: the one place that knows versions."""

from collections.abc import Mapping
from typing import Any

from daq.audit.events import Data, OfStage
from daq.audit.stages import TOOK
from daq.settings import build, plain
from daq.words import Event, Trouble

VERSION = 2
TYPES: Mapping[str, type[Data]] = {
    cls.__name__: cls for cls in (*Data.__args__, *TOOK) if cls is not OfStage
}


class UnknownEvent(Trouble, ValueError):
    """The ledger holds an event that an older or a newer release wrote and this one cannot read."""


def encode(data: Data) -> tuple[str, int, dict[str, Any]]:
    """An event's type name, version and JSON-ready data."""
    return type(data).__name__, VERSION, plain(data)


def decode(event: Event) -> Data:
    """The typed data of a committed event, whatever limits hold today.

    Raises:
        UnknownEvent: its type or version is not one this release knows.
    """
    cls = TYPES.get(event.type)
    if event.v != VERSION:
        age = "an older" if event.v < VERSION else "a newer"
        raise UnknownEvent(
            f"ledger row {event.seq}: found {event.type} of version {event.v}, which {age} "
            f"release wrote; allowed: version {VERSION}"
        )
    if cls is None:
        known = ", ".join(sorted(TYPES))
        raise UnknownEvent(f"ledger row {event.seq}: found {event.type}; allowed: {known}")
    return build(cls, event.data, f"ledger row {event.seq}", quantities="plain", limits=False)
