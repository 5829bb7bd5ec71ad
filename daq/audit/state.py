"""Where every machine stands: the result of folding the ledger."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from daq.audit.changed import changed
from daq.audit.closing_events import Handed
from daq.audit.events import ClockStepped, GaugeChecked, Signed, Zeroed
from daq.audit.held.circle import Axes, Circle
from daq.audit.held.gauge import GaugeSeen
from daq.audit.held.head import HeadSeen
from daq.audit.held.move import Asked, MoveBase, Moves
from daq.audit.held.sweeps import ReadSoFar, Sweeps
from daq.audit.held.tightening import Bolts, Tightening
from daq.audit.history import AddedSince, Checked, History, LastGood, Swept
from daq.audit.parts import RESTED, Ahead, Anew, Next, Step, StopAt, Unsafe
from daq.audit.reasons import Reason
from daq.audit.rounds import Chosen, Round
from daq.audit.setup import AuditSetup, MachineSetup
from daq.audit.stated import Reliability, Stated
from daq.checks.sweep.by_mark import ByMark
from daq.squaring.learned import Learned
from daq.squaring.pace import StepTimes
from daq.words import Axis, Reading, Said, Stamp, Unit


@dataclass(frozen=True)
class Meanwhile:
    """What was recorded beside an open audit and bears on its verdict.

    `checks`: the latest check of each of its gauges, by key. `step`: the latest of the clock
    since the audit was opened, None when it was not set. `rings`: what is known of the shop's.
    `people`, `good`: as of the machine, the latter of what this audit checks.
    """

    checks: Mapping[str, GaugeChecked] = field(default_factory=dict)
    step: ClockStepped | None = None
    rings: Mapping[str, ByMark] = field(default_factory=dict)
    people: tuple[str, ...] = ()
    good: LastGood | None = None


@dataclass(frozen=True)
class Job:
    """One open audit.

    `ahead`: what the step shows that was worked out when it was reached; `left_out`: what was not
    done on the way to it, and why. `parked`: while the gauge
    is, for a move. `asked`: while a question is. `resume`: where to go on once the free reading was
    taken again. `since`: the stamp of the last step, where the next evidence begins. `anew`: the
    machine is being prepared in mid-audit. `arm_in`: the arm with the gauge is in the spindle.

    `check`: what is checked, None for the head against its table; `rounds`: what its rounds of the
    stations came to.

    `told`: the axes to be cracked, of which nobody has said since that they are loose, or tight.

    `noticed`: what the service noticed by itself since the last step, with the audit before it,
    newest last: the person may deny it.

    `own`: what a stage keeps for itself, by its key. `opened_at`: the row it was opened in;
    `meanwhile`: what the shop's own rows say since, as `Shop.machine` hands it on. `handed`:
    through whose hands it went.
    """

    id: str
    short: str
    reason: Reason
    setup: AuditSetup
    step: Step
    since: Stamp
    gauge: GaugeSeen
    check: Chosen | None = None
    rounds: tuple[Round, ...] = ()
    ahead: Ahead | None = None
    message: Said | None = None
    left_out: Said | None = None
    circle: Circle = field(default_factory=Circle)
    axes: Axes = field(default_factory=Axes)
    reads: ReadSoFar = field(default_factory=ReadSoFar)
    sweeps: Sweeps = field(default_factory=Sweeps)
    axis: Axis | None = None
    loose: frozenset[Axis] = frozenset()
    told: frozenset[Axis] = frozenset()
    parked: MoveBase | None = None
    asked: Asked | None = None
    resume: Next | None = None
    anew: Anew | None = None
    arm_in: bool = False
    moves: Moves = field(default_factory=Moves)
    head: HeadSeen = field(default_factory=HeadSeen)
    bolts: Bolts = field(default_factory=Bolts)
    tightening: Tightening = field(default_factory=Tightening)
    noticed: tuple[tuple[tuple[int, ...], "Job"], ...] = ()
    own: Mapping[str, object] = field(default_factory=dict)
    trail: tuple[tuple[tuple[int, ...], "Job"], ...] = ()
    opened_at: int = 0
    meanwhile: Meanwhile = Meanwhile()
    handed: tuple[Handed, ...] = ()

    @property
    def base(self) -> Reading | None:
        """The parked reading, while one stands."""
        return self.parked.base if self.parked is not None else None

    @property
    def stop(self) -> StopAt | None:
        """The stop-at, while one stands."""
        return self.parked.stop if self.parked is not None else None

    @property
    def zero_asked(self) -> Zeroed | None:
        """What follows if the gauge was zeroed now, while that is asked."""
        return self.asked.zeroed if self.asked is not None else None

    @property
    def has_gauge(self) -> bool:
        """Whether the gauge is this audit's; one that rests with the arm out has let it go."""
        return self.arm_in or self.step not in RESTED

    @property
    def round(self) -> Round | None:
        """The latest usable round of a check that is none of the head."""
        usable = [each for each in self.rounds if each.usable]
        return usable[-1] if usable else None

    def is_told(self, code: str) -> bool:
        """Whether the screens say this now."""
        return self.message is not None and self.message.code == code


