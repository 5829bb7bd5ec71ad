"""The adjuster is turned until the gauge reads the stop-at; where the turn ended."""

import math
from dataclasses import dataclass, replace
from typing import Final

from daq.audit import events as e
from daq.audit.facts import began_mm, certain, is_far_out, noise_mm, shown_face
from daq.audit.folding import go, leave, seen_at
from daq.audit.head import sees_mm
from daq.audit.held.move import Asked
from daq.audit.input import Input, Refused
from daq.audit.parts import Late, Next, StopAt
from daq.audit.questions import ON_PURPOSE, TURN_ON, Answer, Question
from daq.audit.reading import check_travel, move_of, watched
from daq.audit.stage import WATCHED, Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.views.common import (
    heed_turning,
    other_bolts,
    spec_of,
    stop_turning,
    tight_now,
    verb,
)
from daq.audit.views.figures import on_face
from daq.audit.views.step import Action, ByHand, Nudge, Turn, Wording
from daq.audit.views.to_go import ToGo, to_go
from daq.audit.way import last_way, lean_left
from daq.metrology.creeping import Creep, creeping
from daq.squaring import adjuster
from daq.squaring.story import Happened, Story
from daq.words import PARKED, Reading, Said, said

STOPPED = Answer(ON_PURPOSE, said("answer-stopped"))
TURN_BACK = Answer(TURN_ON, said("answer-turn-back"), usual=True)
READ_NOW = Answer(ON_PURPOSE, said("answer-read-now"), usual=True)
TURN_FURTHER = Answer(TURN_ON, said("answer-turn-further"), usual=True)
_WAIT_S: Final = 5
"""Seconds to wait are told by so many."""


@dataclass(frozen=True)
class Stopped:
    """The payload of `stopped`; `on_purpose`: however far it is from the stop-at."""

    on_purpose: bool = False


