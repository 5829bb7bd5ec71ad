"""The one instruction of each step: a title, a sentence or two, and notes."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import cast

from daq.audit.facts import face_text, left_to_check, wanted, word_of
from daq.audit.parts import StopAt
from daq.audit.state import Job
from daq.words import PARKED, Axis, Position

AT: dict[Position, str] = {
    "front": "at the front",
    "right": "at the right",
    "back": "at the back",
    "left": "at the left",
}
TO: dict[Position, str] = {
    "front": "to the front",
    "right": "to the right",
    "back": "to the back",
    "left": "to the left",
}


@dataclass(frozen=True)
class Wording:
    """What to do now."""

    title: str
    detail: str = ""
    notes: tuple[str, ...] = ()


def next_place(job: Job) -> Position | None:
    """Where the gauge is wanted now, or None where its place does not matter."""
    if job.step in ("as-found", "final"):
        return wanted(job)[0]
    if job.step == "park":
        return job.base.position if job.base is not None else PARKED[cast(Axis, job.axis)]
    if job.step == "check":
        return left_to_check(job)[0]
    if job.step in ("loosen", "move") and job.stop is not None:
        return job.stop.position
    return None


def wording(job: Job) -> Wording:
    """The instruction for the step the audit stands at."""
    return _WORDINGS[job.step](job)


def _axis(job: Job) -> Axis:
    return cast(Axis, job.axis)


def _other_bolts(job: Job) -> str:
    other: Axis = "nod" if job.axis == "side" else "side"
    bolts = job.setup.machine.axis(other).bolts
    if job.results[other].word == "in":
        return f"Leave {bolts} alone."
    return f"Keep {bolts} tight for now."


def _prepare(job: Job) -> Wording:
    numbers = " and ".join(gauge.serial_number for gauge in job.setup.gauges)
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
    """About a millimetre for a plunger: common practice, no source."""
    return "0.050 in" if job.unit == "in" else "1 mm"


def _park(job: Job) -> Wording:
    axis = _axis(job)
    place = cast(Position, next_place(job))
    name = job.setup.machine.axis(axis).say.lower()
    tight = "Bolts as they are." if axis in job.loose else "Bolts still tight."
    if job.base is not None:
        return Wording(f"Read the gauge again {AT[place]}.", "Touch nothing else before.")
    return Wording(
        f"Park the gauge {AT[place]}.",
        f"Next is {name}. {tight} Take the reading.",
        (_other_bolts(job),),
    )


def _question(job: Job) -> Wording:
    say = job.question.say if job.question is not None else ""
    return Wording(say, "Answer before anything is turned.")


def _loosen(job: Job) -> Wording:
    bolts = job.setup.machine.axis(_axis(job)).bolts
    return Wording(
        f"Crack {bolts}.",
        "Just enough to let the head move. It may drop a little; the stop-at stays. Then press.",
        (_other_bolts(job),),
    )


def _move(job: Job) -> Wording:
    adjuster = job.setup.machine.axis(_axis(job)).adjuster
    move = cast(StopAt, job.stop)
    base, stop = move.base_face_mm, move.stop_face_mm
    way = "up" if stop > base else "down"
    return Wording(
        f"Turn {adjuster} until the gauge reads {face_text(job, stop)}.",
        f"The number goes {way} from about {face_text(job, base)}. Come to it slowly from one "
        "side, let go, then press.",
        (_other_bolts(job),),
    )


def _check(job: Job) -> Wording:
    place = cast(Position, next_place(job))
    bolts = job.setup.machine.axis(_axis(job)).bolts
    after = "before tightening" if job.axis in job.loose else f"with {bolts} tight"
    if not job.taken:
        return Wording(f"Take the reading {AT[place]}.", f"A pair check {after}.")
    return Wording(f"Turn {TO[place]} and take the reading.", f"A pair check {after}.")


def _tighten(job: Job) -> Wording:
    bolts = job.setup.machine.axis(_axis(job)).bolts
    return Wording(
        f"Tighten {bolts}.", "A third at a time, in a cross pattern, watching the number."
    )


def _clear(job: Job) -> Wording:
    left = job.latest
    if left is not None and word_of(left) == "in":
        title = "Leave it: the head is inside." if not job.moves else "The head is inside."
    else:
        title = "Nothing more is turned: the audit reports what is."
    return Wording(title, "Take the arm out and the wrench off the drawbar.")


def _sign(job: Job) -> Wording:
    return Wording("Sign the audit.", "Every reading is recorded already.")


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
    "clear": _clear,
    "sign": _sign,
}
