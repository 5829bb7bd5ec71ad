"""Takes under way: from the press of a button to a settled window, or to saying why not."""

from collections.abc import Iterator, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field, replace

from daq.audit.input import Input, Need
from daq.audit.state import Job
from daq.gauges.ring import Slice
from daq.metrology.presses import pressed
from daq.metrology.settle import SettleRules, Unsettled, Window, settle
from daq.service.clock import Clock
from daq.service.shopfloor import Shopfloor
from daq.words import Ack, Command, Said, Sample, said

HOLD_STILL = said("reading-under-way")
"""Why a press during a take is refused."""


@dataclass(frozen=True)
class Pending:
    """One command waiting for its gauge to settle, and everyone who waits for the answer.

    `presses`: how often the key of a gauge that sends on its key must be pressed for one
    reading; None for a gauge that sends without it.
    """

    command: Command
    need: Need
    gauge: str
    take_ns: int
    rules: SettleRules
    presses: int | None = None
    replies: list["Future[Ack]"] = field(default_factory=list)

    def answer(self, ack: Ack) -> None:
        """Answer everyone who waits."""
        for reply in self.replies:
            reply.set_result(ack)


@dataclass(frozen=True)
class Expired:
    """The gauge did not settle in time."""

    why: Said


Given = tuple[Input, bool]
"""An input, and whether samples that belong to its evidence are no longer there."""


class Takes:
    """The takes under way, one a machine at most, and the samples that a command needs."""

    def __init__(self, floor: Shopfloor, clock: Clock) -> None:
        """None is under way; samples are kept from now on."""
        self._floor = floor
        self._clock = clock
        self._began_ns = clock.mono_ns()
        self._pending: dict[str, Pending] = {}

    def __bool__(self) -> bool:
        """Whether one is under way."""
        return bool(self._pending)

    def on(self, machine: str) -> Pending | None:
        """The one under way on a machine."""
        return self._pending.get(machine)

    def begin(self, pending: Pending) -> None:
        """Wait from now on for a gauge to settle."""
        self._pending[pending.command.machine] = pending

    def end(self, machine: str) -> Pending | None:
        """Wait no longer on this machine; gives whom to answer."""
        return self._pending.pop(machine, None)

    def __iter__(self) -> Iterator[str]:
        """The machines on which one is under way now."""
        return iter(tuple(self._pending))

    def since(self, job: Job, command: Command, arrived_ns: int, need: Need) -> Given:
        """The input of a command that wants all since the audit's last step, whether settled."""
        kept = self.history(job)
        since_ns = self._since_ns(job)
        passed = self._floor.passed(job.setup.machine_key, since_ns) if need.passed else ()
        return Input(command, arrived_ns, kept.samples, passed=passed), kept.missed

    def _since_ns(self, job: Job) -> int:
        same_boot = job.since.boot == self._clock.stamp().boot
        return job.since.mono_ns if same_boot else 0

    def history(self, job: Job) -> Slice:
        """Every sample since the audit's last step, as far as this service has kept them."""
        since_ns = self._since_ns(job)
        kept = self._floor.ring(job.setup.gauge.key).since(None, since_ns)
        return replace(kept, missed=kept.missed or since_ns < self._began_ns)

    def look(self, pending: Pending, job: Job) -> Given | Expired | None:
        """What a take has become: its input, why there is none, or None while it may still come."""
        taken = self._floor.ring(pending.gauge).since(None, pending.take_ns)
        found = look(pending, taken.samples, self._clock.mono_ns())
        if not isinstance(found, Window):
            return found
        second = self._second(pending, job)
        if second is None:
            return None
        if isinstance(second, Expired):
            return Expired(said("of-second-gauge", why=second.why))
        whole = pending.need.whole
        if whole:
            taken = self.history(job)
        ends = (found.run, found.last_n)
        last = next(i for i, s in enumerate(taken.samples) if (s.run, s.n) == ends)
        samples = taken.samples[: last + 1]
        given = Input(
            pending.command,
            pending.take_ns,
            (*second, *(samples if whole else samples[-found.count :])),
            found.first_n,
            found.last_n,
            second_n=(second[0].n, second[-1].n) if second else None,
        )
        return given, taken.missed and whole

    def _second(self, pending: Pending, job: Job) -> Sequence[Sample] | Expired | None:
        """The second gauge's settled samples, none when none are wanted, or None: wait."""
        gauge = job.setup.second_gauge
        if gauge is None or pending.need.whole:
            return ()
        other = replace(pending, gauge=gauge.key, presses=self._floor.presses.get(gauge.key))
        samples = self._floor.ring(gauge.key).since(None, pending.take_ns).samples
        found = look(other, samples, self._clock.mono_ns())
        if not isinstance(found, Window):
            return found
        wanted = range(found.first_n, found.last_n + 1)
        return [s for s in samples if s.run == found.run and s.n in wanted]


def look(pending: Pending, samples: Sequence[Sample], now_ns: int) -> Window | Expired | None:
    """The settled window of a pending take, why it never came, or None while it may still come."""
    found = _found(pending, samples, now_ns)
    if isinstance(found, Window):
        return found
    if found.expired:
        by = "touch" if pending.presses is None else "key"
        return Expired(said("no-reading", why=found.why, by=by))
    return None


def _found(pending: Pending, samples: Sequence[Sample], now_ns: int) -> Window | Unsettled:
    spread_mm = pending.need.spread_mm
    if pending.presses is None:
        return settle(samples, pending.take_ns, now_ns, pending.rules, spread_mm)
    return pressed(samples, pending.take_ns, now_ns, pending.rules, spread_mm, pending.presses)
