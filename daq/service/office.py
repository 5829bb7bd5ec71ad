"""What the desk's thread does with each thing handed in; all of it runs on that one thread."""

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, replace

from daq.audit.decide import Input, Refused, Want, wants
from daq.audit.setup import AuditSetup
from daq.audit.state import Job
from daq.audit.views.said import said
from daq.gauges.ring import Ring, Slice
from daq.metrology.settle import Window
from daq.service.book import Book
from daq.service.clock import Clock
from daq.service.takes import Expired, Pending, look
from daq.service.watch import GaugeWatch, ZeroWatch
from daq.words import Ack, Command, GaugeStatus, Sample


@dataclass(frozen=True)
class Shopfloor:
    """What the office may ask of the shop: setups of new audits and the gauges' samples."""

    setup: Callable[[str], AuditSetup]
    rings: Mapping[str, Ring]

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
        self._gauges = GaugeWatch()

    @property
    def busy(self) -> bool:
        """Whether a take is settling."""
        return bool(self._pending)

    def receive(self, command: Command, arrived_ns: int, reply: "Future[Ack]") -> None:
        """Answer a command now, or once its gauge has settled."""
        pending = self._pending.get(command.machine)
        if pending is not None and pending.command.id == command.id:
            pending.replies.append(reply)
            return
        earlier = self._book.earlier(command.id)
        if earlier:
            reply.set_result(Ack(command.id, True, earlier, "ok"))
            return
        refusal = self._refusal(command, pending)
        if refusal is not None:
            reply.set_result(refusal)
            return
        try:
            want = wants(self._book.shop, command)
        except Refused as refused:
            reply.set_result(_refused(command, str(refused)))
            return
        self._begin(command, want, arrived_ns, reply)

    def _refusal(self, command: Command, pending: Pending | None) -> Ack | None:
        state = self._book.shop.machine(command.machine)
        if command.expects_seq is not None and command.expects_seq != state.seq:
            since = self._book.since(command.expects_seq, command.machine)
            changed = tuple(said(event) for event in since)
            why = "Something changed since that screen was drawn: look again."
            return Ack(command.id, False, (), "stale", why, changed)
        if pending is not None:
            return _refused(command, "A reading is being taken: hold still.")
        return None

    def _begin(self, command: Command, want: Want, arrived_ns: int, reply: "Future[Ack]") -> None:
        if want.kind == "nothing":
            reply.set_result(self._decide(Input(command)))
            return
        job = self._job(command.machine)
        if want.kind == "history":
            samples = self._history(job).samples
            reply.set_result(self._decide(Input(command), samples))
            return
        self._pending[command.machine] = Pending(
            command, want, job.setup.gauge.key, arrived_ns, job.setup.settle, [reply]
        )

    def _job(self, machine: str) -> Job:
        job = self._book.shop.machine(machine).job
        if job is None:
            raise Refused("No audit is open on this machine.")
        return job

    def _history(self, job: Job) -> Slice:
        """Every sample since the audit's last step, as far as the ring still holds them."""
        same_boot = job.since.boot == self._clock.stamp().boot
        since_ns = job.since.mono_ns if same_boot else 0
        return self._floor.ring(job.setup.gauge.key).since(None, since_ns)

    def tick(self) -> None:
        """Look after takes, zeros and the disk; called many times a second."""
        self._book.beat()
        for machine, pending in list(self._pending.items()):
            self._settle(machine, pending)
        for machine, state in list(self._book.shop.machines.items()):
            if state.job is not None:
                notice = self._zeros.look(
                    machine, state.job, self._floor.ring(state.job.setup.gauge.key)
                )
                if notice is not None:
                    self._decide(Input(notice.command), notice.samples)

    def _settle(self, machine: str, pending: Pending) -> None:
        ring = self._floor.ring(pending.gauge)
        samples = ring.since(None, pending.take_ns).samples
        found = look(pending, samples, self._clock.mono_ns())
        if found is None:
            return
        del self._pending[machine]
        if isinstance(found, Expired):
            ack = _refused(pending.command, found.say)
        else:
            ack = self._settled(machine, pending, found, samples)
        for reply in pending.replies:
            reply.set_result(ack)

    def _settled(
        self, machine: str, pending: Pending, window: Window, samples: Sequence[Sample]
    ) -> Ack:
        if pending.want.whole:
            samples = self._history(self._job(machine)).samples
        else:
            samples = [s for s in samples if s.run == window.run and s.n >= window.first_n]
        given = Input(pending.command, first_n=window.first_n, last_n=window.last_n)
        upto = [s for s in samples if s.run != window.run or s.n <= window.last_n]
        return self._decide(given, upto)

    def _decide(self, given: Input, samples: Sequence[Sample] = ()) -> Ack:
        setup = None
        if given.command.kind == "open":
            setup = self._floor.setup(given.command.machine)
        return self._book.write(replace(given, samples=tuple(samples), setup=setup))

    def gauge_status(self, status: GaugeStatus) -> None:
        """Show how a gauge is doing; record it where an audit depends on it."""
        self._book.status(status)
        bound = self._book.shop.bound(status.gauge)
        command = self._gauges.change(status, bound.machine if bound else None)
        if command is not None:
            self._decide(Input(command))

    def close(self, why: str) -> None:
        """Answer whoever still waits and close the ledger."""
        for pending in self._pending.values():
            for reply in pending.replies:
                reply.set_result(_refused(pending.command, why))
        self._pending.clear()
        self._book.close()


def _refused(command: Command, why: str) -> Ack:
    return Ack(command.id, False, (), "refused", why)
