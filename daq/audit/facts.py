"""What follows directly from an open audit's state; decisions and views share it."""

from collections.abc import Mapping, Sequence
from typing import Final, Literal, TypeVar

import numpy as np

from daq.audit.events import SweepDone
from daq.audit.gauge_setup import GaugeSetup
from daq.audit.move_events import Strange
from daq.audit.parts import AxisResult, Next, Point, ReadAt, StopAt, Whole
from daq.audit.reasons import REASONS
from daq.audit.rounds import Tap
from daq.audit.state import Job
from daq.metrology.rule import Judged, judge, judge_vector
from daq.squaring.story import Seen
from daq.units import MM_PER
from daq.words import AXES, Axis, Both, Position, Shown, Unit, Word

END_COUNTS: Final = 5
"""This near the end of its travel a contact no longer follows."""


T = TypeVar("T")


def certain(value: T | None) -> T:
    """What is never missing at the steps that ask for it. Raises LookupError: it is."""
    if value is None:
        raise LookupError("this step is reached with nothing of what it works on")
    return value


def axis_of(job: Job) -> Axis:
    """The axis being worked on."""
    return certain(job.axis)


def shown_face(job: Job, face_mm: float, *, plus: bool = False) -> Shown:
    """A face value to be said as the gauge shows it: its unit, its decimals."""
    return Shown(face_mm, unit_of(job), decimals(job), plus)


def unit_of(job: Job) -> Unit:
    """The unit numbers are shown in: the gauge's own, once it has spoken."""
    return job.gauge.unit


def decimals(job: Job, gauge: GaugeSetup | None = None) -> int:
    """How many decimals the gauge's resolution is worth in the unit it shows.

    `gauge`: another one than the audit's first.
    """
    step = (gauge or job.setup.gauge).resolution / MM_PER[job.gauge.unit]
    return int(np.clip(np.ceil(-np.log10(step) - 1e-9), 0, 6))


def result(job: Job, axis: Axis, d_mm: float, u_mm: float, dof: float | None = None) -> AxisResult:
    """One axis judged: its difference on this sweep, less the wanted lean, by the shop's rule.

    `u_mm` is the difference's standard uncertainty, `dof` its degrees of freedom.
    """
    machine = job.setup.machine
    error = d_mm - machine.axis(axis).wanted_lean * machine.diameter
    limits = machine.limits(axis)
    judged = judge(error, u_mm, dof, limits, machine.verdict)
    low, high = limits.low_mm or 0.0, limits.high_mm or 0.0
    return AxisResult(
        d_mm=d_mm,
        error_mm=error,
        limit_mm=high if error > 0.0 else -low,
        word=judged.word,
        u_mm=u_mm,
        dof=dof,
        guard_mm=judged.guard_mm,
        probability=judged.probability,
        good_enough=judged.good_enough,
        low_mm=limits.low_mm,
        high_mm=limits.high_mm,
        basis=judged.basis,
        far=is_far_out(job, axis, error - middle(job, axis)),
        ruling=judged.ruling,
    )


def result_like(job: Job, axis: Axis, d_mm: float, like: AxisResult) -> AxisResult:
    """One axis judged with the uncertainty of an earlier result."""
    return result(job, axis, d_mm, like.u_mm, like.dof)


def as_one(job: Job, results: Mapping[Axis, AxisResult]) -> Whole | None:
    """The lean as one vector as an event carries it, where the shop judges it so; else None."""
    judged = judged_as_one(job, results)
    if judged is None:
        return None
    said_of = judged.good_enough, judged.basis, judged.ruling
    return Whole(judged.word, judged.guard_mm, judged.probability, *said_of)


def judged_as_one(job: Job, results: Mapping[Axis, AxisResult]) -> Judged | None:
    """The lean's way from the middle of both zones, where the shop judges it so; else None."""
    rule = job.setup.machine.verdict
    if rule.together != "vector":
        return None
    many = [axis.dof for axis in results.values() if axis.dof is not None]
    return judge_vector(
        Both.of(lambda axis: results[axis].error_mm - middle(job, axis)),
        Both.of(lambda axis: results[axis].u_mm),
        min(many, default=None),
        narrowest(job),
        rule,
    )


def half_zone(job: Job, axis: Axis) -> float:
    """Half the width of what an axis's difference may be on this sweep, mm."""
    limits = job.setup.machine.limits(axis)
    return 0.5 * ((limits.high_mm or 0.0) - (limits.low_mm or 0.0))


def narrowest(job: Job) -> float:
    """The smaller of both axes' half zones, mm."""
    return min(half_zone(job, axis) for axis in AXES)


def middle(job: Job, axis: Axis) -> float:
    """The middle of what an axis's error may be on this sweep, mm: 0 with equal limits."""
    limits = job.setup.machine.limits(axis)
    return 0.5 * ((limits.high_mm or 0.0) + (limits.low_mm or 0.0))


def is_far_out(job: Job, axis: Axis, off_mm: float) -> bool:
    """Whether so far from the middle of its zone an axis is out by more than its limit again."""
    return abs(off_mm) > 2.0 * half_zone(job, axis)


def points(known: dict[Position, float]) -> tuple[Point, ...]:
    """Values by position, as an event carries them."""
    return tuple(Point(position, value) for position, value in known.items())


