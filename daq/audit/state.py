"""Where every machine stands: the result of folding the ledger."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from daq.audit.events import GaugeChecked, OffScale, Signed, SweepDone, Zeroed
from daq.audit.history import Checked, History
from daq.audit.parts import (
    Ahead,
    Anew,
    Answers,
    AxisResult,
    AxisShift,
    Next,
    Part,
    Question,
    Step,
    StopAt,
    Turned,
    Unsafe,
    Whole,
)
from daq.audit.rounds import Chosen, Round
from daq.audit.setup import AuditSetup, Reason
from daq.squaring.adjuster import Shim
from daq.squaring.learned import Learned
from daq.squaring.story import Story
from daq.words import Axis, Position, Reading, Said, Stamp, Unit

Age = Literal[
    "as-found", "before-move", "before-tightening", "pair-check", "estimate", "old-zero", "was"
]
"""The word for a number that no full sweep of the head as it stands has shown."""


@dataclass(frozen=True)
class Job:
    """One open audit.

    `known`: the latest value at each position, pushed-in mm in today's zero, and `shown` what
    the gauge's face showed there. `ahead`: what the step shows that was worked out when it was
    reached. `taken`: the readings of the sweep or pair check now under way, and `seconds`
    those of the other gauge of a two-gauge bar. `results`: the latest result of each axis, and
    `whole` of both as one. `base`: the parked reading while one stands. `lost_face_mm`: the
    value just before a zero, while its spot has not been read again. `resume`: where to go on
    once the free reading was taken again. `disturbed`: bolts were loosened since the latest
    sweep; `loosened`: at any time. `finishing`: no more moves are wanted. `slack_mm`: how far
    the other axis moved since an axis was last read, as a difference on the sweep; it widens
    what counts as agreement. `since`: the stamp of the last step, where the next evidence
    begins. `anew`: the machine is being prepared in mid-audit. `arm_in`: the arm with the
    gauge is in the spindle. `lifted`: the contact hangs in the air, as far as can be known: to
    be brought down before a reading.

    `story`: what the head's answer is learned from; the latest sweep is its entries
    `swept_from` to `swept_to`. `learned`: what it starts from, and after `ResponseUpdated`
    what came out, and `head` what of it is shown; `ram_moved`: what was learned before is
    void; `reversed`: the axes that answered the other way round, and `unsure` those that a
    stop-at left no nearer: of their pivots nothing is taken for known beforehand. `visits`:
    how far spots read off that were come back to untouched. `part_mm`: what the parked gauge
    reads beyond the lean; `parts`: what of it is known from something turned half round.
    `final_from`: how many sweeps came before the last disturbance; `turned`: what was turned
    half round for the sweep under way. `shifts`: what each tightening did; `reread_mm`: what
    the latest seemed to do, while its pair is read once more, and `doubted_mm`: what one of
    each axis seemed to do that was not believed. `cracked_face_mm`: what the gauge reads since
    the bolts were cracked for the move. `shims`: what was asked of an axis that is not inside
    yet. `asked`: where the turn stood when it was last asked whether it had ended.
    `bolt_steps`: steps of tightening done; `tight_face_mm`: what the gauge read before the
    first of them, and `bolt_face_mm` after the latest, `bolt`. `bolt_over_mm`: how far the
    latest bolt moved that number since before it was touched, if that is more than one may.

    `check`: what is checked, None for the head against its table; `rounds`: what its rounds of
    the stations came to.

    `read`: how many readings were taken, and in how many of them, `flickered`, a digit changed.
    `zeroed`: the gauge was zeroed since the audit was opened, so that some spot reads zero.
    `zero_asked`: what follows if it was zeroed now, while that is asked. `noticed`: what the
    service noticed by itself since the last step, with the audit before it, newest last: the
    person may deny it.

    `own`: what a stage keeps for itself, by its key.

    `ages`, `axis_ages`: the age of each number in `shown` and of each axis's result, where it
    is not of now; `stirred`: the axes that were loosened, turned or tightened since they were
    last read.
    """

    id: str
    short: str
    reason: Reason
    setup: AuditSetup
    step: Step
    since: Stamp
    check: Chosen | None = None
    rounds: tuple[Round, ...] = ()
    ahead: Ahead | None = None
    unit: Unit | None = None
    free_pushed_mm: float | None = None
    spread_mm: float = 0.0
    lifted: bool = True
    message: Said | None = None
    known: Mapping[Position, float] = field(default_factory=dict)
    shown: Mapping[Position, float] = field(default_factory=dict)
    taken: tuple[Reading, ...] = ()
    seconds: tuple[Reading, ...] = ()
    results: Mapping[Axis, AxisResult] = field(default_factory=dict)
    whole: Whole | None = None
    sweeps: tuple[SweepDone, ...] = ()
    again_why: str | Said = ""
    axis: Axis | None = None
    loose: frozenset[Axis] = frozenset()
    base: Reading | None = None
    stop: StopAt | None = None
    lost_face_mm: float | None = None
    question: Question | None = None
    resume: Next | None = None
    anew: Anew | None = None
    arm_in: bool = False
    disturbed: bool = False
    loosened: bool = False
    finishing: bool = False
    moves: int = 0
    slack_mm: Mapping[Axis, float] = field(default_factory=dict)
    before_tightening: Mapping[Axis, float] = field(default_factory=dict)
    story: Story = ()
    swept_from: int = 0
    swept_to: int = 0
    learned: Learned | None = None
    head: Mapping[Axis, Answers] = field(default_factory=dict)
    ram_moved: bool = False
    reversed: frozenset[Axis] = frozenset()
    unsure: frozenset[Axis] = frozenset()
    visits: tuple[float, ...] = ()
    part_mm: Mapping[Axis, float] = field(default_factory=dict)
    parts: tuple[Part, ...] = ()
    final_from: int = 0
    turned: Turned = ""
    shifts: tuple[AxisShift, ...] = ()
    reread_mm: float | None = None
    doubted_mm: Mapping[Axis, float] = field(default_factory=dict)
    bolt: str = ""
    bolt_steps: int = 0
    cracked_face_mm: float | None = None
    asked: Reading | None = None
    shims: tuple[tuple[Axis, Shim], ...] = ()
    tight_face_mm: float | None = None
    bolt_face_mm: float | None = None
    bolt_over_mm: float | None = None
    off_scale: tuple[OffScale, ...] = ()
    read: int = 0
    flickered: int = 0
    zeroed: bool = False
    zero_asked: Zeroed | None = None
    noticed: tuple[tuple[tuple[int, ...], "Job"], ...] = ()
    own: Mapping[str, object] = field(default_factory=dict)
    ages: Mapping[Position, Age] = field(default_factory=dict)
    axis_ages: Mapping[Axis, Age] = field(default_factory=dict)
    stirred: frozenset[Axis] = frozenset()
    trail: tuple[tuple[tuple[int, ...], "Job"], ...] = ()

    @property
    def round(self) -> Round | None:
        """The latest usable round of a check that is none of the head."""
        usable = [each for each in self.rounds if each.usable]
        return usable[-1] if usable else None

    def is_told(self, code: str) -> bool:
        """Whether the screens say this now."""
        return self.message is not None and self.message.code == code

    @property
    def founds(self) -> tuple[SweepDone, ...]:
        """Every usable full sweep taken before anything was loosened."""
        return tuple(s for s in self.sweeps if s.usable and s.purpose == "as-found")

    @property
    def as_found(self) -> SweepDone | None:
        """The first of them; sweeps with the ring or the arm turned complete it."""
        return _completed(self.founds)

    @property
    def latest(self) -> SweepDone | None:
        """The latest usable sweep."""
        usable = [s for s in self.sweeps if s.usable]
        return usable[-1] if usable else None

    @property
    def proofs(self) -> tuple[SweepDone, ...]:
        """Every usable full sweep since anything was last loosened or tightened."""
        return tuple(s for s in self.sweeps[self.final_from :] if s.usable)

    @property
    def as_left(self) -> SweepDone | None:
        """The first of the proofs; sweeps with the ring or the arm turned complete it."""
        return _completed(self.proofs)

    @property
    def purpose(self) -> Literal["as-found", "final"]:
        """What a sweep taken now would be."""
        return "final" if self.loosened else "as-found"


def _completed(sweeps: tuple[SweepDone, ...]) -> SweepDone | None:
    """The first sweep, or the last of those with something turned directly after it."""
    first = next(iter(sweeps), None)
    for later in sweeps[1:]:
        if not later.turned:
            break
        first = later
    return first


@dataclass(frozen=True)
class Closed:
    """The last audit that was closed on a machine."""

    id: str
    short: str
    reason: Reason
    unit: Unit
    seq: int
    signed: Signed | None
    setup: AuditSetup
    check: Chosen | None = None


@dataclass(frozen=True)
class MachineState:
    """One machine: its last event, its open audit, the audit before that, and what stays.

    `learned`: how its head answers. `visits`: for each gauge, how far spots read off that
    were come back to untouched, mm. `history`: its signed audits in a few numbers. `checked`:
    the latest signature of each other check, by its kind.
    `unsafe`: what an abandoned audit left, until somebody says that it is put right.
    """

    machine: str
    seq: int = 0
    job: Job | None = None
    last: Closed | None = None
    learned: Learned | None = None
    visits: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    history: History = field(default_factory=History)
    checked: Mapping[str, Checked] = field(default_factory=dict)
    unsafe: Unsafe | None = None

    def started(self, setup: AuditSetup) -> AuditSetup:
        """What an audit opened now embeds: the files, and what is known of this head.

        What was learned is void when the file says something else of the head since.
        """
        known = self.learned
        if known is not None and not known.holds_for(setup.machine.prior()):
            known = None
        visits = self.visits.get(setup.gauge.key, ())
        return replace(
            setup,
            learned=known.carried() if known else None,
            visits=visits,
            previous=self.history.latest[-1].seq if self.history.latest else None,
        )


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
