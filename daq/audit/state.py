"""Where every machine stands: the result of folding the ledger."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from daq.audit.events import GaugeChecked, Signed, SweepDone
from daq.audit.parts import AxisResult, Next, Question, Step, StopAt
from daq.audit.setup import AuditSetup, Reason
from daq.words import Axis, Position, Reading, Stamp


@dataclass(frozen=True)
class Job:
    """One open audit.

    `known`: the latest value at each position, pushed-in mm in today's zero.
    `taken`: the readings of the sweep or pair check now under way. `results`: the
    latest result of each axis. `base`: the parked reading while one stands.
    `lost_face_mm`: the value just before a zero, while its spot has not been read again.
    `resume`: where to go on once the free reading was taken again. `disturbed`: bolts
    were loosened since the latest sweep; `loosened`: at any time. `finishing`: no more
    moves are wanted. `slack_mm`: how far the other axis moved since an axis was last read, as a
    difference on the sweep; it widens what counts as agreement.
    `since`: the stamp of the last step, where the next evidence begins.
    """

    id: str
    short: str
    reason: Reason
    setup: AuditSetup
    step: Step
    since: Stamp
    unit: Literal["mm", "in"] | None = None
    free_pushed_mm: float | None = None
    spread_mm: float = 0.0
    message: str = ""
    message_code: str = ""
    known: Mapping[Position, float] = field(default_factory=dict)
    shown: Mapping[Position, float] = field(default_factory=dict)
    taken: tuple[Reading, ...] = ()
    results: Mapping[Axis, AxisResult] = field(default_factory=dict)
    sweeps: tuple[SweepDone, ...] = ()
    again_why: str = ""
    axis: Axis | None = None
    loose: frozenset[Axis] = frozenset()
    base: Reading | None = None
    stop: StopAt | None = None
    lost_face_mm: float | None = None
    question: Question | None = None
    resume: Next | None = None
    disturbed: bool = False
    loosened: bool = False
    finishing: bool = False
    moves: int = 0
    slack_mm: Mapping[Axis, float] = field(default_factory=dict)
    before_tightening: Mapping[Axis, float] = field(default_factory=dict)
    trail: tuple[tuple[tuple[int, ...], "Job"], ...] = ()

    @property
    def as_found(self) -> SweepDone | None:
        """The last usable sweep taken before anything was loosened."""
        usable = [s for s in self.sweeps if s.usable and s.purpose == "as-found"]
        return usable[-1] if usable else None

    @property
    def latest(self) -> SweepDone | None:
        """The latest usable sweep: the as-left, once nothing moved after it."""
        usable = [s for s in self.sweeps if s.usable]
        return usable[-1] if usable else None

    @property
    def purpose(self) -> Literal["as-found", "final"]:
        """What a sweep taken now would be."""
        return "final" if self.loosened else "as-found"


@dataclass(frozen=True)
class Closed:
    """The last audit that was closed on a machine."""

    id: str
    short: str
    reason: Reason
    unit: Literal["mm", "in"]
    seq: int
    signed: Signed | None
    setup: AuditSetup


@dataclass(frozen=True)
class MachineState:
    """One machine: its last event, its open audit, and the audit before that."""

    machine: str
    seq: int = 0
    job: Job | None = None
    last: Closed | None = None


@dataclass(frozen=True)
class Shop:
    """Every machine of the shop, by key, and the latest check of every gauge."""

    machines: Mapping[str, MachineState] = field(default_factory=dict)
    gauges: Mapping[str, GaugeChecked] = field(default_factory=dict)

    def machine(self, key: str) -> MachineState:
        """A machine's state; one that has no events yet starts empty."""
        return self.machines.get(key) or MachineState(key)

    def bound(self, gauge: str) -> MachineState | None:
        """The machine whose open audit has this gauge."""
        for state in self.machines.values():
            job = state.job
            if job is not None and gauge in [g.key for g in job.setup.gauges]:
                return state
        return None
