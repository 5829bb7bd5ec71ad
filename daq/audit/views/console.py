"""The console's view: the wall's, with the buttons of the step and what hands do first."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields
from typing import Any

from daq.audit.events import SweepDone
from daq.audit.facts import (
    asks_for_past,
    has_sweep_to_compare,
    shown_face,
    unsafe,
    wanted,
    word_of,
)
from daq.audit.parts import ON_PURPOSE, Answer
from daq.audit.rounds import Offer
from daq.audit.state import Job, MachineState
from daq.audit.views import rounds
from daq.audit.views.axes import short
from daq.audit.views.buttons import keyed
from daq.audit.views.cautions import not_safe
from daq.audit.views.figures import on_face
from daq.audit.views.idle import idle
from daq.audit.views.numbers import numbers
from daq.audit.views.places import at, next_place, still_out
from daq.audit.views.shapes import (
    Action,
    Choice,
    Clamp,
    Console,
    Field,
    Hands,
    Nudge,
    PullUp,
    Swing,
    Turn,
    Wall,
)
from daq.audit.views.wall import wall
from daq.words import Position, Said, said


def console(state: MachineState, name: str, offers: Sequence[Offer] = ()) -> Console:
    """Everything the wall shows, the actions of this step and the audit they belong to.

    `offers`: the checks besides squaring that the machine's file offers today.
    """
    job = state.job
    shown = job or state.last
    drawn = wall(state, name)
    actions = idle(state, offers) if job is None else [*_ACTIONS[job.step](job), *_always(job)]
    return Console(
        **{each.name: getattr(drawn, each.name) for each in fields(Wall)},
        actions=keyed(actions),
        do=Hands("nothing") if job is None else _do(job),
        numbers=None if job is None else numbers(job),
        audit=shown.id if shown else None,
        short=shown.short if shown else "",
    )


def _always(job: Job) -> list[Action]:
    actions = []
    if job.noticed and job.zero_asked is None:
        jumped = job.is_told("number-jumped")
        actions.append(Action("not-zeroed", said("not-bumped") if jumped else said("not-zeroed")))
    if job.trail:
        actions.append(Action("undo", said("take-back"), key="u"))
    left = unsafe(job)
    sure = said("abandon-sure")
    if left is not None:
        sure = said("and-then", first=sure, next=not_safe(left).todo)
    why = (Field("why", said("why")),)
    actions.append(Action("abandon", said("abandon"), fields=why, confirm=sure))
    return actions


def _prepare(job: Job) -> list[Action]:
    number = job.setup.gauge.serial_number
    confirmed: Mapping[str, Any] = {"serial_number": number}
    if job.anew is not None and job.anew.why == "restart":
        return _prepare_anew(job, confirmed)
    if job.check is not None:
        return [Action("prepared", said("safe-and-number", number=number), confirmed, primary=True)]
    ram = Field("ram_angle", said("ram-swung-by"), required=False)
    return [
        Action("prepared", said("safe-and-number", number=number), confirmed, primary=True),
        Action("prepared", said("ram-moved"), {**confirmed, "ram_moved": True}, fields=(ram,)),
    ]


def _prepare_anew(job: Job, confirmed: Mapping[str, Any]) -> list[Action]:
    """After a restart: what may have been touched or cracked meanwhile is asked."""
    number, anew = job.setup.gauge.serial_number, job.anew
    axes = () if anew is None or anew.next.step == "closer" else anew.maybe
    maybe = tuple(said("name", name=job.setup.machine.axis(axis).bolts) for axis in axes)
    touched = {**confirmed, "touched": True}
    if not maybe:
        return [
            Action("prepared", said("untouched", number=number), confirmed, primary=True),
            Action("prepared", said("touched"), touched),
        ]
    right = said("untouched-tight", bolts=maybe, number=number)
    cracked = {**confirmed, "cracked": True}
    return [
        Action("prepared", right, confirmed, primary=True),
        Action("prepared", said("touched-tight", bolts=maybe), touched),
        Action("prepared", said("are-cracked", bolts=maybe), cracked),
    ]


def _touch_free(job: Job) -> list[Action]:
    return [Action("take", said("take-free"), primary=True)]


def _touch_push(job: Job) -> list[Action]:
    return [Action("pushed", said("pushed"), primary=True)]


def _take(place: Position | None) -> Action:
    say = said("take-reading-at", at=at(place)) if place else said("take-reading")
    return Action("take", say, {"position": place}, primary=True)


def _sweep(job: Job) -> list[Action]:
    first, *others = wanted(job)
    # A sweep compared with the one before may be given up for one that stands alone.
    alone = [_again(job)] if job.turned else []
    rest = [Action("take", said("stands-at", at=at(p)), {"position": p}) for p in others]
    if job.loosened and not (job.off_scale and job.latest is None):
        return [_take(first), *rest, _touch(), *alone]
    # Once more when the head was brought closer, but not close enough.
    sure = said("off-scale-now") if job.loosened else said("off-scale-found")
    say = said("off-scale-record", at=at(first))
    off = Action("off-scale", say, {"position": first}, confirm=sure)
    return [_take(first), *rest, off, _touch(), *alone]


def _touch() -> Action:
    return Action("touch", said("touch-again"))


def _park(job: Job) -> list[Action]:
    take = _take(next_place(job))
    if job.loose:
        return [take, *_tight_now(job), _touch()]
    return [take, _touch(), _again(job), *_turned(job), _stop_here()]


def _stop_here() -> Action:
    return Action("stop-here", said("leave-it"), fields=(Field("why", said("leave-it-why")),))


def _tight_now(job: Job) -> list[Action]:
    if job.axis not in job.loose:
        return []
    still = still_out(job)
    sure = said("tighten-anyway", out=still) if still else None
    say = said("tight-again", bolts=job.setup.machine.axis(job.axis).bolts)
    return [Action("tightened", say, confirm=sure)]


def _question(job: Job) -> list[Action]:
    answers = job.question.answers if job.question else ()
    all_of = [_answer(each) for each in answers]
    # Whether it was zeroed is to be known before anything else is done.
    return all_of if job.zero_asked is not None else [*all_of, *_tight_now(job)]


def _answer(one: Answer) -> Action:
    """A button of its own where the gauge has to be read as it stands now."""
    if one.key == ON_PURPOSE:
        return Action("stopped", one.said, {"on_purpose": True})
    return Action("answer", one.said, {"key": one.key}, primary=one.usual)


def _loosen(job: Job) -> list[Action]:
    bolts = "" if job.axis is None else job.setup.machine.axis(job.axis).bolts
    return [Action("loosened", said("cracked", bolts=bolts), primary=True)]


def _move(job: Job) -> list[Action]:
    shimmed = job.stop is not None and job.stop.shim is not None
    done = said("shim-in") if shimmed else said("stopped")
    return [Action("stopped", done, primary=True), *_tight_now(job)]


def _check(job: Job) -> list[Action]:
    take = _take(next_place(job))
    worked = job.ahead.worked if job.ahead is not None else None
    if job.loose or worked == job.axis:
        return [take, *_tight_now(job), _touch()]
    return [take, _touch(), _again(job), _stop_here()]


def _tighten(job: Job) -> list[Action]:
    bolt = job.ahead.bolt if job.ahead is not None else None
    again = []
    if job.bolt_over_mm is not None and job.bolt_steps and job.bolt != bolt:
        put_right = said("put-right-again", bolt=job.bolt)
        again.append(Action("bolt", put_right, {"bolt": job.bolt}))
    if bolt is None:
        return [Action("tightened", said("all-tight"), primary=True), *again]
    pulled = Action("bolt", said("bolt-pulled-up", bolt=bolt), {"bolt": bolt}, primary=True)
    return [pulled, *again, Action("tightened", said("all-tight"))]


def _closer(job: Job) -> list[Action]:
    return [Action("closer", said("set-and-tight"), primary=True)]


def _again(job: Job) -> Action:
    if job.check is not None:
        return Action("again", said("read-again"), fields=(Field("why", said("read-again-why")),))
    return Action("again", said("sweep-again"), fields=(Field("why", said("sweep-again-why")),))


def _turned(job: Job) -> list[Action]:
    """Another sweep with the ring or the arm half round: it takes their part out."""
    if not has_sweep_to_compare(job):
        return []
    ring = Action("again", said("ring-turned"), {"turned": "ring"})
    arm = Action("again", said("arm-turned"), {"turned": "arm"})
    return [ring, arm] if job.setup.machine.seat_turns else [arm]


def _clear(job: Job) -> list[Action]:
    done = said("cleared") if job.check is None else said("cleared-gauge")
    return [Action("cleared", done, primary=True), _again(job), *_turned(job)]


def _sign(job: Job) -> list[Action]:
    asked = [Field("done_by", said("done-by"))]
    if asks_for_past(job):
        asked.append(Field("last_good", said("last-good"), "date"))
        asked.append(Field("disposition", said("disposition")))
    if job.loosened and len(job.founds) > 1 and job.as_found is not None:
        first = job.as_found
        why = said("as-found-why", number=first.number)
        asked.append(_which("as_found", said("as-found-sweep"), job.founds, first))
        asked.append(Field("as_found_why", why, required=False))
    if len(job.proofs) > 1 and job.as_left is not None:
        first = job.as_left
        why = said("as-left-why", number=first.number)
        asked.append(_which("as_left", said("as-left-sweep"), job.proofs, first))
        asked.append(Field("as_left_why", why, required=False))
    asked.append(Field("reviewed_by", said("reviewed-by"), required=False))
    asked.append(Field("note", said("note"), required=False))
    return [Action("sign", said("sign"), primary=True, fields=tuple(asked)), _again(job)]


def _which(name: str, say: Said, sweeps: tuple[SweepDone, ...], first: SweepDone) -> Field:
    """Which sweep counts: the first is chosen unless another is."""
    ordered = sorted(sweeps, key=lambda sweep: sweep != first)
    choices = tuple(
        Choice(str(s.number), said("sweep-came-to", number=s.number, word=short(word_of(s))))
        for s in ordered
    )
    return Field(name, say, "choice", False, choices, choices[0].key)


_ACTIONS: dict[str, Callable[[Job], list[Action]]] = {
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
    "stations": rounds.actions,
    "clear": _clear,
    "sign": _sign,
}


def _do(job: Job) -> Hands | Swing | Clamp | PullUp | Nudge | Turn:
    """What a person's hands do before pressing the step's first button."""
    if job.step == "touch-free":
        return Hands("free")
    if job.step == "touch-push":
        return Hands("push")
    if job.step in ("as-found", "final", "park", "check"):
        return Swing(next_place(job))
    if job.step == "tighten" and job.ahead is not None and job.ahead.bolt is not None:
        return PullUp(job.axis, job.ahead.bolt, job.ahead.part)
    if job.step in ("loosen", "tighten"):
        return Clamp("loosen" if job.step == "loosen" else "tighten", job.axis)
    if job.step == "move" and job.stop is not None:
        if job.stop.by_hand:
            return Nudge(job.axis, job.stop.by_hand == "back")
        return Turn(job.axis, shown_face(job, on_face(job, job.stop.stop_face_mm)))
    return Hands("nothing")
