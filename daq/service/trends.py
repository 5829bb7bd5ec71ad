"""The trends, made when they are asked for: their due dates depend on the day."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Final

from daq.audit.addendum import beside
from daq.audit.answers import Callout
from daq.audit.codec import UnknownEvent, decode
from daq.audit.events import Addendum, AuditOpened, Signed
from daq.audit.good_enough import answer
from daq.audit.history import NO_SUMS, AddedSince, LaterRow, SignedAudit, day_of, done, sums_after
from daq.audit.reliable import of_shop
from daq.audit.setup import MachineSetup
from daq.audit.state import Shop
from daq.audit.trend import Page, dues, latest, trend
from daq.ledger.errors import LedgerError, of_file
from daq.ledger.view import LedgerView
from daq.screens.enough import enough_view
from daq.service.clock import Clock
from daq.service.committed import Committed
from daq.words import SaidTrouble, said
from daq.words.enough import EnoughView
from daq.words.reliability import ReliabilityView
from daq.words.trend import CheckDue, TrendView

LEAD: Final = 60
"""So many audits before those shown make their smoothed values: one before them weighs nothing in
them, less than 0.8 to the power of this many."""


class NoSuchPage(SaidTrouble):
    """No answer gave that row to go on before."""


@dataclass
class Trends:
    """Answers what a machine's audits show together; any thread may ask. It follows the ledger.

    `machines`: what the files say today, by key: the interval between audits is theirs.
    `shop`: the latest fold; audits that it does not keep are read from the ledger in `data`.
    """

    machines: Mapping[str, MachineSetup]
    shop: Shop
    clock: Clock
    data: Path

    def committed(self, what: Committed) -> None:
        """Follow."""
        self.shop = what.after

    def of(self, machine: str, most: int, before: int | None = None) -> TrendView:
        """A machine's trend as it is now: the latest so many audits, or those before that row.

        One whose file is gone has no interval. It costs the same however many audits there are.

        Raises:
            NoSuchPage: `before` is no row that an earlier answer gave.
            LedgerError: the record cannot be read; says why.
        """
        state = self.shop.machine(machine)
        history = state.history
        page = latest(history, most, before)
        try:
            if page is not None:
                added = self._added([each for each in page.shown if each.later])
            else:
                top = before if before is not None else history.latest[-1].seq
                page = self._older(machine, most, top, itself=before is None)
                added = self._added(page.shown)
        except UnknownEvent as error:
            raise LedgerError(of_file(self.data, error.said)) from error
        now = self.clock.stamp()
        machine_file = self.machines.get(machine)
        view = trend(state, machine_file, day_of(now), page, sure=now.utc_trusted)
        return beside(view, added)

    def _added(self, audits: Sequence[SignedAudit]) -> Mapping[str, AddedSince]:
        """What was added to each of these audits: the rows of it after its signature."""
        if not audits:
            return {}
        with LedgerView.open(self.data) as view:
            return {each.audit: _later(view, each) for each in audits}

    @property
    def today(self) -> str:
        """The day it is, UTC, an ISO date."""
        return day_of(self.clock.stamp())

    def due(self, machine: str) -> tuple[CheckDue, ...]:
        """When each of a machine's checks is due as of now, squaring first."""
        now = self.clock.stamp()
        state, machine_file = self.shop.machine(machine), self.machines.get(machine)
        return dues(state, machine_file, day_of(now), sure=now.utc_trusted)

    def reliability(self) -> ReliabilityView:
        """What the verdicts of all machines were worth together, whose files are gone too."""
        return of_shop(each.reliability for each in self.shop.machines.values())

    def good_enough(self, machine: str, callout: Callout) -> EnoughView:
        """Whether a machine's head is good enough for a callout, by its last sweep, as of now.

        Raises:
            Refused: no sweep can answer that.
        """
        state = self.shop.machine(machine)
        found = answer(state, callout)
        unit = state.job.gauge.unit if state.job else state.last.unit if state.last else "mm"
        return enough_view(found, unit, day_of(self.clock.stamp()))

    def _older(self, machine: str, most: int, top: int, *, itself: bool) -> Page:
        """So many audits from the one signed in row `top` back, or from the one before it."""
        with LedgerView.open(self.data) as view:
            signed = _signed(view, machine, top)
            if not itself:
                next(signed)
            shown = tuple(islice(signed, most))[::-1]
            lead = tuple(islice(signed, LEAD))[::-1]
        more = shown[0].seq if lead else None
        return Page(shown, sums_after(NO_SUMS, lead), more)


def _later(view: LedgerView, signed: SignedAudit) -> AddedSince:
    found = AddedSince()
    for event in view.events(after=signed.seq, audit=signed.audit):
        what = decode(event)
        if isinstance(what, Addendum):
            stamp = event.stamp
            found = found.then(LaterRow(event.seq, day_of(stamp), stamp.utc_trusted, what))
    return found


def _signed(view: LedgerView, machine: str, row: int | None) -> Iterator[SignedAudit]:
    """A machine's signed audits from that row back: each names the one before it."""
    while row is not None:
        event = view.event(row)
        signed = None if event is None or event.machine != machine else decode(event)
        if event is None or not isinstance(signed, Signed):
            raise NoSuchPage(said("no-such-page", before=row))
        first = view.first(event.audit)
        assert first is not None
        opened = decode(first)
        assert isinstance(opened, AuditOpened)
        found = done(
            event.audit, opened.short, row, event.stamp, opened.reason, opened.setup, signed
        )
        yield found
        row = found.previous
