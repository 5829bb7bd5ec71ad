"""The one instruction of each step: a title, a sentence or two, and notes."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal, cast

from daq.audit.facts import shown_face, unit_of, unsafe, wanted, word_of
from daq.audit.parts import Shim, StopAt
from daq.audit.setup import AxisSetup
from daq.audit.state import Job
from daq.audit.views import rounds
from daq.audit.views.figures import limit, with_unit
from daq.audit.views.left import Left, left
from daq.audit.views.places import SWEEPS, at, next_place, still_out, to
from daq.audit.views.whole import notes
from daq.units import FINE, MM_PER_INCH
from daq.words import OTHER, Axis, Position, Said, Shown, Text, said


@dataclass(frozen=True)
class Wording:
    """What to do now; `warnings` are to be seen before it is done."""

    title: Text
    detail: Text = None
    notes: tuple[Text, ...] = ()
    warnings: tuple[Text, ...] = ()


def wording(job: Job) -> Wording:
    """The instruction for the step the audit stands at."""
    usual = _WORDINGS[job.step](job)
    read = (*SWEEPS, "stations")
    between = job.step in ("park", "check", "tighten") or (job.step in read and bool(job.taken))
    return _down_again(job, usual) if job.lifted and between else usual


def _down_again(job: Job, usual: Wording) -> Wording:
    """After a touch test in mid-audit: what was read before counts on the gauge as it was set."""
    place = next_place(job)
    title = said("down-again-at", at=at(place)) if place else said("down-again")
    detail = said("and-then", first=usual.title or "", next=usual.detail or "")
    return replace(usual, title=title, detail=detail)


def _axis(job: Job) -> Axis:
    return cast(Axis, job.axis)


def _other_bolts(job: Job) -> Said:
    other = OTHER[_axis(job)]
    bolts = job.setup.machine.axis(other).bolts
    if other in job.loose:
        return said("cracked-too", bolts=bolts)
    if job.results[other].word == "in":
        return said("leave-alone", bolts=bolts)
    return said("keep-tight", bolts=bolts)


def _prepare(job: Job) -> Wording:
    numbers = tuple(said("name", name=gauge.serial_number) for gauge in job.setup.gauges)
    if job.anew is not None and job.anew.why == "restart":
        left = unsafe(job)
        loose = left.loose if left is not None else ()
        return Wording(
            said("screen-was-off"),
            said("screen-was-off-ask", numbers=numbers),
            tuple(said("keep-supported", bolts=bolts) for bolts in loose),
        )
    if job.setup.second_gauge is not None:
        return Wording(said("make-safe-bar"), said("gauges-numbers", numbers=numbers))
    return Wording(said("make-safe"), said("gauge-number", numbers=numbers))


def _touch_free(job: Job) -> Wording:
    if job.resume is not None:
        return Wording(said("lift-contact"), said("lift-contact-why"))
    return Wording(said("hang-free"), said("hang-free-take"))


def _touch_push(job: Job) -> Wording:
    return Wording(said("push-contact"), said("push-contact-why"))


def _sweep(job: Job) -> Wording:
    place = wanted(job)[0]
    if not job.taken and not job.lifted:
        full = said("proving-sweep") if job.loosened else said("first-sweep")
        return Wording(_turn_to(job, place), full)
    if not job.taken:
        down = said("down-pushed-in", at=at(place), preload=_preload(job))
        return Wording(down, said("tight-take"))
    if len(job.taken) == len(job.setup.plan.positions):
        return Wording(said("turn-back", to=to(place)), said("take-again-there"))
    return Wording(said("turn-until-at", at=at(place)), said("take"))


def _preload(job: Job) -> Said:
    """A plunger about a millimetre, a lever within its 0.1 to 0.25: common practice, no source."""
    if job.setup.gauge.kind == "lever":
        inch, metric = Shown(0.008 * MM_PER_INCH, "in", 3), Shown(0.2, "mm", 1)
    else:
        inch, metric = Shown(0.050 * MM_PER_INCH, "in", 3), Shown(1.0, "mm", 0)
    return with_unit(inch if job.unit == "in" else metric)


def _park(job: Job) -> Wording:
    place = at(cast(Position, next_place(job)))
    if job.base is not None:
        return Wording(said("read-again-at", at=place), said("touch-nothing"))
    name = job.setup.machine.axis(_axis(job)).say.lower()
    tight = said("bolts-as-they-are") if job.loose else said("bolts-still-tight")
    title, detail = said("park-at", at=place), said("park-next", axis=name, bolts=tight)
    still = still_out(job)
    if still:
        title, detail = (
            said("out-go-on", out=still, onward=_onward(job)),
            said("park-take", park=title, bolts=tight),
        )
    return Wording(title, detail, (*notes(job), _other_bolts(job)))


def _onward(job: Job) -> Said:
    """How the axis goes on; a turn by hand that is to show something may go back."""
    kind = job.setup.machine.axis(_axis(job)).adjust.kind
    if job.is_told("led-astray"):
        return said("try-a-turn")
    if kind == "shim":
        asked = any(axis == job.axis for axis, _ in job.shims)
        return said("another-shim") if asked else said("a-shim")
    return said("push-further") if kind == "hand" else said("turn-further")


def _question(job: Job) -> Wording:
    say = job.question.said if job.question is not None else None
    loose = job.axis is not None and job.axis in job.loose
    return Wording(say, said("hands-off-until") if loose else said("turn-nothing-until"))


def _loosen(job: Job) -> Wording:
    bolts = job.setup.machine.axis(_axis(job)).bolts
    move = cast(StopAt, job.stop)
    how = said("crack-by-hand") if move.by_hand else said("crack-enough")
    return Wording(said("crack", bolts=bolts), how, (_other_bolts(job),), left(job, move).warnings)


def _move(job: Job) -> Wording:
    spec = job.setup.machine.axis(_axis(job))
    move = cast(StopAt, job.stop)
    others = (_other_bolts(job),)
    if move.by_hand:
        turn = verb(spec)
        back = move.by_hand == "back"
        title = said("a-little-back", turn=turn) if back else said("a-little", turn=turn)
        return Wording(title, said("a-little-how"), others)
    way = left(job, move)
    stop = shown_face(job, way.stop_face_mm)
    if move.shim is not None:
        return Wording(
            said("put-shim", shim=say_shim(move.shim, unit_of(job))),
            said("shim-reads", stop=stop, come=move.approach or ""),
            others,
            way.warnings,
        )
    return Wording(
        said("turn-until", turn=verb(spec), stop=stop),
        said("turn-how", goes=_goes(job, way), come=_come(job, way, move)),
        others,
        way.warnings,
    )


def _goes(job: Job, way: Left) -> Said:
    """Which way the number goes from where it stands, and in how many turns."""
    if way.there:
        return said("there-already")
    goes = said("goes", way=way.way, now=shown_face(job, way.now_face_mm))
    if not way.turns:
        return goes
    return said("and-then", first=goes, next=said("that-is", turns=way.turns))


def _come(job: Job, way: Left, move: StopAt) -> Said | str:
    if not way.past_mm:
        return move.approach or ""
    return said("go-past", by=shown_face(job, way.past_mm), come=move.approach or "")


def verb(spec: AxisSetup) -> Said:
    """What a person does to the adjuster."""
    if spec.adjust.kind == "hand":
        return said("push-adjuster", adjuster=spec.adjuster)
    return said("turn-adjuster", adjuster=spec.adjuster)


def say_shim(needed: Shim, unit: Literal["mm", "in"]) -> Said:
    """A shim in words: its thickness, and the bolts it goes behind."""
    thickness = Shown(needed.thickness_mm, unit, FINE[unit])
    return said("shim", thickness=thickness, place=needed.place)


def _check(job: Job) -> Wording:
    return Wording(_turn_to(job, cast(Position, next_place(job))), _why_check(job))


def _turn_to(job: Job, place: Position) -> Said:
    stands = job.ahead.stands_at if job.ahead is not None and not job.taken else None
    return said("take-at", at=at(place)) if stands == place else said("turn-to", to=to(place))


def _why_check(job: Job) -> Said:
    axis = _axis(job)
    spec = job.setup.machine.axis(axis)
    if job.ahead is not None and job.ahead.worked == OTHER[axis]:
        return said("check-other", axis=spec.say.lower())
    if axis in job.loose:
        return said("check-before-tightening")
    return said("check-tight", bolts=spec.bolts)


def _tighten(job: Job) -> Wording:
    spec = job.setup.machine.axis(_axis(job))
    ahead = job.ahead
    if ahead is not None and ahead.bolt is not None and ahead.part is not None:
        pull = said("pull-up", bolt=ahead.bolt, part=ahead.part)
        return Wording(pull, said("pull-up-limit", limit=limit(job, spec.tighten.limit)))
    return Wording(said("tighten", bolts=spec.bolts), said("tighten-how"))


def _stations(job: Job) -> Wording:
    if not job.taken:
        return Wording(rounds.next_at(job), said("contact-on", preload=_preload(job)))
    back = rounds.comes_back(job)
    return Wording(rounds.next_at(job), said("take-again-there") if back else said("take"))


def _clear(job: Job) -> Wording:
    if job.check is not None and job.round is not None:
        return Wording(said("gauge-out"), rounds.came_to(job.check, job.round.word))
    proof = job.as_left or job.latest
    if proof is not None and word_of(proof) == "in":
        stands = said("is-inside") if job.moves else said("leave-inside")
    elif proof is not None and word_of(proof) == "close":
        stands = said("leave-close")
    else:
        stands = said("leave-out")
    fixed = tuple(said("report-only", axis=spec.say) for spec in _not_set(job))
    return Wording(said("arm-out"), stands, (*notes(job), *fixed))


def _not_set(job: Job) -> list[AxisSetup]:
    """The axes that are out and have nothing to set them with."""
    machine = job.setup.machine
    axes = [a for a, result in job.results.items() if result.word != "in"]
    return [machine.axis(a) for a in axes if machine.axis(a).adjust.kind == "none"]


def _sign(job: Job) -> Wording:
    return Wording(said("sign-audit"), said("recorded-already"))


def _closer(job: Job) -> Wording:
    off = tuple(said("closer-because", position=o.position, how=o.said) for o in job.off_scale)
    return Wording(said("bring-closer"), said("bring-closer-how"), off)


_WORDINGS: dict[str, Callable[[Job], Wording]] = {
    "prepare": _prepare,
    "touch-free": _touch_free,
    "touch-push": _touch_push,
    "as-found": _sweep,
    "final": _sweep,
    "park": _park,
    "question": _question,
    "loosen": _loosen,
    "move": _move,
    "check": _check,
    "tighten": _tighten,
    "closer": _closer,
    "stations": _stations,
    "clear": _clear,
    "sign": _sign,
}
