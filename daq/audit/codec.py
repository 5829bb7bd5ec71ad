"""Events as the ledger keeps them, and back: the one place that knows versions."""

from collections.abc import Mapping
from typing import Any

from daq.audit.events import Data, OfStage
from daq.audit.stages import TOOK
from daq.settings import SettingsError, build, plain
from daq.words import Event, SaidTrouble, said

VERSION = 2
TYPES: Mapping[str, type[Data]] = {
    cls.__name__: cls for cls in (*Data.__args__, *TOOK) if cls is not OfStage
}


class UnknownEvent(SaidTrouble, ValueError):
    """The ledger holds a row that this release cannot read or place; `said` says which and why."""


def encode(data: Data) -> tuple[str, int, dict[str, Any]]:
    """An event's type name, version and JSON-ready data."""
    return type(data).__name__, VERSION, plain(data)


def decode(event: Event) -> Data:
    """The typed data of a committed event, whatever limits hold today.

    Raises:
        UnknownEvent: its type or version is not one this release knows, or its data is not what
            that type holds.
    """
    cls, row = TYPES.get(event.type), str(event.seq)
    if event.v != VERSION:
        age = "older" if event.v < VERSION else "newer"
        found, allowed = str(event.v), str(VERSION)
        raise UnknownEvent(
            said("row-of-release", row=row, type=event.type, found=found, age=age, allowed=allowed)
        )
    if cls is None:
        known = ", ".join(sorted(TYPES))
        raise UnknownEvent(said("row-unknown", row=row, type=event.type, known=known))
    try:
        return build(cls, event.data, f"ledger row {row}", quantities="plain", limits=False)
    except SettingsError as error:
        raise UnknownEvent(error.said) from None
