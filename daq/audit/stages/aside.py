"""The audit rests: a hot job comes between, and the machine stands under a tag meanwhile.

Put aside at any step, it first has the bolts tightened and the arm taken out. Where that cannot
be done now, it rests as it is: not safe to run. Taken up again it is prepared and touched, and
swept in full: nothing that was read before counts, what was learned of the head stays. With the
arm out another machine's audit may have its gauge meanwhile.
"""

from dataclasses import dataclass, replace

from daq.audit import events as e
from daq.audit.anytime import restart
from daq.audit.facts import certain, first_read, word_of
from daq.audit.folding import begun, go, leave
from daq.audit.held.sweeps import ReadSoFar
from daq.audit.held.tightening import Bolts
from daq.audit.input import Input, Nothing, Refused, Why
from daq.audit.parts import RESTING, Anew, Leaving, Next, Unsafe
from daq.audit.safe import loose_first, maybe_loose, maybe_unsafe, unsafe
from daq.audit.stage import Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views import rounds
from daq.audit.views.by_kind import power_for_drawbar
from daq.audit.views.common import FIRST
from daq.audit.views.figures import length
from daq.audit.views.not_safe import listed, not_safe
from daq.audit.views.step import Action, Wording
from daq.squaring.story import Happened
from daq.words import AXES, Axis, Said, said


@dataclass(frozen=True)
class Rested(e.OfStage):
    """How the machine was left: `unsafe` is what remains to be done, None when nothing does.

    `loose`: the axes whose bolts are. `anew`: where the audit goes on once it is taken up.
    """

    unsafe: Unsafe | None
    loose: tuple[Axis, ...]
    anew: Anew
    next: Next


@dataclass(frozen=True)
class TakenUp(e.OfStage):
    """The audit goes on, from the preparation card or from what was read before that."""

    anew: Anew | None
    next: Next


@dataclass(frozen=True)
class Rest:
    """The payload of `rest`."""

    left: Leaving


