"""The usual cautions, each at the step where it matters, by how the head is held and set.

All are common practice, no source. The machine's manual, local rules and qualified
people come before every one of them.
"""

from daq.audit.facts import face_text, unit_of
from daq.audit.head import park_at
from daq.audit.parts import Step, Unsafe
from daq.audit.setup import AxisSetup
from daq.audit.state import Job
from daq.squaring.advice import pivot_from_parked

FIRST = "The machine's manual and your shop's rules come first."

BY_BOLTS_ONLY = ("hand", "shim")
"""Kinds of adjuster that hold nothing: with its bolts cracked nothing else holds the head."""

BIG_NOD_MM = {"plunger": 1.0, "lever": 0.2}
"""A nod that moves the head at the parked spot by more than a contact is usually pushed in."""

_HELD = "Only its bolts hold this head: block or sling it before anything is cracked."
_NOSE = "Turn the spindle by its nose, never by the gauge or the drawbar."
_CRACK = "Crack the bolts only; never remove a nut. The head is heavy: have it supported."
_CLEAR = "Hands out of the joint, nobody beneath the head."

_MOVE = {
    "hand": (
        "Head still blocked or slung, nobody beneath it.",
        "Tap with brass or a soft hammer, clear of the gauge.",
    ),
    "shim": (
        "Head still slung or jacked. Open the joint no further than the shim needs.",
        "Push the shim in with a strip, never with fingers.",
    ),
}

_CAUTIONS: dict[Step, tuple[str, ...]] = {
    "prepare": (
        "Isolate the machine, lock it out, then try to start it.",
        "Never defeat a lock-out to release a spindle brake.",
        "This screen has its own supply; it stays on.",
        FIRST,
    ),
    "touch-free": (
        "Check that arm and cable swing clear all the way round.",
        "Put the pedal where nobody trips over it.",
    ),
    "as-found": (_NOSE,),
    "park": (_NOSE,),
    "loosen": (_CRACK, _CLEAR),
    "move": (
        "Do not force the adjuster against tight bolts.",
        "Watch the gauge's travel.",
    ),
    "check": (_NOSE,),
    "tighten": ("No extension bar on the wrench.",),
    "closer": (
        _CRACK,
        f"{_CLEAR} Take the gauge out of the way.",
        "Pull the bolts up again before anything is read.",
    ),
    "final": (_NOSE,),
    "clear": ("Both before power comes back.", FIRST),
}


def cautions(job: Job) -> tuple[str, ...]:
    """What to heed at the step the audit stands at, on this machine."""
    # Asked in the middle of a move, hands are on the adjuster still.
    step = "move" if job.step == "question" and job.stop is not None else job.step
    usual = _CAUTIONS.get(step, ())
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


def _before_the_base(job: Job, spec: AxisSetup) -> tuple[str, ...]:
    """What must be done before the parked reading: done after it, it would spoil the base."""
    held = (_HELD,) if _by_bolts(spec) and not job.loose else ()
    fall_mm = _nod_mm(job)
    if fall_mm <= BIG_NOD_MM[job.setup.gauge.kind]:
        return held
    about = f"{face_text(job, fall_mm)} {unit_of(job)}"
    big = f"A big nod, about {about} here: raise the quill and set the contact anew before this."
    return (*held, big, "No gauge under a falling head.")


def _nod_mm(job: Job) -> float:
    """How far the nod still to be made moves the head where the gauge is parked, mm."""
    if job.axis != "nod" or "nod" not in job.results:
        return 0.0
    machine = job.setup.machine
    spot = park_at(job, "nod")
    pivot_mm = pivot_from_parked("nod", spot, machine.nod.pivot_distance)
    lean = job.results["nod"].error_mm / machine.diameter
    return abs(lean * (machine.sweep_radius + pivot_mm))


def say_unsafe(unsafe: Unsafe) -> tuple[str, str, str]:
    """What an abandoned audit left, what is to be done about it, and that it was done."""
    names = [bolts.removeprefix("the ") for bolts in unsafe.loose]
    left = [f"{name} loose" for name in names] + ["arm in the spindle"] * unsafe.arm
    tight = f"tighten {' and '.join(unsafe.loose)}, " if names else ""
    todo = f"Before power comes back: {tight}arm out, wrench off the drawbar."
    done = ", ".join([*(f"{name} tight" for name in names), "arm out, wrench off the drawbar"])
    return f"NOT SAFE TO RUN: {', '.join(left)}.", todo, f"{done[0].upper()}{done[1:]}"
