"""What goes out of the shop by itself: reports and notes, and what its own systems are told."""

from collections.abc import Mapping
from pathlib import Path
from typing import Protocol

from daq.audit.state import Shop
from daq.service.clock import Clock
from daq.service.committed import Committed
from daq.service.delivery.courier import WayOut
from daq.service.delivery.deliveries import Deliveries
from daq.service.delivery.from_ledger import Made
from daq.service.delivery.owed import forget
from daq.service.files import ShopFiles
from daq.service.messages.live import GaugeSaying, LiveNumbers
from daq.service.messages.messages import WAY, Messages
from daq.service.turns import Turns


class Going(Protocol):
    """What works on threads of its own."""

    def start(self) -> None:
        """Begin, with what was left over."""

    def stop(self) -> None:
        """End; what is left over is done after the next start."""


class Out(Going, Protocol):
    """What tells somebody outside of what was recorded: it waits for them, and nobody for it."""

    @property
    def name(self) -> str:
        """As which it follows the ledger."""

    @property
    def ways(self) -> Mapping[str, WayOut]:
        """How each of its ways is doing, by name; any thread may ask."""

    @property
    def turns(self) -> Mapping[str, Turns]:
        """Its threads."""

    def committed(self, what: Committed) -> None:
        """Have it told; returns at once."""


def outs(
    files: ShopFiles,
    data: Path,
    made: Made,
    release: str,
    hub: LiveNumbers,
    readers: Mapping[str, GaugeSaying],
    state: Shop,
    clock: Clock,
) -> tuple[Out, ...]:
    """All that the shop's file asks for; nothing goes before `start`.

    `made` makes a report; the ledger in `data` folds to `state`.

    Raises:
        LedgerError: the ledger cannot be read.
    """
    if files.unsure:  # nobody knows what was asked for: what is owed stays so
        return ()
    reports, mqtt = Deliveries(files.shop.on_signing, data, made), files.shop.mqtt
    if mqtt is None:
        forget(data, WAY)
        return (reports,)
    return reports, Messages(mqtt, data, release, hub, readers, state, clock)


def ways(of: tuple[Out, ...]) -> Mapping[str, WayOut]:
    """How everything that goes out is doing, by the name of its way."""
    return {name: way for each in of for name, way in each.ways.items()}
