"""All that the shop's own systems are told: begun, told of commits, asked how it does, ended."""

import logging
from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final

from daq.audit.codec import UnknownEvent
from daq.audit.reasons import REASONS
from daq.audit.state import MachineState, Shop
from daq.ledger.view import LedgerView
from daq.service.clock import Clock
from daq.service.committed import Committed
from daq.service.delivery.courier import Courier, WayOut
from daq.service.delivery.owed import Book
from daq.service.messages.config import Mqtt
from daq.service.messages.live import GaugeSaying, LiveNumbers, LiveValues
from daq.service.messages.of_row import Rows, rows_after, rows_in
from daq.service.messages.shapes import Presence, StatusMessage, V, body, moment, topic
from daq.service.turns import Turns

if TYPE_CHECKING:
    from daq.service.messages.line import BrokerLine

_log = logging.getLogger(__name__)

WAY: Final = "broker"
"""What it is called among the ways out of the shop."""
EVERY: Final = 20
"""So many rows may come twice after a power cut: a card is written to that much less often."""


class Messages:
    """Tells a broker what is recorded and shown. It follows the ledger."""

    name: Final = "messages"

    def __init__(
        self,
        config: Mqtt,
        data: Path,
        release: str,
        hub: LiveNumbers,
        readers: Mapping[str, GaugeSaying],
        state: Shop,
        clock: Clock,
    ) -> None:
        """The ledger in `data` is there, and folds to `state`; nothing is sent before `start`.

        `readers` may be filled until then.

        Raises:
            LedgerError: the ledger cannot be read.
        """
        from daq.service.messages.line import BrokerLine  # a shop without a broker loads no client

        self._prefix, self._release, self._clock = config.prefix, release, clock
        self._practised = {key: _practised(each) for key, each in state.machines.items()}
        self._rows = Rows(data)
        with LedgerView.open(data) as view:
            ledger = view.name()
            last, _ = view.last() or (0, b"")
            book = Book(data, WAY, ledger, last, partial(rows_after, view), EVERY)
        self._courier = Courier("broker", config.at, book, self._deliver)
        hz = config.live_hz
        self._live = LiveValues(hub, readers, clock, config.prefix, hz, self._is_practised)
        # 23 letters and digits: every broker takes such a name (MQTT 3.1.1, 3.1.3.1).
        name = f"headsweep{ledger.replace('-', '')[:14]}"
        turn_s = 1 / hz if hz else 1.0
        self._line = BrokerLine(config, name, self._status, self._up, self._tell_live, turn_s)

    @property
    def ways(self) -> Mapping[str, WayOut]:
        """How it is doing: without a connection it says why, though nothing be owed."""
        found = self._courier.standing
        return {WAY: WayOut(found.to, found.owed, self._line.why or found.why)}

    @property
    def turns(self) -> Mapping[str, Turns]:
        """Its threads."""
        return {"mqtt": self._line.turns, "to-broker": self._courier.turns}

    def committed(self, what: Committed) -> None:
        """Have it sent; returns at once."""
        for machine in what.machines:
            self._practised[machine] = _practised(what.after.machine(machine))
        rows = rows_in(what.events)
        if rows:
            self._courier.tell(rows)

    def start(self) -> None:
        """Begin, with what was owed before."""
        self._line.start()
        self._courier.start()

    def stop(self) -> None:
        """End; what is still owed is sent after the next start."""
        self._courier.stop()
        self._line.stop()

    def _is_practised(self, machine: str) -> bool:
        return self._practised.get(machine, False)

    def _deliver(self, row: int) -> None:
        try:
            message = self._rows.message(row)
        except UnknownEvent as error:  # it keeps back no other
            _log.error("row %d is not told: %s", row, error)
            return
        if message is not None:
            to = topic(self._prefix, message.machine, message.kind)
            self._line.hand_in(row, to, body(message))

    def _up(self) -> None:
        self._live.anew()
        self._courier.tell(())  # what is owed goes at once

    def _tell_live(self, line: "BrokerLine") -> None:
        self._live.turn(line.send)

    def _status(self, status: Presence) -> tuple[str, bytes]:
        utc = moment(self._clock.stamp())
        message = StatusMessage(V, "status", "", utc, status, self._release)
        return topic(self._prefix, "", "status"), body(message)


def _practised(state: MachineState) -> bool:
    return state.job is not None and not REASONS[state.job.reason].kept
