"""The console's view: the wall's, with the buttons of the step and what hands do first."""

from collections.abc import Callable
from typing import cast

from daq.audit.events import SweepDone
from daq.audit.facts import (
    asks_for_past,
    face_text,
    has_sweep_to_compare,
    unsafe,
    wanted,
    word_of,
)
from daq.audit.parts import ON_PURPOSE, Answer
from daq.audit.setup import REASONS
from daq.audit.state import Job, MachineState
from daq.audit.views.axes import SHORT
from daq.audit.views.buttons import Plain, action, field, keyed
from daq.audit.views.cautions import say_unsafe
from daq.audit.views.figures import on_face
from daq.audit.views.numbers import numbers
from daq.audit.views.places import AT, next_place, still_out
from daq.audit.views.wall import wall
from daq.checks.sweep.terms import TURNS
from daq.squaring.story import last_worked
from daq.squaring.tightening import next_step, part, steps
from daq.words import Axis


def console(state: MachineState, name: str) -> Plain:
    """Everything the wall shows, the actions of this step and the audit they belong to."""
    job = state.job
    shown = job or state.last
    actions = keyed(_idle(state) if job is None else [*_ACTIONS[job.step](job), *_always(job)])
    return {
        **wall(state, name),
        "actions": actions,
        "do": {"kind": "nothing"} if job is None else _do(job),
        "numbers": None if job is None else numbers(job),
        "audit": shown.id if shown else None,
        "short": shown.short if shown else "",
    }


def _idle(state: MachineState) -> list[Plain]:
    if state.unsafe is not None:
        # Never on a pedal or Enter: whoever presses it has looked.
        _, todo, done = say_unsafe(state.unsafe)
        return [action("made-safe", done, confirm=f"{todo} Is all of it done?")]
    return [
        action("open", say, {"reason": key}, primary=key == "scheduled")
        for key, say in sorted(REASONS.items(), key=lambda item: item[0] != "scheduled")
    ]


def _always(job: Job) -> list[Plain]:
    actions = []
    if job.noticed and job.zero_asked is None:
        what = "Not preset, not bumped" if job.is_told("number-jumped") else "I did not zero it"
        actions.append(action("not-zeroed", f"{what}: carry on"))
    if job.trail:
        actions.append(action("undo", "Take back the last step", key="u"))
    left = unsafe(job)
    todo = f" {say_unsafe(left)[1]}" if left is not None else ""
    actions.append(
        action(
            "abandon",
            "Abandon this audit",
            fields=[field("why", "Why")],
            confirm=f"The audit ends without a verdict. What was read stays recorded.{todo}",
        )
    )
    return actions


def _prepare(job: Job) -> list[Plain]:
    number = job.setup.gauge.serial_number
    say = f"Safe, and the gauge's number is {number}"
    if job.anew is not None and job.anew.why == "restart":
        maybe = [job.setup.machine.axis(axis).bolts for axis in job.anew.maybe]
        if job.anew.next.step == "closer":
            maybe = []
        tight = f", {' and '.join(maybe)} tight" if maybe else ""
        said: Plain = {"serial_number": number}
        right = f"Locked out, all untouched{tight}, number {number}"
        touched = f"Locked out{tight}, but gauge or head was touched"
        cracked = f"Locked out, but {' and '.join(maybe)} are cracked"
        return [
            action("prepared", right, said, primary=True),
            action("prepared", touched, {**said, "touched": True}),
            *[action("prepared", cracked, {**said, "cracked": True}) for _ in maybe[:1]],
        ]
    moved = action(
        "prepared",
        "Safe and right, but the ram or turret was moved since last time",
        {"serial_number": number, "ram_moved": True},
        fields=[field("ram_angle", "Ram swung by, such as 15 deg", required=False)],
    )
    return [action("prepared", say, {"serial_number": number}, primary=True), moved]


def _touch_free(job: Job) -> list[Plain]:
    return [action("take", "Contact is free: take the reading", primary=True)]


def _touch_push(job: Job) -> list[Plain]:
    return [action("pushed", "Pushed and let go", primary=True)]


def _sweep(job: Job) -> list[Plain]:
    first, *others = wanted(job)
    # A sweep compared with the one before may be given up for one that stands alone.
    alone = [_again()] if job.turned else []
    take = action("take", f"Take the reading {AT[first]}", {"position": first}, primary=True)
    rest = [action("take", f"It stands {AT[p]}: take it", {"position": p}) for p in others]
    # Once more when the head was brought closer, but not close enough.
    found = "The head as found" if not job.loosened else "The head as it is now"
    off = action(
        "off-scale",
        f"Off scale {AT[first]}: record it",
        {"position": first},
        confirm=f"{found} is recorded as off the gauge's scale; no reading is kept.",
    )
    if job.loosened and not (job.off_scale and job.latest is None):
        return [take, *rest, _touch(), *alone]
    return [take, *rest, off, _touch(), *alone]


def _touch() -> Plain:
    return action("touch", "The gauge was zeroed: touch test")


def _park(job: Job) -> list[Plain]:
    place = next_place(job)
    at = AT[place] if place else ""
    actions = [action("take", f"Take the reading {at}", {"position": place}, primary=True)]
    if job.loose:
        return [*actions, *_tight_now(job), _touch()]
    return [*actions, _touch(), _again(), *_turned(job), _stop_here()]


def _stop_here() -> Plain:
    why = field("why", "Why the head is left as it is")
    return action("stop-here", "Leave it as it is", fields=[why])


def _tight_now(job: Job) -> list[Plain]:
    if job.axis not in job.loose:
        return []
    still = still_out(job)
    confirm = f"{still}: tighten all the same?" if still else ""
    say = f"Tight again: {job.setup.machine.axis(job.axis).bolts}"
    return [action("tightened", say, confirm=confirm)]


