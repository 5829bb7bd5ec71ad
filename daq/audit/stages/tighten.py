"""The bolts are pulled up, one by one where the machine's file names them."""

from dataclasses import dataclass, replace

from daq.audit import events as e
from daq.audit.facts import axis_of, unit_of
from daq.audit.folding import as_foreseen, go, leave
from daq.audit.held.tightening import Bolts
from daq.audit.input import Input, Nothing, Refused
from daq.audit.parts import Next
from daq.audit.reading import check_travel, watched
from daq.audit.reading_order import saves_time
from daq.audit.soonest import after_work
from daq.audit.stage import HISTORY, WATCHED, Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.common import LEAVE_BOLTS, spec_of
from daq.audit.views.figures import limit
from daq.audit.views.step import Action, Clamp, PullUp, Wording
from daq.settings import quoted
from daq.squaring import tightening
from daq.squaring.story import Happened, Story
from daq.squaring.tightening import Tighten
from daq.words import AXES, OTHER, said


@dataclass(frozen=True)
class PulledUp:
    """The payload of `bolt`: the bolt that was pulled up a step, or put right after it."""

    bolt: str


def bolt(job: Job, given: Input) -> tuple[e.Data, ...]:
    """One step of pulling up the bolts, with what it did to the number; the last one is tight.

    A bolt that moved the head too far may be put right and pulled up again: the same step,
    counted from before it was first touched.
    """
    name = given.payload(PulledUp).bolt
    axis = axis_of(job)
    spec = job.setup.machine.axis(axis)
    done, over_mm = _bolt_step(job, spec.tighten, name)
    reading = watched(job, given, None)
    check_travel(job, reading)
    # Where the gauge was not parked for this axis, the first step is what the rest count from.
    first = reading.mean_mm if job.bolts.first_face_mm is None else job.bolts.first_face_mm
    last = first if job.bolts.last_face_mm is None else job.bolts.last_face_mm - over_mm
    shift = reading.mean_mm - last
    over = tightening.is_over(shift, spec.tighten)
    # The last bolt stays to be put right while it is over; "all tight" may be said instead.
    finished = tightening.next_step(spec.tighten, done) is None and not over
    pulled = e.BoltPulled(
        axis=axis,
        bolt=name,
        step=done,
        reading=reading,
        shift_face_mm=shift,
        since_face_mm=reading.mean_mm - first,
        over=over,
        said=tightening.over_limit(name, shift, spec.tighten, unit_of(job)),
        next=Next("tighten", axis),
    )
    if not finished:
        return (pulled,)
    return pulled, _followed(job, e.Tightened(axis, Next("check", axis)))


def _bolt_step(job: Job, tighten: Tighten, bolt: str) -> tuple[int, float]:
    """The number of the step that this bolt makes, and what it did to the number before."""
    every = tightening.steps(tighten)
    if not every:
        raise Refused("bolts-not-watched")
    ahead = every[job.bolts.steps : job.bolts.steps + 1]
    # A bolt alone is next again itself: its next part, not this one once more.
    if [step.bolt for step in ahead] == [bolt]:
        return job.bolts.steps + 1, 0.0
    following = repr(ahead[0].bolt) if ahead else "none"
    again = "none"
    if job.bolts.steps and job.bolts.over_mm is not None:
        latest = every[job.bolts.steps - 1].bolt
        if bolt == latest:
            return job.bolts.steps, job.bolts.over_mm
        again = repr(latest)
    raise Refused("no-such-bolt", found=quoted(bolt), next=following, again=again)


