"""What the desk's thread does with each thing handed in; all of it runs on that one thread."""

import uuid
from collections.abc import Callable, Iterable, Mapping, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field, replace

from daq.audit.decide import Input, Refused, Want, wants
from daq.audit.decide.table import NOTICES
from daq.audit.setup import AuditSetup
from daq.audit.state import Job
from daq.gauges.reader import STUCK
from daq.gauges.ring import Ring, Slice
from daq.ledger.errors import LedgerError
from daq.metrology.settle import Window
from daq.says import language
from daq.service.book import Book
from daq.service.clock import Clock
from daq.service.files import with_check
from daq.service.takes import HOLD_STILL, Expired, Pending, look
from daq.service.watch import ConditionWatch, GaugeWatch, Notice, ZeroWatch
from daq.words import Ack, Command, GaugeStatus, Sample


@dataclass(frozen=True)
class Shopfloor:
    """What the office may ask of the shop: setups of new audits and the gauges' samples."""

    setup: Callable[[str], AuditSetup | None]
    rings: Mapping[str, Ring]
    presses: Mapping[str, int] = field(default_factory=dict)
    """For each gauge that sends on its key: how many presses make one reading."""
    statuses: Callable[[], Iterable[GaugeStatus]] = tuple
    """How the gauges' readers are doing; what stands still cannot report it."""

    def ring(self, gauge: str) -> Ring:
        """A gauge's samples; none for a gauge that left the files while its audit was open."""
        return self.rings.get(gauge) or Ring(1)