def as_seen(swept: Sequence[Point], of: SweepDone) -> tuple[Seen, ...]:
    """A sweep's points as the head's story keeps them: read back, it ends where it began."""
    order = (*swept[1:], *swept[:1]) if of.returned else swept
    return tuple(Seen(p.position, p.pushed_mm, more_mm=of.more_mm) for p in order)


def began_at(job: Job) -> Position:
    """Where the latest sweep began: that spot and its opposite keep their labels."""
    return job.sweeps.done[-1].points[0].position


def differences(known: Mapping[Position, float]) -> Both[float]:
    """Right minus left, front minus back; without a back, front minus the middle, twice."""
    side = known["right"] - known["left"]
    if "back" in known:
        return Both(side, known["front"] - known["back"])
    return Both(side, 2.0 * known["front"] - known["right"] - known["left"])


def first_read(job: Job) -> Next:
    """To the first reading of what is checked: the head, or the stations of another check."""
    return Next("stations") if job.check is not None else Next(job.sweeps.purpose)


def kind_of(job: Job) -> Literal["head", "check"]:
    """Whether the gauge is on an arm in the spindle, as sentences choose their words."""
    return "head" if job.check is None or is_look(job) else "check"


def is_look(job: Job) -> bool:
    """Whether it is only asked if the head stands as its last signed sweep left it."""
    return job.check is not None and job.check.against is not None


def looks_closer(job: Job) -> bool:
    """Whether that was asked, and it may not."""
    return is_look(job) and job.round is not None and job.round.word == "out"


def station_next(job: Job) -> ReadAt:
    """The station to be read next, while a round is under way."""
    return certain(job.ahead).stations[len(job.reads.taken)]


def tap_of(job: Job) -> Tap | None:
    """How what was found askew is tapped in, while it is."""
    return job.round.tap if job.step == "tap" and job.round is not None else None


def unasked(job: Job) -> Job:
    """The audit as it stood before the service asked whether the gauge was zeroed."""
    return job.noticed[-1][1] if job.zero_asked is not None and job.noticed else job


def turned_to(job: Job) -> StopAt | None:
    """The stop-at to turn to; none for a shim, or while a zero is asked about."""
    shims = job.stop is not None and job.stop.shim is not None
    return None if shims or job.zero_asked is not None else job.stop


def began_mm(job: Job, stop: StopAt) -> float:
    """What the face read when the turn began, or reads where nothing was cracked for it yet."""
    cracked_mm = job.parked.cracked_face_mm if job.parked is not None else None
    return stop.base_face_mm if cracked_mm is None else cracked_mm


def disproves(job: Job, axis: Axis, odd: Strange) -> bool:
    """Whether a check that fits nothing disproves what was found of the pivot in this audit."""
    return axis in job.head.backwards or (odd == "astray" and axis in job.head.unsure)


def asks_for_past(job: Job) -> bool:
    """Whether signing asks since when the machine was out, and what became of the work.

    Any sweep of the head as it was found that read out asks it, whichever is signed for.
    """
    if REASONS[job.reason].expected_out or is_look(job):
        return False
    # What is tapped in whenever it is mounted says nothing of earlier work until it is.
    rounds = job.rounds[-1:] if job.check is not None and job.check.ends else job.rounds
    if any(each.usable and each.word == "out" for each in rounds):
        return True
    return bool(job.sweeps.off_scale) or any(word_of(found) == "out" for found in job.sweeps.founds)


def has_sweep_to_compare(job: Job) -> bool:
    """Whether the head still stands as its latest sweep read it, for one with something turned."""
    return job.sweeps.latest is not None and (bool(job.sweeps.proofs) or not job.sweeps.loosened)


def word_of(sweep: SweepDone) -> Word:
    """What a sweep says of the head: the worse of its axes, unless it was judged as one."""
    return sweep.whole.word if sweep.whole else together(*sweep.results.values())


def together(*axes: AxisResult) -> Word:
    """In when both axes are, out when either is, else too close to call."""
    words = {axis.word for axis in axes}
    return "out" if "out" in words else "close" if "close" in words else "in"


def in_air(job: Job, pushed_mm: float) -> bool:
    """Whether the contact cannot be on a surface: pushed in no further than when free."""
    free = job.gauge.free_pushed_mm
    return free is not None and pushed_mm - free < noise_mm(job)


def reads_as_free(job: Job, pushed_mm: float) -> bool:
    """Whether the gauge reads what it reads with its contact off the surface."""
    free = job.gauge.free_pushed_mm
    return free is not None and abs(pushed_mm - free) < noise_mm(job)


def at_the_end(job: Job, pushed_mm: float) -> bool:
    """Whether the contact is pushed in to its stop: the surface may be further."""
    gauge, free = job.setup.gauge, job.gauge.free_pushed_mm
    return free is not None and gauge.travel - (pushed_mm - free) < END_COUNTS * gauge.resolution


def noise_mm(job: Job) -> float:
    """What the number may differ by itself from one look to the next, several counts at least."""
    return max(5 * job.setup.gauge.resolution, 2 * job.gauge.spread_mm)


def agreement(job: Job) -> float:
    """How far a parked reading may differ from the sweep's and still be the same spot, mm."""
    slack = job.head.slack_mm.get(job.axis, 0.0) if job.axis is not None else 0.0
    return max(0.010, noise_mm(job)) + slack
