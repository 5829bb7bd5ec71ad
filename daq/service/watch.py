"""What the service notices by itself: a zeroed gauge, a gauge that went or came back."""

import uuid
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from daq.audit.anytime.gauge import condition
from daq.audit.stages import STAGES
from daq.audit.state import Job
from daq.gauges.ring import Ring
from daq.metrology.jump import zero_noticed
from daq.metrology.stuck import STILL_NS, STILL_SAMPLES
from daq.service.clock import Clock
from daq.words import Command, GaugeStatus, Sample

LOOK_BACK_NS = 2_000_000_000
STILL_BACK_NS = STILL_NS + LOOK_BACK_NS // 2
"""So far back what stands still is told."""
SLOW_BACK_NS = 60_000_000_000
"""So far back for a gauge that does not send enough in that time."""
REACH = 4
"""Samples before a step that a jump right after it is measured from; more would find old jumps."""


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
        if not STAGES[job.step].heeds_zero:
            return None
        told = max(self._told_ns.get(machine, 0), self._begun(job))
        since = max(self._clock.mono_ns() - LOOK_BACK_NS, told)
        samples = self._samples(ring, since)
        if zero_noticed(samples, job.setup.gauge.resolution) is None:
            return None
        self._told_ns[machine] = samples[-1].mono_ns
        command = Command(str(uuid.uuid4()), machine, "zeroed", {}, actor="service")
        return Notice(command, samples)

    def _samples(self, ring: Ring, since_ns: int) -> Sequence[Sample]:
        """The samples since then, and the few before them that a jump is measured from.

        Without those, a zero pressed right after a reading would pass unnoticed.
        """
        samples = ring.since(None, since_ns - LOOK_BACK_NS).samples
        first = bisect_left(samples, since_ns, key=lambda s: s.mono_ns)
        return samples[max(0, first - REACH) :]

    def _begun(self, job: Job) -> int:
        """Since when the audit stands where it does; a zero before that changed nothing."""
        now = self._clock.stamp()
        return job.since.mono_ns if job.since.boot == now.boot else 0


class ConditionWatch:
    """Looks for what the person must know of a bound gauge, and says each thing once."""

    def __init__(self, clock: Clock) -> None:
        """Nothing noticed so far."""
        self._clock = clock

    def look(self, machine: str, job: Job, ring: Ring) -> Notice | None:
        """A notice of a condition that the screen does not say yet, or None."""
        now = self._clock.stamp()
        begun = job.since.mono_ns if job.since.boot == now.boot else 0
        samples = ring.since(None, max(now.mono_ns - STILL_BACK_NS, begun)).samples
        if len(samples) < STILL_SAMPLES:
            samples = ring.since(None, max(now.mono_ns - SLOW_BACK_NS, begun)).samples
        code = condition(job, samples)
        # A unit that differs from the audit's is new, even right after another change of it.
        if code is None or (job.is_told(code) and code != "unit-changed"):
            return None
        notice_id = str(uuid.uuid4())
        command = Command(notice_id, machine, "gauge-noted", {"code": code}, actor="service")
        return Notice(command, samples)


class GaugeWatch:
    """Turns a reader's statuses into notices: one when a gauge is lost, one when it is back."""

    def __init__(self) -> None:
        """No gauge has been heard of."""
        self._well: dict[str, bool] = {}

    def change(self, status: GaugeStatus, machine: str | None) -> Command | None:
        """The notice for an audit that depends on this gauge, or None when nothing changed."""
        well = status.code == "ok"
        before = self._well.get(status.gauge, True)
        self._well[status.gauge] = well
        if machine is None or before == well:
            return None
        notice_id = str(uuid.uuid4())
        if well:
            back = {"run": status.run, "gauge": status.gauge}
            return Command(notice_id, machine, "gauge-back", back, actor="service")
        fault = {"code": status.code}
        return Command(notice_id, machine, "gauge-fault", fault, actor="service")