class Office:
    """Commands in, events out, answers after the commit."""

    def __init__(self, book: Book, floor: Shopfloor, clock: Clock) -> None:
        """Work on `book`; show the state of every machine at once."""
        self._book = book
        self._floor = floor
        self._clock = clock
        self._pending: dict[str, Pending] = {}
        self._zeros = ZeroWatch(clock)
        self._conditions = ConditionWatch(clock)
        self._gauges = GaugeWatch()
        self._stuck: set[str] = set()
        self._unrecorded: list[Notice] = []
        self._began_ns = clock.mono_ns()
        self._resume()

    def _resume(self) -> None:
        """Audits left open: what happened while nobody looked is asked before all else."""
        for machine, state in self._book.shop.machines.items():
            if state.job is not None:
                command = Command(str(uuid.uuid4()), machine, "restarted", {}, actor="service")
                # Shown at once, should the disk have no room to record it yet.
                self._book.presume(Input(command))
                self._unrecorded.append(Notice(command, ()))
        self._record_notices()

    @property
    def busy(self) -> bool:
        """Whether a take is settling."""
        return bool(self._pending)

    def receive(self, command: Command, arrived_ns: int, reply: "Future[Ack]") -> None:
        """Answer a command now, or once its gauge has settled."""
        try:
            self._receive(command, arrived_ns, reply)
        except LedgerError as error:
            reply.set_result(_not_recorded(command, f"Not recorded: {error}"))

    def _receive(self, command: Command, arrived_ns: int, reply: "Future[Ack]") -> None:
        pending = self._pending.get(command.machine)
        if pending is not None and pending.command.id == command.id:
            pending.replies.append(reply)
            return
        earlier = self._book.earlier(command)
        if earlier is not None:
            reply.set_result(earlier)
            return
        if self._unrecorded:
            why = "Not recorded: what the gauge did meanwhile has to be recorded first."
            reply.set_result(_not_recorded(command, why))
            return
        refusal = self._refusal(command, pending)
        if refusal is not None:
            reply.set_result(refusal)
            return
        try:
            want = wants(self._book.shop, command)
        except Refused as refused:
            reply.set_result(_refused(command, language().words(refused.said)))
            return
        self._begin(command, want, arrived_ns, reply)

    def _refusal(self, command: Command, pending: Pending | None) -> Ack | None:
        if command.kind in NOTICES:
            return _refused(command, f"{command.kind!r} is for the service itself to notice.")
        state = self._book.shop.machine(command.machine)
        if command.expects_seq is not None and command.expects_seq != state.seq:
            seen = min(max(0, command.expects_seq), state.seq)
            changed = self._book.changed(seen, command.machine)
            why = "Something changed since that screen was drawn: look again."
            return Ack(command.id, False, (), "stale", why, changed)
        if pending is not None:
            return _refused(command, HOLD_STILL)
        return None

    def _begin(self, command: Command, want: Want, arrived_ns: int, reply: "Future[Ack]") -> None:
        if want.kind == "nothing":
            reply.set_result(self._decide(Input(command, arrived_ns)))
            return
        job = self._job(command.machine)
        if want.kind == "history":
            history = self._history(job)
            given = Input(command, arrived_ns, history.samples)
            reply.set_result(self._decide(given, history.missed))
            return
        key = job.setup.gauge.key
        presses = self._floor.presses.get(key)
        self._pending[command.machine] = Pending(
            command, want, key, arrived_ns, job.setup.settle, presses, [reply]
        )

    def _job(self, machine: str) -> Job:
        job = self._book.shop.machine(machine).job
        if job is None:
            raise Refused("no-audit")
        return job

    def _history(self, job: Job) -> Slice:
        """Every sample since the audit's last step, as far as this service has kept them."""
        same_boot = job.since.boot == self._clock.stamp().boot
        since_ns = job.since.mono_ns if same_boot else 0
        kept = self._floor.ring(job.setup.gauge.key).since(None, since_ns)
        return replace(kept, missed=kept.missed or since_ns < self._began_ns)

    def tick(self) -> None:
        """Look after takes, zeros, readers and the disk; called many times a second."""
        self._book.beat()
        self._look_at_readers()
        self._record_notices()
        for machine, pending in list(self._pending.items()):
            self._settle(machine, pending)
        for machine, state in list(self._book.shop.machines.items()):
            if state.job is not None:
                self._notice(machine, state.job)

    def _look_at_readers(self) -> None:
        """Tell of a reader that stands still, and that it goes on again."""
        for status in self._floor.statuses():
            if (status.code == STUCK) != (status.gauge in self._stuck):
                self._stuck ^= {status.gauge}
                self._book.stands_still(status)
                self.gauge_status(status)

    def _notice(self, machine: str, job: Job) -> None:
        ring = self._floor.ring(job.setup.gauge.key)
        # Between two presses of a gauge's key anything may have happened: a jump shows nothing.
        keyed = job.setup.gauge.key in self._floor.presses
        notice = None if keyed else self._zeros.look(machine, job, ring)
        # While something waits to be recorded, what follows from it cannot be judged.
        if notice is None and machine not in self._pending and not self._unrecorded:
            notice = self._conditions.look(machine, job, ring)
        if notice is not None:
            self._note(notice)

    def _note(self, notice: Notice) -> None:
        """Record what the service noticed; on a full disk it waits, in order, for room."""
        self._unrecorded.append(notice)
        self._record_notices()

    def _record_notices(self) -> None:
        while self._unrecorded:
            notice = self._unrecorded[0]
            ack = self._decide(Input(notice.command, samples=notice.samples))
            if ack.code == "not-recorded":
                return
            del self._unrecorded[0]
            if ack.accepted and notice.command.kind == "zeroed":
                asked = self._job(notice.command.machine).zero_asked is not None
                why = "It went to zero" if asked else "Zeroed"
                self._give_up(notice.command.machine, f"{why} while it was read: look again.")

    def _give_up(self, machine: str, why: str) -> None:
        """Refuse a take under way: what it was for has changed."""
        pending = self._pending.pop(machine, None)
        if pending is not None:
            for reply in pending.replies:
                reply.set_result(_refused(pending.command, why))

    def _settle(self, machine: str, pending: Pending) -> None:
        ring = self._floor.ring(pending.gauge)
        taken = ring.since(None, pending.take_ns)
        found = look(pending, taken.samples, self._clock.mono_ns())
        second = self._second(machine, pending)
        if found is None or (second is None and isinstance(found, Window)):
            return
        del self._pending[machine]
        if isinstance(found, Expired):
            ack = _refused(pending.command, found.say)
        elif isinstance(second, Expired):
            ack = _refused(pending.command, f"The second gauge: {second.say}")
        else:
            ack = self._settled(machine, pending, found, taken, second or ())
        for reply in pending.replies:
            reply.set_result(ack)

    def _second(self, machine: str, pending: Pending) -> Sequence[Sample] | Expired | None:
        """The second gauge's settled samples, none when none are wanted, or None: wait."""
        gauge = self._job(machine).setup.second_gauge
        if gauge is None or pending.want.whole:
            return ()
        other = replace(pending, gauge=gauge.key, presses=self._floor.presses.get(gauge.key))
        samples = self._floor.ring(gauge.key).since(None, pending.take_ns).samples
        found = look(other, samples, self._clock.mono_ns())
        if not isinstance(found, Window):
            return found
        wanted = range(found.first_n, found.last_n + 1)
        return [s for s in samples if s.run == found.run and s.n in wanted]

    def _settled(
        self,
        machine: str,
        pending: Pending,
        window: Window,
        taken: Slice,
        second: Sequence[Sample],
    ) -> Ack:
        if pending.want.whole:
            taken = self._history(self._job(machine))
        ends = (window.run, window.last_n)
        last = next(i for i, s in enumerate(taken.samples) if (s.run, s.n) == ends)
        samples = taken.samples[: last + 1]
        if not pending.want.whole:
            samples = samples[-window.count :]
        given = Input(
            pending.command,
            pending.take_ns,
            (*second, *samples),
            window.first_n,
            window.last_n,
            second_n=(second[0].n, second[-1].n) if second else None,
        )
        return self._decide(given, taken.missed and pending.want.whole)

    def _decide(self, given: Input, missed: bool = False) -> Ack:
        if given.command.kind == "open":
            setup = self._floor.setup(given.command.machine)
            given = replace(given, setup=with_check(setup, self._book.shop.gauges))
        return self._book.write(given, missed)

    def gauge_status(self, status: GaugeStatus) -> None:
        """Show how a gauge is doing; record it where an audit depends on it."""
        self._book.status(status)
        bound = self._book.shop.bound(status.gauge)
        command = self._gauges.change(status, bound.machine if bound else None)
        if command is not None:
            self._note(Notice(command, ()))

    def close(self, why: str) -> None:
        """Answer whoever still waits and close the ledger."""
        for pending in self._pending.values():
            for reply in pending.replies:
                reply.set_result(_refused(pending.command, why))
        self._pending.clear()
        self._book.close()


def _not_recorded(command: Command, why: str) -> Ack:
    return Ack(command.id, False, (), "not-recorded", why)


def _refused(command: Command, why: str) -> Ack:
    return Ack(command.id, False, (), "refused", why)
