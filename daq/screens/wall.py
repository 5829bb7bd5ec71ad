"""The wall's view: the instruction, the circle, both axes, the stop-at, the verdict."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from daq.audit import addendum
from daq.audit.ages import spot_age
from daq.audit.facts import shown_face, unasked, unit_of, word_of
from daq.audit.history import WORDS
from daq.audit.rounds import Chosen, Offer
from daq.audit.safe import maybe_unsafe
from daq.audit.stages import STAGES
from daq.audit.state import Closed, Job, MachineState
from daq.audit.views import handed, rounds
from daq.audit.views.common import FIRST
from daq.audit.views.figures import limit
from daq.audit.views.not_safe import not_safe
from daq.audit.views.places import named, next_place
from daq.audit.views.remarks import closed_remarks, opened_for, said_with
from daq.audit.views.shapes import (
    AnswerView,
    BoltsView,
    Message,
    QuestionView,
    SpotView,
    StageView,
    VerdictView,
    WallView,
)
from daq.screens.axes import axes_closed, axes_open, axes_unknown, say_verdict, short
from daq.screens.halt import halt
from daq.screens.idle import choose
from daq.screens.instruction import instruction
from daq.screens.picture import picture
from daq.screens.stop import stop
from daq.words import FOUR_POSITIONS, Person, Position, Said, Text, said

HEADLINES: dict[str, Said] = {
    "knocked": said("headline-knocked"),
    "knocked-while-tight": said("headline-knocked"),
    "tightened-too-far": said("headline-knocked"),
    "tightened-read-again": said("headline-read-again"),
    "another-adjuster": said("headline-another-adjuster"),
    "answered-backwards": said("headline-backwards"),
    "led-astray": said("headline-astray"),
    "elsewhere": said("headline-elsewhere"),
    "bolt-over": said("headline-bolt"),
    "went-away": said("headline-not-there"),
    "stopped-off": said("headline-not-there"),
    "crept": said("headline-crept"),
    "number-stuck": said("headline-stuck"),
    "pushed-not-back": said("headline-not-back"),
    "flick-not-back": said("headline-not-back"),
    "zeroed-or-lifted": said("headline-lifted"),
    "differs": said("headline-differs"),
}
"""What a message says first, in letters that carry across a shop."""
WARNED: dict[str, Said] = {
    "move-past-travel": said("headline-travel"),
    "move-off-scale": said("headline-travel"),
    "move-lifts-contact": said("headline-lifts"),
    "move-little-preload": said("headline-preload"),
}
"""The same of a warning."""
_LOOK = said("headline-look")
"""Of anything else: what it says is too long for that."""
_SHORT = ("gauge-answers", "zeroed-noted", "zeroed-read-again", "away-while-parked", "unit-changed")
"""What is short enough to be told whole."""

PARTS = ("prepare", "as-found", "square", "final", "stations", "clear", "sign")
"""The parts of an audit, in their order; each stage says which it belongs to."""


_OF_HEAD = ("as-found", "square", "final")


def wall(state: MachineState, name: str, offers: Sequence[Offer] = ()) -> WallView:
    """What the wall shows of one machine; `name` is its display name in today's config.

    `offers`: the checks besides squaring that the machine's file offers today.
    """
    if state.job is not None:
        return _open(state.job)
    idle = _idle(state.last, name, choose(offers))
    if state.unsafe is None:
        return idle
    risk = not_safe(state.unsafe)
    notes = () if state.last is None else (said("was-abandoned", audit=state.last.short),)
    return replace(idle, step="unsafe", title=risk.title, detail=risk.todo, notes=notes)


def _idle(last: Closed | None, name: str, to_choose: Said) -> WallView:
    signed = last.signed if last is not None else None
    places = last.setup.plan.positions if last is not None else FOUR_POSITIONS
    view = WallView(
        machine_name=name,
        unit=last.unit if last else "mm",
        reason=_reason(last) if last else None,
        step="signed" if signed else "idle",
        steps=tuple(
            _stage(key, "done" if signed else "todo")
            for key in _parts_of(last.check if last else None)
        ),
        title=said("ready"),
        detail=to_choose,
        halt=None,
        notes=(),
        cautions=(FIRST,),
        warnings=(),
        message=None,
        headline=None,
        circle=tuple(_spot(p, None, "empty") for p in places),
        axes=axes_unknown(),
        stop_at=None,
        bolts=None,
        question=None,
        verdict=None,
        moves=0,
    )
    if last is None:
        return view
    if last.signed is None:
        abandoned = said("was-abandoned", audit=last.short)
        return replace(view, detail=said("and-then", first=abandoned, next=to_choose))
    signed_view = _signed(view, last)
    return replace(signed_view, notes=(*addendum.newest(last.later), *signed_view.notes))


def _reason(last: Closed) -> Said:
    squared = last.signed is not None and last.signed.moves > 0
    return opened_for(last.check, last.reason, squared=squared)


def _signed(view: WallView, last: Closed) -> WallView:
    signed = last.signed
    if signed is None:
        return view
    word = WORDS[signed.verdict]
    if last.check is not None:
        came = rounds.came_to(last.check, word)
        return replace(
            view,
            title=said("check-signed", came=came, audit=last.short),
            detail=said("check-signed-by", by=Person(signed.done_by)),
            circle=(),
            axes=rounds.results(signed.round, last.unit),
            notes=(*said_with(signed), *rounds.seen_then(last)),
            picture="verdict",
            verdict=replace(rounds.as_word(last.check, word), say=None),
        )
    assert signed.as_left is not None
    return replace(
        view,
        title=said("audit-signed", audit=last.short, word=short(word)),
        detail=said("audit-signed-by", moves=signed.moves, by=Person(signed.done_by)),
        axes=axes_closed(last, signed.as_left, signed.whole),
        notes=closed_remarks(last, signed),
        verdict=VerdictView(word, say_verdict(word, signed.as_left, signed.whole)),
        moves=signed.moves,
        picture="verdict",
    )


def _open(job: Job) -> WallView:
    say = instruction(job)
    message = None if job.is_told("number-moves") else job.message
    wanted = next_place(job)
    return WallView(
        machine_name=job.setup.machine.name,
        unit=unit_of(job),
        reason=opened_for(job.check, job.reason, squared=job.moves.squaring_asked),
        step=job.step,
        steps=_stages(job),
        title=say.title,
        detail=say.detail,
        halt=halt(job),
        notes=say.notes,
        cautions=STAGES[job.step].shows.cautions(job),
        warnings=say.warnings,
        message=Message(message.code, message) if message else None,
        headline=_headline(message, say.warnings),
        circle=() if job.check else tuple(_place(job, p, wanted) for p in job.setup.plan.positions),
        axes=rounds.latest(job) if job.check else axes_open(job),
        stations=rounds.stations(job),
        arm=_arm(job),
        stop_at=stop(job),
        bolts=_bolts(job),
        question=_question(job),
        verdict=_verdict(job),
        moves=job.moves.made,
        hands=handed.in_hand(job.handed),
        picture=picture(job),
    )


def _headline(message: Said | None, warnings: Sequence[Text]) -> Said | None:
    """What is to be known before the step is done, in a few words; None: nothing is."""
    told = [each.code for each in (message, *warnings) if isinstance(each, Said)]
    return (HEADLINES | WARNED).get(told[0], _LOOK) if told and told[0] not in _SHORT else None


def _arm(job: Job) -> Said | None:
    """What flies when the power comes back, from the card on that puts it in."""
    risk = maybe_unsafe(job)
    if risk is None or not risk.arm:
        return None
    if risk.gauge:
        return said("gauge-set-up")
    return said("arm-is-in") if job.arm_in else said("arm-goes-in")


def _stage(key: str, state: Literal["done", "now", "todo"]) -> StageView:
    return StageView(key, said("stage", stage=key), state)


def _parts_of(check: Chosen | None) -> tuple[str, ...]:
    """The parts of an audit of the head, or of another check."""
    others = ("stations",) if check is None else _OF_HEAD
    return tuple(key for key in PARTS if key not in others)


def _stages(job: Job) -> tuple[StageView, ...]:
    parts = _parts_of(job.check)
    part = STAGES[unasked(job).step].shows.part
    now = parts.index(part) if part else -1
    return tuple(
        _stage(key, "done" if i < now else "now" if i == now else "todo")
        for i, key in enumerate(parts)
    )


def _spot(
    position: Position,
    value: Text,
    state: Literal["empty", "next", "parked", "done"],
    age: str | None = None,
) -> SpotView:
    return SpotView(position, named(position), value, said("age", age=age) if age else None, state)


def _place(job: Job, position: Position, wanted: Position | None) -> SpotView:
    value, age = None, None
    if position in job.circle.shown:
        value = shown_face(job, job.circle.shown[position])
        age = spot_age(job, position)
    if position == wanted and job.step not in ("loosen", "move"):
        return _spot(position, value, "next", age or ("was" if value else None))
    if job.base is not None and job.base.position == position:
        return _spot(position, value, "parked", age)
    return _spot(position, value, "done" if value else "empty", age)


def _bolts(job: Job) -> BoltsView | None:
    """Whose turn it is, what one bolt may do to the number and what those before it did.

    The live number's distance counts from before the first bolt; so does `since`.
    """
    if job.step != "tighten" or job.axis is None or job.bolts.first_face_mm is None:
        return None
    bolt = job.ahead.bolt if job.ahead is not None else None
    last = job.bolts.first_face_mm if job.bolts.last_face_mm is None else job.bolts.last_face_mm
    allowed = limit(job, job.setup.machine.axis(job.axis).tighten.limit)
    return BoltsView(
        bolt=bolt,
        step=job.bolts.steps + 1,
        of=job.ahead.bolts if job.ahead is not None else 0,
        limit=allowed if bolt else None,
        since=shown_face(job, last - job.bolts.first_face_mm, plus=True),
        order=job.setup.machine.axis(job.axis).tighten.bolts if bolt else (),
    )


def _question(job: Job) -> QuestionView | None:
    if job.asked is None:
        return None
    question = job.asked.question
    answers = tuple(AnswerView(a.key, a.said) for a in question.answers)
    return QuestionView(question.said, answers)


def _verdict(job: Job) -> VerdictView | None:
    proof = job.sweeps.as_left
    if job.check is not None:
        return rounds.verdict(job)
    if proof is None or job.step not in ("clear", "sign"):
        return None
    word = word_of(proof)
    return VerdictView(word, say_verdict(word, proof.results, proof.whole))