def put_aside(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The audit is to rest, at once where nothing is loose and the arm is out."""
    why = given.payload(Why).why.strip()
    if job.step in RESTING:
        raise Refused("rests-already")
    if not why:
        raise Refused("put-aside-without-why")
    read = bool(job.sweeps.founds or job.sweeps.off_scale)
    anew = Anew("aside", restart.goes_on(job), maybe_loose(job))
    nothing = not (read or job.sweeps.done or job.rounds)
    unread = not job.arm_in and job.anew is None and nothing
    card, to = Next(job.step) if unread else None, Next("put-aside", job.axis)
    aside = e.PutAside(why, _tag(job), maybe_unsafe(job), anew, read, card, to)
    if aside.unsafe is not None:
        return (aside,)
    return aside, _rested(_put_aside(job, aside))


def rest(job: Job, given: Input) -> tuple[e.Data, ...]:
    """All is tight, the arm out and the wrench off; or it rests as it is."""
    if given.payload(Rest).left == "safe":
        return (_rested(job),)
    anew = certain(job.anew)
    # Bolts that were to be cracked are taken for loose: read before they are turned.
    closer = anew.next.step in ("closer", "set-back")
    found = replace(job, loose=job.loose if closer else job.loose | set(anew.maybe))
    axis = loose_first(found)
    to = anew.next if closer else first_read(job) if axis is None else Next("check", axis)
    anew = Anew("left", to, anew.maybe if closer else ())
    loose = tuple(each for each in AXES if each in found.loose)
    return (Rested(unsafe(job), loose, anew, Next("unsafe", axis)),)


def _rested(job: Job) -> Rested:
    return Rested(None, (), Anew("aside", first_read(job)), Next("aside"))


def take_up(job: Job, given: Input) -> tuple[e.Data, ...]:
    """Hands come back to it: locked out, the gauge on, before anything is read."""
    given.payload(Nothing)
    card = _of(job).card
    # With the arm left in nothing is run warm: the usual card, and no power before it.
    if card is not None and not job.arm_in:
        return (TakenUp(None, card),)
    return (TakenUp(job.anew, Next("prepare", job.axis)),)


def _tag(job: Job) -> Said:
    """How far the audit came: its last verdict, as the tag says it."""
    if job.check is not None:
        if job.round is None:
            return said("half-read", check=job.check.name)
        return said("half-checked", came=rounds.came_to(job.check, job.round.word))
    sweep = job.sweeps.latest
    if sweep is None:
        return said("half-unjudged")
    word = word_of(sweep)
    since = "loose" if job.sweeps.disturbed else "tight"
    if word == "in":
        return said("half-inside", since=since)
    unit = job.gauge.unit
    far = [axis for axis in AXES if sweep.results[axis].word != "in"] or AXES
    axes = [
        said("half-axis", axis=axis, off=length(abs(sweep.results[axis].error_mm), unit))
        for axis in far
    ]
    return said("half-squared", word=word, axes=listed(axes), since=since)


def _put_aside(job: Job, data: e.PutAside) -> Job:
    """Nothing read so far counts any more, but for how the head was found."""
    left = begun(leave(job, data.next))
    return replace(
        left,
        anew=data.anew,
        resume=None,
        arm_in=data.unsafe is not None and data.unsafe.arm,
        reads=ReadSoFar(why=said("put-aside-for", why=data.why)),
        sweeps=replace(job.sweeps.spoilt(loosened=data.read), parked_adds_mm={}, added=()),
        bolts=Bolts(),
        tightening=replace(job.tightening, before={}, reread_mm=None),
        head=job.head.then(Happened("unknown")),
        own={**job.own, "aside": data},
    )


def _rests(job: Job, data: Rested) -> Job:
    arm = data.unsafe is not None and data.unsafe.arm
    return replace(go(job, data.next), loose=frozenset(data.loose), arm_in=arm, anew=data.anew)


def _taken_up(job: Job, data: TakenUp) -> Job:
    return replace(go(job, data.next), anew=data.anew)


def _of(job: Job) -> e.PutAside:
    found = job.own["aside"]
    if not isinstance(found, e.PutAside):
        raise LookupError("nothing was put aside")
    return found


def _why(job: Job) -> Said:
    return said("put-aside-for", why=_of(job).why)


def _card_says(job: Job) -> Wording:
    todo = not_safe(certain(unsafe(job))).todo
    how = said("and-then", first=todo, next=said("rest-how"))
    return Wording(said("rest-first"), how, (_of(job).tag,))


def _card_buttons(job: Job) -> list[Action]:
    # Never on a pedal or Enter: whoever presses it has looked.
    as_is = not_safe(certain(unsafe(job))).title
    return [_safe(job), Action("rest", said("leave-as-is"), {"left": "as-is"}, confirm=as_is)]


def _safe(job: Job) -> Action:
    left = not_safe(certain(unsafe(job)))
    sure = said("and-then", first=left.todo, next=said("all-done"))
    return Action("rest", left.done, {"left": "safe"}, confirm=sure)


def _card_cautions(job: Job) -> tuple[Said, ...]:
    loose = (said("no-extension"),) if job.loose else ()
    by_power = power_for_drawbar(job.setup.machine) if job.arm_in else ()
    return (*loose, *by_power, FIRST)


def _aside_says(job: Job) -> Wording:
    return Wording(
        _of(job).tag, _why(job), (said("rests-safe", drawbar=job.setup.machine.drawbar),)
    )


def _unsafe_says(job: Job) -> Wording:
    left = not_safe(certain(unsafe(job)))
    return Wording(left.title, left.todo, (_of(job).tag, _why(job)))


def _detail(job: Job, data: Rested) -> tuple[Said, ...]:
    """That nothing is left to do, or what is."""
    return (said("row-left-safe") if data.unsafe is None else not_safe(data.unsafe).title,)


_UP = Action("take-up", said("take-up"), confirm=said("take-up-sure"))

STAGES = (
    Stage(
        "put-aside",
        shows=Shows("", _card_says, _card_buttons, cautions=_card_cautions),
        commands={"rest": Handler(rest), "put-aside": Handler(put_aside)},
        took={e.PutAside: Took(_put_aside, told=said("audit-was-put-aside"))},
        heeds_zero=False,
    ),
    Stage(
        "aside",
        shows=Shows("", _aside_says, just([_UP])),
        commands={"take-up": Handler(take_up, binds=True)},
        took={
            Rested: Took(_rests, told=said("machine-was-left"), detail=_detail),
            TakenUp: Took(_taken_up, told=said("audit-was-taken-up")),
        },
        heeds_zero=False,
    ),
    Stage(
        "unsafe",
        shows=Shows("", _unsafe_says, lambda job: [_safe(job), _UP]),
        commands={"rest": Handler(rest), "take-up": Handler(take_up, binds=True)},
        heeds_zero=False,
    ),
)
