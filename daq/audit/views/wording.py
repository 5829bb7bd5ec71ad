"""The one instruction of each step: a title, a sentence or two, and notes."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import cast

from daq.audit.facts import face_text, stands_at, unit_of, unsafe, wanted, word_of
from daq.audit.parts import StopAt
from daq.audit.setup import AxisSetup
from daq.audit.state import Job
from daq.audit.views.figures import limit_text
from daq.audit.views.left import left
from daq.audit.views.places import AT, SWEEPS, TO, next_place, still_out
from daq.audit.views.whole import notes
from daq.squaring.adjuster import approach, say_shim
from daq.squaring.story import last_worked
from daq.squaring.tightening import next_step, part
from daq.words import OTHER, Axis, Position, Said, said


@dataclass(frozen=True)
class Wording:
    """What to do now; `warnings` are to be seen before it is done."""

    title: str | Said
    detail: str | Said = ""
    notes: tuple[str, ...] = ()
    warnings: tuple[Said, ...] = ()


def wording(job: Job) -> Wording:
    """The instruction for the step the audit stands at."""
    usual = _WORDINGS[job.step](job)
    between = job.step in ("park", "check", "tighten") or (job.step in SWEEPS and bool(job.taken))
    return _down_again(job, usual) if job.lifted and between else usual


def _down_again(job: Job, usual: Wording) -> Wording:
    """After a touch test in mid-audit: what was read before counts on the gauge as it was set."""
    place = next_place(job)
    where = f" {AT[place]}" if place else ""
    title = f"Bring the contact down again{where}, set as it was."
    detail = said("two-sentences", first=usual.title, second=usual.detail)
    return replace(usual, title=title, detail=detail)


def _axis(job: Job) -> Axis:
    return cast(Axis, job.axis)


def _other_bolts(job: Job) -> str:
    other = OTHER[_axis(job)]
    bolts = job.setup.machine.axis(other).bolts
    if other in job.loose:
        return f"{bolts[0].upper()}{bolts[1:]} are cracked too."
    if job.results[other].word == "in":
        return f"Leave {bolts} alone."
    return f"Keep {bolts} tight for now."


def _prepare(job: Job) -> Wording:
    numbers = " and ".join(gauge.serial_number for gauge in job.setup.gauges)
    if job.anew is not None and job.anew.why == "restart":
        left = unsafe(job)
        loose = left.loose if left is not None else ()
        return Wording(
            "The screen was off: is the lock still on?",
            f"Try to start. Is the gauge untouched, its number {numbers}, the head untouched?",
            tuple(f"Keep the head supported: {bolts} may be loose." for bolts in loose),
        )
    if job.setup.second_gauge is not None:
        return Wording(
            "Make the machine safe, then put the bar with both gauges on.",
            f"Read the numbers on the gauges: they must be {numbers}.",
        )
    return Wording(
        "Make the machine safe, then put the gauge on.",
        f"Read the number on the gauge: it must be {numbers}.",
    )


def _touch_free(job: Job) -> Wording:
    if job.resume is not None:
        return Wording(
            "Lift the contact and let it hang free in the air.",
            "Then take the reading: it shows whether the gauge was zeroed. The audit goes on "
            "where it was.",
        )
    return Wording("Let the contact hang free in the air.", "Hands off, then take the reading.")


def _touch_push(job: Job) -> Wording:
    return Wording(
        "Push the contact in with a finger and let it go.",
        "This shows that the gauge is alive and which way it counts.",
    )


def _sweep(job: Job) -> Wording:
    place = wanted(job)[0]
    if not job.taken and not job.lifted:
        proves = "Everything tight: this full sweep shows how the head is left."
        return Wording(
            _turn_to(job, place),
            proves if job.loosened else "Everything still tight: a full sweep.",
        )
    if not job.taken:
        return Wording(
            f"Bring the contact down {AT[place]}, about {_preload(job)} pushed in.",
            "Everything still tight. Take the reading.",
        )
    if len(job.taken) == len(job.setup.plan.positions):
        return Wording(
            f"Turn back the way you came, {TO[place]}.",
            "Take the reading there again: it shows whether anything drifted.",
        )
    return Wording(f"Turn the spindle so that the gauge stands {AT[place]}.", "Take the reading.")


def _preload(job: Job) -> str:
    """A plunger about a millimetre, a lever within its 0.1 to 0.25: common practice, no source."""
    if job.setup.gauge.kind == "lever":
        return "0.008 in" if job.unit == "in" else "0.2 mm"
    return "0.050 in" if job.unit == "in" else "1 mm"


def _park(job: Job) -> Wording:
    axis = _axis(job)
    place = cast(Position, next_place(job))
    name = job.setup.machine.axis(axis).say.lower()
    tight = "Bolts as they are." if job.loose else "Bolts still tight."
    if job.base is not None:
        return Wording(f"Read the gauge again {AT[place]}.", "Touch nothing else before.")
    title, detail = f"Park the gauge {AT[place]}.", f"Next is {name}. {tight} Take the reading."
    still = still_out(job)
    if still:
        title, detail = f"{still}: {_onward(job)}.", f"{title} {tight} Take it."
    return Wording(title, detail, (*notes(job), _other_bolts(job)))


def _onward(job: Job) -> str:
    """How the axis goes on; a turn by hand that is to show something may go back."""
    kind = _kind(job)
    if job.message_code == "astray":
        return "try a turn"
    if kind == "shim":
        return "another shim" if any(axis == job.axis for axis, _ in job.shims) else "a shim"
    return "push further" if kind == "hand" else "turn further"


def _kind(job: Job) -> str:
    return job.setup.machine.axis(_axis(job)).adjust.kind


def _question(job: Job) -> Wording:
    say = job.question.say if job.question is not None else ""
    loose = job.axis is not None and job.axis in job.loose
    return Wording(say, f"{'Hands off' if loose else 'Turn nothing'} until that is answered.")


def _loosen(job: Job) -> Wording:
    bolts = job.setup.machine.axis(_axis(job)).bolts
    move = cast(StopAt, job.stop)
    drop = "It may drop a little" if move.by_hand else "It may drop a little; the stop-at stays"
    return Wording(
        f"Crack {bolts}.",
        f"Just enough to let the head move. {drop}. Then press.",
        (_other_bolts(job),),
        left(job, move).warnings,
    )


def _move(job: Job) -> Wording:
    spec = job.setup.machine.axis(_axis(job))
    move = cast(StopAt, job.stop)
    if move.by_hand:
        whither = "back the way you came" if move.by_hand == "back" else "either way"
        return Wording(
            f"{verb(spec)} a little {whither}.",
            "A few degrees; there is no stop-at. It shows how the head answers. Then let go and "
            "press.",
            (_other_bolts(job),),
        )
    way = left(job, move)
    stop = face_text(job, way.stop_face_mm)
    come = approach(spec.adjust)
    if move.shim is not None:
        return Wording(
            said("put-shim", shim=say_shim(move.shim, unit_of(job))),
            said("shim-then", stop=stop, come=come),
            (_other_bolts(job),),
            way.warnings,
        )
    goes = f"The number goes {way.way} from about {face_text(job, way.now_face_mm)}."
    if way.there:
        goes = "It reads that already."
    if way.past_mm:
        come = said("go-past", past=face_text(job, way.past_mm), come=come)
    detail = said("move-then", goes=goes, come=come)
    if way.turns and not way.there:
        detail = said("move-turns-then", goes=goes, turns=way.turns, come=come)
    return Wording(
        f"{verb(spec)} until the gauge reads {stop}.",
        detail,
        (_other_bolts(job),),
        way.warnings,
    )


def verb(spec: AxisSetup) -> str:
    """What a person does to the adjuster."""
    return f"Push {spec.adjuster}" if spec.adjust.kind == "hand" else f"Turn {spec.adjuster}"


def _check(job: Job) -> Wording:
    return Wording(_turn_to(job, cast(Position, next_place(job))), _why_check(job))


def _turn_to(job: Job, place: Position) -> str:
    if stands_at(job) == place:
        return f"Take the reading {AT[place]}."
    return f"Turn {TO[place]} and take the reading."


def _why_check(job: Job) -> str:
    axis = _axis(job)
    spec = job.setup.machine.axis(axis)
    if last_worked(job.story) == OTHER[axis]:
        return f"A pair check: the other move may have changed {spec.say.lower()} too."
    if axis in job.loose:
        return "A pair check before tightening."
    return f"A pair check with {spec.bolts} tight."


def _tighten(job: Job) -> Wording:
    spec = job.setup.machine.axis(_axis(job))
    bolts = spec.bolts
    step = next_step(spec.tighten, job.bolt_steps)
    if step is not None:
        return Wording(
            said("pull-up", bolt=step.bolt, part=part(step)),
            f"Then press. One bolt may move the number by {limit_text(job, spec.tighten.limit)}.",
        )
    return Wording(
        f"Tighten {bolts}.", "A third at a time, in a cross pattern, watching the number."
    )


def _clear(job: Job) -> Wording:
    proof = job.as_left or job.latest
    if proof is not None and word_of(proof) == "in":
        stands = "Leave it: the head is inside." if not job.moves else "The head is inside."
    elif proof is not None and word_of(proof) == "close":
        stands = "Leave it: closer than this cannot be told, or set."
    else:
        stands = "Nothing more is turned: the audit reports what is."
    fixed = tuple(f"{spec.say}: report only." for spec in _not_set(job))
    return Wording("Arm out. Wrench off the drawbar.", stands, (*notes(job), *fixed))


def _not_set(job: Job) -> list[AxisSetup]:
    """The axes that are out and have nothing to set them with."""
    machine = job.setup.machine
    axes = [a for a, result in job.results.items() if result.word != "in"]
    return [machine.axis(a) for a in axes if machine.axis(a).adjust.kind == "none"]


def _sign(job: Job) -> Wording:
    return Wording("Sign the audit.", "Every reading is recorded already.")


def _closer(job: Job) -> Wording:
    return Wording(
        "Bring the head closer by scale or square.",
        "It is further out than the gauge can read. Crack the bolts, set it, tighten; then press "
        "and sweep.",
        tuple(f"{off.position.capitalize()}: {off.say}." for off in job.off_scale),
    )


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
    "clear": _clear,
    "sign": _sign,
}
