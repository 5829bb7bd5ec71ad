"""The wall's view: the instruction, the circle, both axes, the stop-at, the verdict."""

from typing import Any

from daq.audit.ages import spot_age
from daq.audit.facts import face_text, turned_to, unasked, unit_of, word_of
from daq.audit.history import WORDS
from daq.audit.parts import Step
from daq.audit.setup import REASONS
from daq.audit.state import Closed, Job, MachineState
from daq.audit.views.axes import SHORT, axes_closed, axes_open, axes_unknown, say_verdict
from daq.audit.views.cautions import FIRST, cautions, say_unsafe
from daq.audit.views.figures import limit_text
from daq.audit.views.halt import halt
from daq.audit.views.left import left
from daq.audit.views.places import AT, next_place
from daq.audit.views.wording import verb, wording
from daq.squaring.adjuster import say_shim
from daq.squaring.tightening import next_step, steps
from daq.words import FOUR_POSITIONS, Position, Said, said

HEADLINES: dict[str, str] = {
    "knocked": "Knocked?",
    "knocked-while-tight": "Knocked?",
    "tightened-too-far": "Knocked?",
    "tightened-read-again": "Read both spots again.",
    "another-adjuster": "Wrong adjuster?",
    "answered-backwards": "It went the other way.",
    "led-astray": "No stop-at for now.",
    "apart": "Not where it was left.",
    "bolt-over": "That bolt moved the head.",
    "went-away": "Not at the stop-at.",
    "stopped-off": "Not at the stop-at.",
    "number-stuck": "Does the gauge move?",
}
"""What a message says first, in letters that carry across a shop."""

STAGES: tuple[tuple[str, str, tuple[Step, ...]], ...] = (
    ("prepare", "Prepare", ("prepare", "touch-free", "touch-push")),
    ("as-found", "As found", ("as-found",)),
    ("square", "Square", ("park", "question", "loosen", "move", "check", "tighten", "closer")),
    ("final", "Prove", ("final",)),
    ("clear", "Clear away", ("clear",)),
    ("sign", "Sign", ("sign",)),
)


def wall(state: MachineState, name: str) -> dict[str, Any]:
    """What the wall shows of one machine; `name` is its display name in today's config."""
    if state.job is not None:
        return _open(state.job)
    idle = _idle(state.last, name)
    if state.unsafe is None:
        return idle
    title, todo, _ = say_unsafe(state.unsafe)
    note = f"Audit {state.last.short} was abandoned." if state.last is not None else ""
    return {**idle, "step": "unsafe", "title": title, "detail": todo, "notes": [note]}


def _idle(last: Closed | None, name: str) -> dict[str, Any]:
    signed = last.signed if last is not None else None
    places = last.setup.plan.positions if last is not None else FOUR_POSITIONS
    view: dict[str, Any] = {
        "machine_name": name,
        "unit": last.unit if last else "mm",
        "reason": REASONS[last.reason] if last else "",
        "step": "signed" if signed else "idle",
        "steps": [_stage(key, say, "done" if signed else "todo") for key, say, _ in STAGES],
        "title": "Ready for an audit.",
        "detail": "Choose why the head is being checked.",
        "halt": None,
        "notes": [],
        "cautions": [FIRST],
        "warnings": [],
        "message": None,
        "headline": "",
        "circle": [_spot(p, "", "empty") for p in places],
        "axes": axes_unknown(),
        "stop_at": None,
        "bolts": None,
        "question": None,
        "verdict": None,
        "moves": 0,
    }
    if last is not None and signed is not None:
        view |= _signed(last)
    elif last is not None:
        view["detail"] = f"Audit {last.short} was abandoned. {view['detail']}"
    return view


def _signed(last: Closed) -> dict[str, Any]:
    signed = last.signed
    if signed is None:
        return {}
    word = WORDS[signed.verdict]
    moves = "1 move" if signed.moves == 1 else f"{signed.moves} moves"
    return {
        "title": f"Audit {last.short} is signed: {SHORT[word]}.",
        "detail": f"{moves}. Done by {signed.done_by}. Ready for the next one.",
        "axes": axes_closed(last, signed.as_left),
        "verdict": {"word": word, "say": say_verdict(last, word, signed.as_left)},
        "moves": signed.moves,
    }