def _question(job: Job) -> list[Plain]:
    answers = job.question.answers if job.question else ()
    all_of = [_answer(each) for each in answers]
    # Whether it was zeroed is to be known before anything else is done.
    return all_of if job.zero_asked is not None else [*all_of, *_tight_now(job)]


def _answer(one: Answer) -> Plain:
    """A button of its own where the gauge has to be read as it stands now."""
    if one.key == ON_PURPOSE:
        return action("stopped", one.said, {"on_purpose": True})
    return action("answer", one.said, {"key": one.key}, primary=one.usual)


def _loosen(job: Job) -> list[Plain]:
    bolts = job.setup.machine.axis(cast(Axis, job.axis)).bolts
    return [action("loosened", f"Cracked {bolts}", primary=True)]


def _move(job: Job) -> list[Plain]:
    shimmed = job.stop is not None and job.stop.shim is not None
    done = "Shim in, bolts snug" if shimmed else "Stopped turning, hands off"
    return [action("stopped", done, primary=True), *_tight_now(job)]


def _check(job: Job) -> list[Plain]:
    place = next_place(job)
    at = AT[place] if place else ""
    take = action("take", f"Take the reading {at}", {"position": place}, primary=True)
    if job.loose or last_worked(job.story) == job.axis:
        return [take, *_tight_now(job), _touch()]
    return [take, _touch(), _again(), _stop_here()]


def _tighten(job: Job) -> list[Plain]:
    tighten = job.setup.machine.axis(cast(Axis, job.axis)).tighten
    step = next_step(tighten, job.bolt_steps)
    again = []
    if job.bolt_over_mm is not None and job.bolt_steps:
        bolt = steps(tighten)[job.bolt_steps - 1].bolt
        if step is None or step.bolt != bolt:
            again.append(action("bolt", f"Put {bolt} right: read again", {"bolt": bolt}))
    if step is None:
        return [action("tightened", "All tight", primary=True), *again]
    pulled = action("bolt", f"Pulled up {step.bolt}", {"bolt": step.bolt}, primary=True)
    return [pulled, *again, action("tightened", "All tight")]


def _closer(job: Job) -> list[Plain]:
    return [action("closer", "Set and tight again", primary=True)]


def _again() -> Plain:
    return action("again", "Sweep again", fields=[field("why", "Why another sweep")])


def _turned(job: Job) -> list[Plain]:
    """Another sweep with the ring or the arm half round: it takes their part out."""
    if not has_sweep_to_compare(job):
        return []
    ring = action("again", "Ring turned half round: sweep again", {"turned": "ring"})
    arm = action("again", "Arm clamped half round: sweep again", {"turned": "arm"})
    return [ring, arm] if job.setup.machine.seat in TURNS else [arm]


def _clear(job: Job) -> list[Plain]:
    cleared = action("cleared", "Arm out, wrench off the drawbar", primary=True)
    return [cleared, _again(), *_turned(job)]


def _sign(job: Job) -> list[Plain]:
    fields = [field("done_by", "Done by")]
    if asks_for_past(job):
        fields.append(field("last_good", "Last known good on", "date"))
        fields.append(field("disposition", "What becomes of the work since then"))
    if job.loosened and len(job.founds) > 1 and job.as_found is not None:
        say = "The sweep that shows how the head was found"
        fields.append(_which("as_found", say, job.founds, job.as_found))
        first = f"Why, if not sweep {job.as_found.number}, the first before anything was loosened"
        fields.append(field("as_found_why", first, required=False))
    if len(job.proofs) > 1 and job.as_left is not None:
        say = "The sweep that shows how the head is left"
        fields.append(_which("as_left", say, job.proofs, job.as_left))
        first = f"Why, if not sweep {job.as_left.number}, the first after the last tightening"
        fields.append(field("as_left_why", first, required=False))
    fields.append(field("reviewed_by", "Reviewed by", required=False))
    fields.append(field("note", "Note", required=False))
    return [action("sign", "Sign", primary=True, fields=fields), _again()]


def _which(name: str, say: str, sweeps: tuple[SweepDone, ...], first: SweepDone) -> Plain:
    """Which sweep counts: the first is chosen unless another is."""
    ordered = sorted(sweeps, key=lambda sweep: sweep != first)
    choices = [
        {"key": str(sweep.number), "say": f"Sweep {sweep.number}: {SHORT[word_of(sweep)]}"}
        for sweep in ordered
    ]
    chosen = {"choices": choices, "value": choices[0]["key"]}
    return {**field(name, say, "choice", required=False), **chosen}


_ACTIONS: dict[str, Callable[[Job], list[Plain]]] = {
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


def _do(job: Job) -> Plain:
    """What a person's hands do before pressing the step's first button."""
    if job.step == "touch-free":
        return {"kind": "free"}
    if job.step == "touch-push":
        return {"kind": "push"}
    if job.step in ("as-found", "final", "park", "check"):
        return {"kind": "swing", "position": next_place(job)}
    if job.step == "tighten":
        step = next_step(job.setup.machine.axis(cast(Axis, job.axis)).tighten, job.bolt_steps)
        if step is not None:
            return {"kind": "bolt", "axis": job.axis, "bolt": step.bolt, "say": part(step)}
    if job.step in ("loosen", "tighten"):
        return {"kind": job.step, "axis": job.axis}
    if job.step == "move" and job.stop is not None:
        if job.stop.by_hand:
            return {"kind": "nudge", "axis": job.axis, "back": job.stop.by_hand == "back"}
        stop = face_text(job, on_face(job, job.stop.stop_face_mm))
        return {"kind": "turn", "axis": job.axis, "stop_at_text": stop}
    return {"kind": "nothing"}