def tightened(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The bolts are tight again; a pair check shows what that did."""
    given.payload(Nothing)
    axis = axis_of(job)
    if axis not in job.loose:
        raise Refused("tight-already")
    both = job.step == "tighten" and both_at_once(job)
    return (_followed(job, e.Tightened(axis, Next("check", axis), both)),)


def both_at_once(job: Job) -> bool:
    """Whether the bolts of both axes are pulled up together: both are loose, none is watched."""
    watched = any(each.tighten.bolts for each in job.setup.machine.axes.values())
    return saves_time(job) and len(job.loose) == len(AXES) and not watched


def _followed(job: Job, done: e.Tightened) -> e.Tightened:
    """The tightening, and what follows it; said to be tight in the middle of a move, its pair."""
    if job.step != "tighten":
        return done
    follows, stands = after_work(_tightened(job, done), done.axis)
    return replace(done, next=follows, stands=stands)


def _says(job: Job) -> Wording:
    spec = spec_of(job)
    ahead = job.ahead
    if ahead is not None and ahead.bolt is not None and ahead.pull is not None:
        pull = said("pull-up", bolt=ahead.bolt, part=ahead.pull)
        most, wrench = limit(job, spec.tighten.limit), spec.tighten.wrench
        if wrench:
            return Wording(pull, said("pull-up-with", wrench=wrench, limit=most))
        return Wording(pull, said("pull-up-limit", limit=most))
    if both_at_once(job):
        both = {a: each.bolts for a, each in job.setup.machine.axes.items()}
        title = said("tighten-both", side=both["side"], nod=both["nod"])
        return Wording(title, said("tighten-how", bolts=0))
    how = said("tighten-how", bolts=len(spec.tighten.bolts))
    if ahead is not None and ahead.pull is not None:
        how = said("tighten-to", torque=ahead.pull)
    return Wording(said("tighten", bolts=spec.bolts), how)


def _buttons(job: Job) -> list[Action]:
    bolt = job.ahead.bolt if job.ahead is not None else None
    again = []
    if job.bolts.over_mm is not None and job.bolts.steps and job.bolts.bolt != bolt:
        put_right = said("put-right-again", bolt=job.bolts.bolt)
        again.append(Action("bolt", put_right, {"bolt": job.bolts.bolt}))
    if bolt is None:
        return [Action("tightened", said("all-tight"), primary=True), *again]
    pulled = Action("bolt", said("bolt-pulled-up", bolt=bolt), {"bolt": bolt}, primary=True)
    return [pulled, *again, Action("tightened", said("all-tight"))]


def _hands(job: Job) -> PullUp | Clamp:
    if job.ahead is not None and job.ahead.bolt is not None:
        return PullUp(job.axis, job.ahead.bolt, job.ahead.pull)
    return Clamp("tighten", job.axis, both_at_once(job))


def _bolt(job: Job, data: e.BoltPulled) -> Job:
    """One more step of the bolts."""
    before = data.reading.mean_mm - data.since_face_mm
    over_mm = data.shift_face_mm if data.over else None
    return replace(
        go(job, data.next, data.said),
        bolts=Bolts(data.bolt, data.step, before, data.reading.mean_mm, over_mm),
        gauge=job.gauge.down(),
    )


def _tightened(job: Job, data: e.Tightened) -> Job:
    """The axis is tight; since it was loosened there was no sweep that could prove anything."""
    pulled_up = (data.axis, OTHER[data.axis]) if data.both else (data.axis,)
    happened: Story = tuple(Happened("tightened", axis) for axis in pulled_up)
    # An adjuster may have been turned since the check: what tightening did is not known.
    before = job.tightening.before if job.step == "tighten" else {}
    if job.step != "tighten":
        # Cracked bolts let the head drop, and nothing was read since.
        happened = (Happened("moved", data.axis), *happened)
    after = leave(job, data.next, job.message if job.is_told("bolt-over") else None)
    after = replace(after, head=job.head.then(*happened))
    return replace(
        as_foreseen(after, data.stands),
        loose=job.loose - set(pulled_up),
        gauge=job.gauge.down(),
        tightening=replace(job.tightening, before=before, reread_mm=None),
    )


STAGES = (
    Stage(
        "tighten",
        shows=Shows(
            "square",
            _says,
            _buttons,
            _hands,
            cautions=just((said("no-extension"),)),
            halt=just((said("halt-tightening"), LEAVE_BOLTS)),
            lowered=just(True),
        ),
        commands={
            "bolt": Handler(bolt, WATCHED),
            "tightened": Handler(tightened, HISTORY),
        },
        took={e.BoltPulled: Took(_bolt), e.Tightened: Took(_tightened)},
    ),
)
