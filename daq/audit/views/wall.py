"""The wall's view: the instruction, the circle, both axes, the stop-at, the verdict."""

from typing import Any, Literal

from daq.audit.facts import face_text, unit_of, word_of
from daq.audit.history import WORDS
from daq.audit.parts import AxisResult, Step, Word
from daq.audit.setup import REASONS
from daq.audit.state import Closed, Job, MachineState
from daq.audit.views.cautions import CAUTIONS, FIRST
from daq.audit.views.wording import AT, next_place, verb, wording
from daq.metrology.rule import NOT_GOOD_ENOUGH
from daq.squaring.adjuster import say_shim
from daq.squaring.tightening import next_step, steps
from daq.units import show
from daq.words import AXES, Axis, Position

CIRCLE: tuple[Position, ...] = ("front", "right", "back", "left")

VERDICTS: dict[Word, str] = {
    "in": "Inside tolerance on both axes.",
    "out": "Outside tolerance.",
    "close": "The reading cannot tell inside from outside.",
}

HEADLINES: dict[str, str] = {
    "bumped": "Knocked?",
    "wrong-adjuster": "Wrong adjuster?",
    "reversed": "It went the other way.",
    "apart": "Not where it was left.",
    "bolt": "That bolt moved the head.",
    "moved": "Not at the stop-at.",
}
"""What a message says first, in letters that carry across a shop."""

SHORT: dict[Word, str] = {"in": "in", "out": "out", "close": "too close to call"}

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
        "warnings": [],
        "message": None,
        "headline": "",
        "circle": [_spot(p, "", "empty") for p in CIRCLE],
        "axes": [_axis_unknown(a, {"side": "Side to side", "nod": "Nod"}[a]) for a in AXES],
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
    axes = []
    for axis, result in zip(AXES, signed.as_left, strict=True):
        spec = last.setup.machine.axis(axis)
        axes.append(_axis(axis, spec.say, result, last.unit, _digits(last), _diameter(last)))
    moves = "1 move" if signed.moves == 1 else f"{signed.moves} moves"
    return {
        "title": f"Audit {last.short} is signed: {SHORT[word]}.",
        "detail": f"{moves}. Done by {signed.done_by}. Ready for the next one.",
        "axes": axes,
        "verdict": {"word": word, "say": say_verdict(word, signed.as_left)},
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
        "warnings": list(say.warnings),
        "message": {"code": job.message_code, "say": job.message} if job.message else None,
        "headline": HEADLINES.get(job.message_code, "") if job.message else "",
        "circle": [_place(job, p) for p in job.setup.plan.positions],
        "axes": [_axis_of(job, a) for a in AXES],
        "stop_at": _stop(job),
        "bolts": _bolts(job),
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
        "only": "",
        "note": "",
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
        "limit": _limit(axis, result, unit, digits),
        "over": over,
        "word": result.word,
        "zone": result.zone,
        "only": "high" if result.low_mm == 0.0 else "low" if result.high_mm == 0.0 else "",
        "note": "" if result.good_enough else NOT_GOOD_ENOUGH,
    }


def _limit(axis: Axis, result: AxisResult, unit: Literal["mm", "in"], digits: int) -> str:
    """±0.017, or where the two sides differ how much either may be low."""
    low, high = result.low_mm, result.high_mm
    if low is None or high is None or low == -high:
        return f"±{show(result.limit_mm, unit, digits)}"
    sides = zip((high, -low), _LOW[axis], strict=True)
    return ", ".join(
        f"{side} {show(size, unit, digits) if size else 'not at all'}" for size, side in sides
    )


_LOW: dict[Axis, tuple[str, str]] = {
    "side": ("right side low", "left side low"),
    "nod": ("front low", "back low"),
}


def _low(axis: Axis, error_mm: float) -> str:
    if abs(error_mm) < 5e-4:
        return "level"
    return _LOW[axis][0 if error_mm > 0 else 1]


def _stop(job: Job) -> dict[str, str] | None:
    stop = job.stop
    if stop is None:
        return None
    turn = verb(job.setup.machine.axis(stop.axis))
    value = face_text(job, stop.stop_face_mm)
    say = f"Gauge parked {AT[stop.position]}: {turn[0].lower()}{turn[1:]} until it reads {value}."
    if stop.shim is not None:
        say = f"Gauge parked {AT[stop.position]}: put {say_shim(stop.shim, unit_of(job))}."
    return {
        "axis": stop.axis,
        "position": stop.position,
        "value": value,
        "base": face_text(job, stop.base_face_mm),
        "change": face_text(job, stop.stop_face_mm - stop.base_face_mm, plus=True),
        "way": "up" if stop.stop_face_mm > stop.base_face_mm else "down",
        "past": face_text(job, stop.past_mm) if stop.past_mm else "",
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
        "limit": face_text(job, tighten.limit) if step else "",
        "since": face_text(job, last - job.tight_face_mm, plus=True),
    }


def _question(job: Job) -> dict[str, Any] | None:
    if job.question is None:
        return None
    answers = [{"key": a.key, "say": a.say} for a in job.question.answers]
    return {"say": job.question.say, "answers": answers}


def _verdict(job: Job) -> dict[str, str] | None:
    left = job.as_left
    if left is None or job.step not in ("clear", "sign"):
        return None
    word = word_of(left)
    return {"word": word, "say": say_verdict(word, (left.side, left.nod))}


def say_verdict(word: Word, axes: tuple[AxisResult, AxisResult]) -> str:
    """The verdict in a sentence; that the gauge is not good enough where that is why."""
    if word == "close" and not all(result.good_enough for result in axes):
        return NOT_GOOD_ENOUGH
    return VERDICTS[word]
