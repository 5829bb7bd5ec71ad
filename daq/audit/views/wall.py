"""The wall's view: the instruction, the circle, both axes, the stop-at, the verdict."""

from typing import Any, Literal

from daq.audit.facts import face_text, word_of
from daq.audit.parts import AxisResult, Step, Word
from daq.audit.setup import REASONS
from daq.audit.state import Closed, Job, MachineState
from daq.audit.views.cautions import CAUTIONS, FIRST
from daq.audit.views.wording import AT, next_place, wording
from daq.units import show
from daq.words import AXES, Axis, Position

CIRCLE: tuple[Position, ...] = ("front", "right", "back", "left")

VERDICTS: dict[Word, str] = {
    "in": "Inside tolerance on both axes.",
    "out": "Outside tolerance.",
}

STAGES: tuple[tuple[str, str, tuple[Step, ...]], ...] = (
    ("prepare", "Prepare", ("prepare", "touch-free", "touch-push")),
    ("as-found", "As found", ("as-found",)),
    ("square", "Square", ("park", "question", "loosen", "move", "check", "tighten")),
    ("final", "Prove", ("final",)),
    ("clear", "Clear away", ("clear",)),
    ("sign", "Sign", ("sign",)),
)


def wall(state: MachineState, name: str) -> dict[str, Any]:
    """What the wall shows of one machine; `name` is its display name in today's config."""
    if state.job is not None:
        return _open(state.job)
    return _idle(state.last, name)


def _idle(last: Closed | None, name: str) -> dict[str, Any]:
    signed = last.signed if last is not None else None
    view: dict[str, Any] = {
        "machine_name": name,
        "unit": last.unit if last else "mm",
        "reason": REASONS[last.reason] if last else "",
        "step": "signed" if signed else "idle",
        "steps": [_stage(key, say, "done" if signed else "todo") for key, say, _ in STAGES],
        "title": "Ready for an audit.",
        "detail": "Choose why the head is being checked.",
        "notes": [],
        "cautions": [FIRST],
        "message": None,
        "circle": [_spot(p, "", "empty") for p in CIRCLE],
        "axes": [_axis_unknown(a, {"side": "Side to side", "nod": "Nod"}[a]) for a in AXES],
        "stop_at": None,
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
    word: Word = "in" if signed.verdict == "conforms" else "out"
    axes = []
    for axis, result in zip(AXES, signed.as_left, strict=True):
        spec = last.setup.machine.axis(axis)
        axes.append(_axis(axis, spec.say, result, last.unit, _digits(last), _diameter(last)))
    moves = "1 move" if signed.moves == 1 else f"{signed.moves} moves"
    return {
        "title": f"Audit {last.short} is signed: {word}.",
        "detail": f"{moves}. Done by {signed.done_by}. Ready for the next one.",
        "axes": axes,
        "verdict": {"word": word, "say": VERDICTS[word]},
        "moves": signed.moves,
    }


def _digits(last: Closed) -> int:
    return 3 if last.unit == "mm" else 4


def _diameter(last: Closed) -> str:
    diameter = 2 * last.setup.machine.sweep_radius
    return f"{show(diameter, last.unit, 0 if last.unit == 'mm' else 1)} {last.unit}"


def _open(job: Job) -> dict[str, Any]:
    say = wording(job)
    return {
        "machine_name": job.setup.machine.name,
        "unit": job.unit or job.setup.machine.unit,
        "reason": REASONS[job.reason],
        "step": job.step,
        "steps": _stages(job),
        "title": say.title,
        "detail": say.detail,
        "notes": list(say.notes),
        "cautions": list(CAUTIONS[job.step]),
        "message": {"code": job.message_code, "say": job.message} if job.message else None,
        "circle": [_place(job, p) for p in CIRCLE],
        "axes": [_axis_of(job, a) for a in AXES],
        "stop_at": _stop(job),
        "question": _question(job),
        "verdict": _verdict(job),
        "moves": job.moves,
    }


def _stage(key: str, say: str, state: str) -> dict[str, str]:
    return {"key": key, "say": say, "state": state}


def _stages(job: Job) -> list[dict[str, str]]:
    now = next(i for i, (_, _, steps) in enumerate(STAGES) if job.step in steps)
    states = ["done" if i < now else "now" if i == now else "todo" for i in range(len(STAGES))]
    return [_stage(key, say, s) for (key, say, _), s in zip(STAGES, states, strict=True)]


def _spot(position: Position, value: str, state: str) -> dict[str, str]:
    return {
        "position": position,
        "say": position.capitalize(),
        "value": value,
        "state": state,
    }


def _place(job: Job, position: Position) -> dict[str, str]:
    value = ""
    if position in job.shown:
        value = face_text(job, job.setup.gauge.face(job.shown[position]))
    if position == next_place(job) and job.step not in ("loosen", "move"):
        return _spot(position, value, "next")
    if job.base is not None and job.base.position == position:
        return _spot(position, value, "parked")
    return _spot(position, value, "done" if value else "empty")


def _axis_unknown(axis: Axis, say: str) -> dict[str, Any]:
    return {
        "axis": axis,
        "say": say,
        "value": "",
        "low": "",
        "limit": "",
        "over": "",
        "word": "",
        "zone": None,
    }


def _axis_of(job: Job, axis: Axis) -> dict[str, Any]:
    spec = job.setup.machine.axis(axis)
    unit = job.unit or job.setup.machine.unit
    result = job.results.get(axis)
    if result is None:
        return _axis_unknown(axis, spec.say)
    diameter = show(2 * job.setup.machine.sweep_radius, unit, 0 if unit == "mm" else 1)
    digits = 3 if unit == "mm" else 4
    return _axis(axis, spec.say, result, unit, digits, f"{diameter} {unit}")


def _axis(
    axis: Axis, say: str, result: AxisResult, unit: Literal["mm", "in"], digits: int, over: str
) -> dict[str, Any]:
    return {
        "axis": axis,
        "say": say,
        "value": show(result.error_mm, unit, digits, plus=True),
        "low": _low(axis, result.error_mm),
        "limit": f"±{show(result.limit_mm, unit, digits)}",
        "over": over,
        "word": result.word,
        "zone": result.error_mm / result.limit_mm,
    }


def _low(axis: Axis, error_mm: float) -> str:
    if abs(error_mm) < 5e-4:
        return "level"
    sides = ("right side low", "left side low") if axis == "side" else ("front low", "back low")
    return sides[0] if error_mm > 0 else sides[1]


def _stop(job: Job) -> dict[str, str] | None:
    stop = job.stop
    if stop is None:
        return None
    adjuster = job.setup.machine.axis(stop.axis).adjuster
    value = face_text(job, stop.stop_face_mm)
    return {
        "axis": stop.axis,
        "position": stop.position,
        "value": value,
        "base": face_text(job, stop.base_face_mm),
        "change": face_text(job, stop.stop_face_mm - stop.base_face_mm, plus=True),
        "way": "up" if stop.stop_face_mm > stop.base_face_mm else "down",
        "say": f"Gauge parked {AT[stop.position]}: turn {adjuster} until it reads {value}.",
    }


def _question(job: Job) -> dict[str, Any] | None:
    if job.question is None:
        return None
    answers = [{"key": a.key, "say": a.say} for a in job.question.answers]
    return {"say": job.question.say, "answers": answers}


def _verdict(job: Job) -> dict[str, str] | None:
    left = job.latest
    if left is None or job.step not in ("clear", "sign"):
        return None
    word = word_of(left)
    return {"word": word, "say": VERDICTS[word]}
