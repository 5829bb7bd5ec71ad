"""The usual cautions, each at the step where it matters, by how the head is held and set.

All are common practice, no source. The machine's manual, local rules and qualified
people come before every one of them.
"""

from dataclasses import dataclass
from functools import reduce

from daq.audit.facts import shown_face
from daq.audit.parts import Step, Unsafe
from daq.audit.setup import AxisSetup
from daq.audit.state import Job
from daq.audit.views.figures import with_unit
from daq.words import Said, said

FIRST = said("manual-first")

BY_BOLTS_ONLY = ("hand", "shim")
"""Kinds of adjuster that hold nothing: with its bolts cracked nothing else holds the head."""

BIG_NOD_MM = {"plunger": 1.0, "lever": 0.2}
"""A nod that moves the head at the parked spot by more than a contact is usually pushed in."""

_HELD = said("held-by-bolts")
_NOSE = said("turn-by-the-nose")
_CRACK = said("crack-only")
_CLEAR = said("hands-clear")

_MOVE = {
    "hand": (said("head-still-blocked"), said("tap-softly")),
    "shim": (said("head-still-slung"), said("push-with-a-strip")),
}

_CAUTIONS: dict[Step, tuple[Said, ...]] = {
    "prepare": (said("lock-out"), said("keep-the-lock"), said("own-supply"), FIRST),
    "touch-free": (said("swing-clear"), said("pedal-clear")),
    "as-found": (_NOSE,),
    "park": (_NOSE,),
    "loosen": (_CRACK, _CLEAR),
    "move": (said("do-not-force"), said("watch-the-travel")),
    "check": (_NOSE,),
    "tighten": (said("no-extension"),),
    "closer": (
        _CRACK,
        said("and-then", first=_CLEAR, next=said("gauge-away")),
        said("tight-before-reading"),
    ),
    "final": (_NOSE,),
    "clear": (said("before-power"), FIRST),
}


def cautions(job: Job) -> tuple[Said, ...]:
    """What to heed at the step the audit stands at, on this machine."""
    # Asked in the middle of a move, hands are on the adjuster still.
    step = "move" if job.step == "question" and job.stop is not None else job.step
    usual = _CAUTIONS.get(step, ())
    if job.check is not None:
        return (*job.check.cautions, *usual) if job.step in ("prepare", "stations") else usual
    machine = job.setup.machine
    if job.step == "prepare" and (_by_bolts(machine.side) or _by_bolts(machine.nod)):
        return (_HELD, *usual)
    if job.axis is None:
        return usual
    spec = machine.axis(job.axis)
    if step == "park":
        return (*_before_the_base(job, spec), *usual)
    if step == "move":
        return _MOVE.get(spec.adjust.kind, usual)
    return usual


def _by_bolts(spec: AxisSetup) -> bool:
    return spec.adjust.kind in BY_BOLTS_ONLY


def _before_the_base(job: Job, spec: AxisSetup) -> tuple[Said, ...]:
    """What must be done before the parked reading: done after it, it would spoil the base."""
    held = (_HELD,) if _by_bolts(spec) and not job.loose else ()
    fall_mm = job.ahead.nod_mm if job.ahead is not None else 0.0
    if fall_mm <= BIG_NOD_MM[job.setup.gauge.kind]:
        return held
    big = said("big-nod", about=with_unit(shown_face(job, fall_mm)))
    return (*held, big, said("falling-head"))


@dataclass(frozen=True, slots=True)
class NotSafe:
    """What an abandoned audit left, what is to be done about it, and that it was done."""

    title: Said
    todo: Said
    done: Said


def not_safe(unsafe: Unsafe) -> NotSafe:
    """An abandoned audit's remains in words."""
    names = [bolts.removeprefix("the ") for bolts in unsafe.loose]
    left = [said("are-loose", bolts=name) for name in names]
    arm, out, take = (
        (said("gauge-in-the-way"), said("gauge-is-out"), said("take-gauge-out"))
        if unsafe.gauge
        else (said("arm-in-spindle"), said("arm-is-out"), said("take-arm-out"))
    )
    left += [arm] * unsafe.arm
    tight = tuple(said("name", name=bolts) for bolts in unsafe.loose)
    todo = said("put-right", bolts=tight) if tight else take
    done = [*(said("are-tight", bolts=name) for name in names), out]
    return NotSafe(
        said("not-safe", left=_listed(left)), todo, said("all-put-right", done=_listed(done))
    )


def _listed(parts: list[Said]) -> Said:
    """Several things in a row, a comma between them."""
    return reduce(lambda before, each: said("list-more", before=before, next=each), parts)
