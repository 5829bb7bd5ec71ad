"""What the service notices by itself: a zeroed gauge, a gauge that went or came back."""

import uuid
from collections.abc import Sequence
from dataclasses import dataclass

from daq.audit.decide.table import HANDLERS
from daq.audit.state import Job
from daq.gauges.ring import Ring
from daq.metrology.jump import zero_noticed
from daq.service.clock import Clock
from daq.words import Command, GaugeStatus, Sample

LOOK_BACK_NS = 2_000_000_000
ZERO_STEPS = HANDLERS["zeroed"][0].steps


@dataclass(frozen=True)
class Notice:
    """Something the service says to itself, with the samples that show it."""

    command: Command
    samples: Sequence[Sample]


class ZeroWatch:
    """Looks at the last two seconds of a bound gauge for a zero nobody has been told of yet."""

    def __init__(self, clock: Clock) -> None:
        """Nothing noticed so far."""
        self._clock = clock
        self._told_ns: dict[str, int] = {}

    def look(self, machine: str, job: Job, ring: Ring) -> Notice | None:
        """A notice of a zero since the last one, or None."""
        if job.step not in ZERO_STEPS:
            return None
        told = max(self._told_ns.get(machine, 0), self._begun(job))
        since = max(self._clock.mono_ns() - LOOK_BACK_NS, told)
        samples = ring.since(None, since).samples
        jump = zero_noticed(samples, job.setup.gauge.resolution)
        if jump is None:
            return None
        landed = next(s for s in samples if s.n == jump.n and s.run == samples[-1].run)
        self._told_ns[machine] = landed.mono_ns
        command = Command(str(uuid.uuid4()), machine, "zeroed", {}, actor="service")
        return Notice(command, samples)

    def _begun(self, job: Job) -> int:
        """Since when the audit stands where it does; a zero before that changed nothing."""
        now = self._clock.stamp()
        return job.since.mono_ns if job.since.boot == now.boot else 0


class GaugeWatch:
    """Turns a reader's statuses into notices: one when a gauge is lost, one when it is back."""

    def __init__(self) -> None:
        """No gauge has been heard of."""
        self._well: dict[str, bool] = {}

    def change(self, status: GaugeStatus, machine: str | None) -> Command | None:
        """The notice for an audit that depends on this gauge, or None when nothing changed."""
        well = status.code == "ok"
        before = self._well.get(status.gauge)
        self._well[status.gauge] = well
        if machine is None or before is None or before == well:
            return None
        notice_id = str(uuid.uuid4())
        if well:
            return Command(notice_id, machine, "gauge-back", {"run": status.run}, actor="service")
        fault = {"code": status.code, "say": status.say}
        return Command(notice_id, machine, "gauge-fault", fault, actor="service")