@dataclass(frozen=True)
class Closed:
    """The last audit that was closed on a machine, and what was added to it since."""

    id: str
    short: str
    reason: Reason
    unit: Unit
    seq: int
    signed: Signed | None
    setup: AuditSetup
    check: Chosen | None = None
    later: AddedSince = AddedSince()  # noqa: RUF009 - frozen


@dataclass(frozen=True)
class MachineState:
    """One machine: its last event, its open audit, the audit before that, and what stays.

    `learned`: how its head answers. `visits`: for each gauge, how far spots read off that
    were come back to untouched, mm. `history`: its signed audits in a few numbers. `checked`:
    the latest signature of each other check, by its kind. `swept`: the head's last signed sweep.
    `unsafe`: what an abandoned audit left, until somebody says that it is put right. `stated`:
    what the last signature stated, not yet held against an as-found; `reliability`: what all those
    came to that were. `rise`: what is known of how the spindle rises once a turn. `people`: the ids
    of those who signed here or had an audit in hand, the latest first. `good`: the latest audit
    that ended in "conforms", by the kind of check, "" for the head; practice left out. `pace`: how
    long the steps of squaring took; `returns`: for each gauge how far it walked within a sweep, mm.
    """

    machine: str
    seq: int = 0
    job: Job | None = None
    last: Closed | None = None
    learned: Learned | None = None
    visits: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    history: History = field(default_factory=History)
    checked: Mapping[str, Checked] = field(default_factory=dict)
    swept: Swept | None = None
    unsafe: Unsafe | None = None
    stated: Stated | None = None
    reliability: Reliability = field(default_factory=Reliability)
    rise: ByMark | None = None
    people: tuple[str, ...] = ()
    good: Mapping[str, LastGood] = field(default_factory=dict)
    pace: StepTimes = field(default_factory=StepTimes)
    returns: Mapping[str, tuple[float, ...]] = field(default_factory=dict)

    def knows(self, machine: MachineSetup) -> Learned | None:
        """What was learned of the head, unless the machine's file says something else since."""
        known = self.learned
        return known if known is not None and known.holds_for(machine.prior()) else None

    def started(self, setup: AuditSetup) -> AuditSetup:
        """What an audit opened now embeds: the files, and what is known of this head.

        What was learned is void when the file says something else of the head since; of the
        spindle, where the ram that holds it is swung otherwise.
        """
        known = self.knows(setup.machine)
        swung = self.last is not None and self.last.setup.machine.ram_angle
        visits = self.visits.get(setup.gauge.key, ())
        return changed(
            setup,
            learned=known.carried() if known else None,
            visits=visits,
            previous=self.history.latest[-1].seq if self.history.latest else None,
            stated=self.stated,
            going=self.reliability.going,
            rise=self.rise if swung == setup.machine.ram_angle else None,
            pace=self.pace,
            returns=self.returns.get(setup.gauge.key, ()),
        )


@dataclass(frozen=True)
class Shop:
    """Every machine of the shop, by key, the latest check of every gauge, and its rings' wedges.

    `latest_us`: up to when rows are dated that came before the clock was set back, UTC.
    `step`: the latest of the clock, `stepped_at` its row. `attested`: the last row that the
    shop's key signed.
    """

    machines: Mapping[str, MachineState] = field(default_factory=dict)
    gauges: Mapping[str, GaugeChecked] = field(default_factory=dict)
    rings: Mapping[str, ByMark] = field(default_factory=dict)
    latest_us: int = 0
    step: ClockStepped | None = None
    stepped_at: int = 0
    attested: int = 0

    def machine(self, key: str) -> MachineState:
        """A machine's state; one that has no events yet starts empty.

        Its open audit knows what the shop's own rows say that belong to no audit.
        """
        state = self.machines.get(key) or MachineState(key)
        if state.job is None:
            return state
        job = state.job
        keys = [gauge.key for gauge in job.setup.gauges]
        checks = {key: self.gauges[key] for key in keys if key in self.gauges}
        step = self.step if self.stepped_at > job.opened_at else None
        good = state.good.get(job.check.kind if job.check is not None else "")
        known = Meanwhile(checks, step, self.rings, state.people, good)
        return changed(state, job=changed(job, meanwhile=known))

    def bound(self, gauge: str) -> MachineState | None:
        """The machine whose open audit has this gauge."""
        for state in self.machines.values():
            job = state.job
            if job is None or not job.has_gauge:
                continue
            if gauge in [g.key for g in job.setup.gauges]:
                return state
        return None
