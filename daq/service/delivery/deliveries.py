"""All ways out of one shop: begun, told of each commit, asked how they do, ended."""

from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import Final
from urllib.parse import urlsplit

from daq.ledger.view import LedgerView
from daq.service.committed import Committed
from daq.service.delivery.config import OnSigning
from daq.service.delivery.courier import Courier, WayOut
from daq.service.delivery.from_ledger import FromLedger, Made, rows_after, rows_in
from daq.service.delivery.owed import Book, forget
from daq.service.turns import Turns

FOLDER, ADDRESS = "folder", "address"


class Deliveries:
    """A courier for each way out that the shop's file names. It follows the ledger."""

    name: Final = "deliveries"

    def __init__(self, config: OnSigning, data: Path, made: Made) -> None:
        """The ledger in `data` is there; nothing is delivered before `start`.

        Raises:
            LedgerError: the ledger cannot be read.
        """
        source = FromLedger(data, config, made)
        known = {
            FOLDER: (config.folder, source.into_folder),
            ADDRESS: (_shown(config.url), source.to_address),
        }
        self._couriers: dict[str, Courier] = {}
        for way, (to, deliver) in known.items():
            if not to:
                forget(data, way)
                continue
            with LedgerView.open(data) as view:
                last, _ = view.last() or (0, b"")
                book = Book(data, way, view.name(), last, partial(rows_after, view))
            self._couriers[way] = Courier(way, to, book, deliver)

    @property
    def ways(self) -> Mapping[str, WayOut]:
        """How each is doing, by its name; any thread may ask."""
        return {way: each.standing for way, each in self._couriers.items()}

    @property
    def turns(self) -> Mapping[str, Turns]:
        """Each one's thread."""
        return {f"to-{way}": each.turns for way, each in self._couriers.items()}

    def committed(self, what: Committed) -> None:
        """Have what was signed or added delivered; returns at once."""
        rows = rows_in(what.events)
        for courier in self._couriers.values() if rows else ():
            courier.tell(rows)

    def start(self) -> None:
        """Begin, with what was owed before."""
        for courier in self._couriers.values():
            courier.start()

    def stop(self) -> None:
        """End; what is still owed is delivered after the next start."""
        for courier in self._couriers.values():
            courier.stop()


def _shown(url: str) -> str:
    """Whose address it is: what stands behind the host is often all there is of a secret."""
    parts = urlsplit(url)
    return f"{parts.scheme}://{parts.netloc}" if url else ""
