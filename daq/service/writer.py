"""The one writer of the ledger, and what is known of the disk it writes to."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from daq.audit.recompute import REPORTED
from daq.ledger.errors import NotRecorded
from daq.ledger.store import Ledger
from daq.screens.told import told
from daq.service.clock import Clock
from daq.service.letting_go import LettingGo, drafted
from daq.service.people import People
from daq.service.proof import Proven
from daq.words import Ack, Command, Draft, Event, Said, said

PROBE_NS = 2_000_000_000
"""How often the disk is looked at, so that a full one shows before the next take."""

BARE_BYTES = 2 * 1024 * 1024
"""What one command with the most evidence a gauge's ring can hold may take on the disk."""

TOLD = 5
"""How many of the changes since a screen was drawn are named."""

COUNTED = 100
"""How many are counted: a screen so far behind is not brought up to date by reading a list."""


@dataclass(frozen=True)
class MadeRow:
    """A row that was made elsewhere, the samples behind it, and whom it is the first to name."""

    draft: Draft
    chunk: bytes
    named: Mapping[str, str]


Made = Callable[[People], MadeRow]
"""Makes such a row, of the people known by then."""


class Writer:
    """Writes what was decided and says whether it came through. It belongs to one thread."""

    def __init__(
        self,
        ledger: Ledger,
        record: Callable[[bool, Said | None], None],
        clock: Clock,
        proof: Proven,
        people: People,
        letting_go: LettingGo | None = None,
    ) -> None:
        """`record` is told how recording is doing, each time that is known anew.

        To a record that `proof` finds unsound nothing is added.
        `people`: whom the record names. `letting_go` finds what the shop no longer keeps.
        """
        self._letting_go = letting_go
        self.people = people
        self._proof = proof
        self._ledger = ledger
        self._record = record
        self._clock = clock
        self._doubted = False
        self._probed_ns = 0

    @property
    def head(self) -> str:
        """The chain's last hash."""
        return self._ledger.head

    @property
    def doubted(self) -> bool:
        """Whether a commit failed and none came through since."""
        return self._doubted

    def earlier(self, command: Command) -> Ack | None:
        """The answer a command was given before, if its id led to events already.

        Raises:
            LedgerError: the record cannot be asked; then nothing may be acknowledged.
        """
        try:
            self._ledger.require_in_place()
        except NotRecorded as error:
            self._doubt(said("recording-failed", why=error.said))
            raise
        events = self._ledger.by_cause(command.id)
        if not events:
            return None
        first = events[0]
        same = (first.machine, first.cause["kind"]) == (command.machine, command.kind)
        if not same or not self.people.same(first.cause["payload"], command):
            why = said("id-used-before", id=command.id)
            return Ack(command.id, False, (), "refused", why)
        return Ack(command.id, True, tuple(event.seq for event in events), "ok")

    def stale(self, command: Command, seq: int) -> Ack | None:
        """The answer to a command for a machine that stood elsewhere than at `seq`, where it is."""
        if command.expects_seq is None or command.expects_seq == seq:
            return None
        changed = self.changed(min(max(0, command.expects_seq), seq), command.machine)
        return Ack(command.id, False, (), "stale", said("changed-meanwhile"), changed)

    def changed(self, seq: int, machine: str) -> tuple[Said, ...]:
        """What came of a machine after `seq`: the last few, and how many before them.

        It costs the same however long ago that was: others wait for an answer, too.
        """
        last = tuple(told(event) for event in self._ledger.latest(machine, seq, TOLD))
        more = self._ledger.count(machine, seq, COUNTED) - len(last)
        if not more:
            return last
        full = "yes" if more + len(last) == COUNTED else "no"
        return (said("steps-before", more=more, full=full, last=len(last)), *last)

    def signed(self, audit: object, machine: str) -> tuple[int, int]:
        """The row in which that audit was signed on that machine, 0 for none; its amended reports.

        Raises:
            LedgerError: the record cannot be read.
        """
        if not isinstance(audit, str) or not audit:
            return 0, 0
        rows = [(e.type, e.seq) for e in self._ledger.events(machine=machine, audit=audit)]
        signed = next((seq for kind, seq in rows if kind == "Signed"), 0)
        return signed, sum(kind in REPORTED for kind, _ in rows)

    def write(
        self, drafts: Sequence[Draft], chunks: Sequence[bytes], named: Mapping[str, str]
    ) -> tuple[Event, ...]:
        """Commit all of it or nothing, and return the events as read back.

        `named`: the names of those the drafts are the first to name, by id.

        Raises:
            NotRecorded: it did not come through, or the record is not sound, which by then is
                on the screens.
            RecursionError, TypeError, ValueError: it cannot be written down at all.
        """
        if self._proof.fault:
            self.look()
            raise NotRecorded(self._proof.fault)
        try:
            events = self._ledger.append(drafts, chunks, named)
        except NotRecorded as error:
            self._doubt(said("recording-failed", why=error.said))
            raise
        self.people.learn(named)
        self._doubted = False
        return events

    def let_go(self, engine: str) -> tuple[Event, ...]:
        """Let samples go that the shop no longer keeps, a few; gives the row that says so, if any.

        What cannot be written here and now waits until tomorrow. `engine`: the release.
        """
        batch = None if self._letting_go is None else self._letting_go.waits
        if batch is None or self._letting_go is None or self._letting_go.days is None:
            return ()
        draft = drafted(batch, self._letting_go.days, self._clock.stamp(), engine)
        try:
            event = self._ledger.let_go(draft, batch.digests)
        except NotRecorded as error:
            self._letting_go.answer(well=False)
            self._doubt(said("recording-failed", why=error.said))
            return ()
        self._letting_go.answer(well=True)
        return (event,)

    def turn(self) -> None:
        """Called again and again: every two seconds, look how the disk is doing."""
        if self._clock.mono_ns() - self._probed_ns >= PROBE_NS:
            self.look()

    def look(self) -> None:
        """Say what is wrong with the disk. What was once in doubt only a commit makes good:
        a disk that fails has room, too."""
        self._probed_ns = self._clock.mono_ns()
        if self._proof.fault:
            self._doubt(said("recording-fails", why=self._proof.fault))
            return
        bare, room = self._ledger.room(BARE_BYTES), self._ledger.room()
        if bare.say is not None:
            self._doubt(said("recording-fails", why=bare.say))
            return
        try:
            self._ledger.require_in_place()
            if self._doubted:
                self._ledger.probe()
        except NotRecorded as error:
            self._doubt(said("recording-failed", why=error.said))
            return
        self._doubted = False
        little = None if room.say is None else said("disk-nearly-full", why=room.say)
        self._record(little is None, little)

    def _doubt(self, say: Said) -> None:
        self._doubted = True
        self._record(False, say)

    def close(self) -> None:
        """Close the ledger."""
        self._ledger.close()