def _open(job: Job) -> dict[str, Any]:
    say = wording(job)
    # That the number moves again is told by the number.
    message = None if job.is_told("number-moves") else job.message
    return {
        "machine_name": job.setup.machine.name,
        "unit": job.unit or job.setup.machine.unit,
        "reason": REASONS[job.reason],
        "step": job.step,
        "steps": _stages(job),
        "title": say.title,
        "detail": say.detail,
        "halt": halt(job),
        "notes": list(say.notes),
        "cautions": list(cautions(job)),
        "warnings": list(say.warnings),
        "message": {"code": message.code, "say": message} if message else None,
        "headline": HEADLINES.get(message.code, "") if message else "",
        "circle": [_place(job, p) for p in job.setup.plan.positions],
        "axes": axes_open(job),
        "stop_at": _stop(job),
        "bolts": _bolts(job),
        "question": _question(job),
        "verdict": _verdict(job),
        "moves": job.moves,
    }


def _stage(key: str, say: str, state: str) -> dict[str, str]:
    return {"key": key, "say": say, "state": state}


def _stages(job: Job) -> list[dict[str, str]]:
    step = unasked(job).step
    now = next(i for i, (_, _, steps) in enumerate(STAGES) if step in steps)
    states = ["done" if i < now else "now" if i == now else "todo" for i in range(len(STAGES))]
    return [_stage(key, say, s) for (key, say, _), s in zip(STAGES, states, strict=True)]


def _spot(position: Position, value: str, state: str, age: str = "") -> dict[str, str]:
    return {
        "position": position,
        "say": position.capitalize(),
        "value": value,
        "age": age,
        "state": state,
    }


def _place(job: Job, position: Position) -> dict[str, str]:
    value, age = "", ""
    if position in job.shown:
        value = face_text(job, job.setup.gauge.face(job.shown[position]))
        age = spot_age(job, position) or ""
    if position == next_place(job) and job.step not in ("loosen", "move"):
        return _spot(position, value, "next", age or ("was" if value else ""))
    if job.base is not None and job.base.position == position:
        return _spot(position, value, "parked", age)
    return _spot(position, value, "done" if value else "empty", age)


def _stop(job: Job) -> dict[str, str | Said] | None:
    """The stop-at, and what is left of the way to it from where the gauge stands now."""
    stop = turned_to(job)
    if stop is None or stop.by_hand:
        return None
    way = left(job, stop)
    turn = verb(job.setup.machine.axis(stop.axis))
    value = face_text(job, way.stop_face_mm)
    say: str | Said = (
        f"Gauge parked {AT[stop.position]}: {turn[0].lower()}{turn[1:]} until it reads {value}."
    )
    if stop.shim is not None:
        say = said("parked-shim", at=AT[stop.position], shim=say_shim(stop.shim, unit_of(job)))
    return {
        "axis": stop.axis,
        "position": stop.position,
        "value": value,
        "base": face_text(job, way.now_face_mm),
        "change": face_text(job, way.change_mm, plus=True),
        "way": way.way,
        "past": face_text(job, way.past_mm) if way.past_mm else "",
        "say": say,
    }


def _bolts(job: Job) -> dict[str, str | int] | None:
    """Whose turn it is, what one bolt may do to the number and what those before it did.

    The live number's distance counts from before the first bolt; so does `since`.
    """
    if job.step != "tighten" or job.axis is None or job.tight_face_mm is None:
        return None
    tighten = job.setup.machine.axis(job.axis).tighten
    step = next_step(tighten, job.bolt_steps)
    last = job.tight_face_mm if job.bolt_face_mm is None else job.bolt_face_mm
    return {
        "bolt": step.bolt if step else "",
        "step": job.bolt_steps + 1,
        "of": len(steps(tighten)),
        "limit": limit_text(job, tighten.limit) if step else "",
        "since": face_text(job, last - job.tight_face_mm, plus=True),
    }


def _question(job: Job) -> dict[str, Any] | None:
    if job.question is None:
        return None
    answers = [{"key": a.key, "say": a.said} for a in job.question.answers]
    return {"say": job.question.said, "answers": answers}


def _verdict(job: Job) -> dict[str, str | Said] | None:
    proof = job.as_left
    if proof is None or job.step not in ("clear", "sign"):
        return None
    word = word_of(proof)
    return {"word": word, "say": say_verdict(job, word, (proof.side, proof.nod))}