def stopped(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The adjuster was turned; where it stopped, and whether it answered as it should.

    A stop far from the stop-at is asked about first: a foot may press before the hands are done.
    So is one where the number still creeps, once.
    """
    on_purpose = given.payload(Stopped).on_purpose
    stop = move_of(job)
    if job.step == "question" and (job.zero_asked is not None or not on_purpose):
        raise Refused("question-open")
    reading = watched(job, given, stop.position)
    check_travel(job, reading)
    now_mm, axis = reading.mean_mm, stop.axis
    # Pressed again at the number already asked about, it goes no further: the check will tell.
    asked = job.parked.asked if job.parked is not None else None
    told = asked is not None and abs(now_mm - asked.mean_mm) <= noise_mm(job)
    if is_far(job, stop, now_mm) and not told and not on_purpose:
        past, to = now_mm - stop.stop_face_mm, Next("question", axis)
        return (e.StopDoubted(axis, reading, past, meant(job, stop, now_mm), to),)
    creep = creeping(given.samples, job.setup.gauge.resolution)
    if creep is not None and creep.wait_s > 0.0 and not told and not on_purpose:
        past, to = now_mm - stop.stop_face_mm, Next("question", axis)
        return (e.StopDoubted(axis, reading, past, _creeps(job, creep), to),)
    return (_ended(job, stop, reading, creep),)


def _creeps(job: Job, creep: Creep) -> Question:
    """The question whether a number that still creeps is read: later, or now all the same."""
    seconds = _WAIT_S * math.ceil(creep.wait_s / _WAIT_S)
    by = shown_face(job, abs(creep.left_mm))
    return Question(said("creeps-still", by=by, seconds=seconds), (READ_NOW, TURN_FURTHER))


def _ended(job: Job, stop: StopAt, reading: Reading, creep: Creep | None) -> e.Moved:
    """A turn that ended at this reading: what is to be said of it, and what it tells."""
    now_mm = reading.mean_mm
    past, wrong = now_mm - stop.stop_face_mm, missed(job, stop, now_mm)
    way = _last_way(job, stop, now_mm)
    late = None
    if way and not is_far(job, stop, now_mm):
        late = past * _shows(stop, way)
    left_mm = math.hypot(creep.left_mm, creep.doubt_mm) if creep is not None else 0.0
    creeps = abs(left_mm) / max(sees_mm(job, stop.axis), 0.5 * job.setup.machine.sweep_radius)
    return e.Moved(stop.axis, reading, past, Next("check", stop.axis), wrong, way, late, creeps)


def _last_way(job: Job, stop: StopAt, face_mm: float) -> int:
    """Which way the lean was turned last; 0 where the number does not tell."""
    if stop.by_hand or _went_away(job, stop, face_mm):
        return 0
    asked = job.parked.asked if job.parked is not None else None
    if asked is not None and abs(face_mm - asked.mean_mm) > noise_mm(job):
        # Asked whether it had ended, it was turned on, or back.
        turned = (face_mm - asked.mean_mm) * _shows(stop, 1)
    else:
        sense = 1.0 if stop.position == PARKED[stop.axis] else -1.0
        turned = sense * (stop.wanted - stop.lean)
    return last_way(job, stop.axis, turned)


def _shows(stop: StopAt, way: int) -> int:
    """Which way the face goes, 1 up, while the lean of the axis is turned this way."""
    toward = way if stop.position == PARKED[stop.axis] else -way
    along = (stop.stop_face_mm - stop.base_face_mm) * (stop.wanted - stop.lean)
    return toward if along >= 0.0 else -toward


def missed(job: Job, stop: StopAt, face_mm: float) -> Said | None:
    """What is to be said of where the turn ended; None when it ended where it should."""
    if stop.by_hand:
        return None
    if _went_away(job, stop, face_mm):
        return said("went-away", adjuster=job.setup.machine.axis(stop.axis).adjuster)
    past = abs(face_mm - stop.stop_face_mm)
    onward = _is_past(job, stop, face_mm)
    if (onward and past > noise_mm(job)) or is_far(job, stop, face_mm):
        by = shown_face(job, past)
        return said("stopped-off", by=by, where="past" if onward else "short")
    return None


def _went_away(job: Job, stop: StopAt, face_mm: float) -> bool:
    gauge = job.setup.gauge
    stood, end, now = (gauge.pushed(mm) for mm in (began_mm(job, stop), stop.stop_face_mm, face_mm))
    return adjuster.reverse(stood, end, now, noise_mm(job))


def _is_past(job: Job, stop: StopAt, face_mm: float) -> bool:
    return (face_mm - stop.stop_face_mm) * (stop.stop_face_mm - began_mm(job, stop)) > 0.0


def is_far(job: Job, stop: StopAt, face_mm: float) -> bool:
    """Whether a turn that ends here leaves its axis far out, by more than the number's noise."""
    if stop.by_hand:
        return False
    left_mm = lean_left(job, stop, face_mm) * job.setup.machine.diameter
    return is_far_out(job, stop.axis, left_mm) and abs(face_mm - stop.stop_face_mm) > noise_mm(job)


def meant(job: Job, stop: StopAt, face_mm: float) -> Question:
    """The question whether a turn is to end here."""
    by = shown_face(job, abs(face_mm - stop.stop_face_mm))
    past = _is_past(job, stop, face_mm)
    way = "wrong" if _went_away(job, stop, face_mm) else "right"
    asked = said("stop-far", way=way, by=by, where="past" if past else "short")
    return Question(asked, (TURN_BACK if past else TURN_FURTHER, STOPPED))


def _says(job: Job) -> Wording:
    spec = spec_of(job)
    move = certain(job.stop)
    others = (other_bolts(job),)
    if move.by_hand:
        turn = verb(spec)
        back = move.by_hand == "back"
        title = said("a-little-back", turn=turn) if back else said("a-little", turn=turn)
        return Wording(title, said("a-little-how"), others)
    way = to_go(job, move)
    stop = shown_face(job, way.stop_face_mm)
    return Wording(
        said("turn-until", turn=verb(spec), stop=stop),
        said("turn-how", goes=_goes(job, way), come=_come(job, way, move)),
        others,
        way.warnings,
    )


def _goes(job: Job, way: ToGo) -> Said:
    """Which way the number goes from where it stands, and in how many turns."""
    if way.there:
        return said("there-already")
    goes = said("goes", way=way.way, now=shown_face(job, way.now_face_mm))
    if not way.turns:
        return goes
    return said("and-then", first=goes, next=said("that-is", turns=way.turns))


def _come(job: Job, way: ToGo, move: StopAt) -> Said | str:
    if not way.past_mm:
        return move.approach or ""
    return said("go-past", by=shown_face(job, way.past_mm), come=move.approach or "")


def _buttons(job: Job) -> list[Action]:
    return [Action("stopped", said("stopped"), primary=True), *tight_now(job)]


def _hands(job: Job) -> ByHand | Nudge | Turn:
    if job.stop is None:
        return ByHand("nothing")
    if job.stop.by_hand:
        return Nudge(job.axis, job.stop.by_hand == "back")
    return Turn(job.axis, shown_face(job, on_face(job, job.stop.stop_face_mm)))


def _doubted(job: Job, data: e.StopDoubted) -> Job:
    """The stop-at stands; whether the turn ended is for the answer."""
    parked = job.parked and replace(job.parked, asked=data.reading)
    return replace(go(job, data.next), parked=parked, asked=Asked(data.question))


def _moved(job: Job, data: e.Moved) -> Job:
    """The head stands elsewhere; what it did when the hand left is not known yet."""
    told = seen_at(data.reading.position, job.setup.gauge.pushed(data.reading.mean_mm))
    stopped = tuple(replace(reading, stays=True) for reading in told)
    rested = Happened("rested", data.axis, data.way, data.creeps)
    happened: Story = (Happened("moved", data.axis), *stopped, rested)
    late = () if data.late_mm is None else (Late(data.axis, data.late_mm),)
    return replace(
        leave(job, data.next, data.said),
        tightening=replace(job.tightening, before={}),
        moves=replace(job.moves, made=job.moves.made + 1, late=(*job.moves.late, *late)),
        head=replace(job.head, story=(*job.head.story, *happened)),
    )


STAGES = (
    Stage(
        "move",
        shows=Shows("square", _says, _buttons, _hands, heed_turning, stop_turning),
        commands={"stopped": Handler(stopped, WATCHED), "tightened": "tighten"},
        took={e.StopDoubted: Took(_doubted, undoable=True), e.Moved: Took(_moved, undoable=True)},
    ),
)
