"""The adjuster is turned until the gauge reads the stop-at; where the turn ended."""

import math
from dataclasses import dataclass, replace

from daq.audit import events as e
from daq.audit.anytime.gauge import check_turned
from daq.audit.asked import is_to_come_back
from daq.audit.facts import began_mm, certain, half_zone, noise_mm, shown_face
from daq.audit.folding import as_foreseen, go, leave, seen_at
from daq.audit.head import hand_mm, sees_mm, stop_stats
from daq.audit.held.move import Asked
from daq.audit.held.tightening import Bolts
from daq.audit.input import Input, Refused
from daq.audit.moved_parts import Late
from daq.audit.parts import Next, StopAt
from daq.audit.questions import ON_PURPOSE, PRESS_AGAIN, TURN_ON, Answer, Question
from daq.audit.reading import check_travel, move_of, watched
from daq.audit.soonest import after_work
from daq.audit.stage import WATCHED, Handler, Shows, Stage, Took
from daq.audit.state import Job
from daq.audit.stop_band import within_mm
from daq.audit.views.common import (
    heed_turning,
    other_bolts,
    spec_of,
    stop_turning,
    tight_now,
    verb,
)
from daq.audit.views.figures import on_face
from daq.audit.views.step import Action, ByHand, Do, Nudge, Wording
from daq.audit.views.to_go import ToGo, to_go, turn
from daq.audit.way import last_way, lean_left
from daq.metrology.creeping import Creep, by_fives, creeping
from daq.squaring import adjuster
from daq.squaring.resting import late_by
from daq.squaring.story import Happened, Story
from daq.units import SLACK_MM
from daq.words import PARKED, Reading, Said, said

_TURNED = 1.5
"""By more than so many counts a number that was asked about went on, or back."""
STOPPED = Answer(ON_PURPOSE, said("answer-stopped"))
STAYS = Answer(ON_PURPOSE, said("answer-stays"))
BROUGHT_BACK = Answer(PRESS_AGAIN, said("answer-brought-back"), usual=True)
TURN_BACK = Answer(TURN_ON, said("answer-turn-back"), usual=True)
READ_NOW = Answer(ON_PURPOSE, said("answer-read-now"), usual=True)
TURN_FURTHER = Answer(TURN_ON, said("answer-turn-further"), usual=True)


@dataclass(frozen=True)
class Stopped:
    """The payload of `stopped`; `on_purpose`: however far it is from the stop-at."""

    on_purpose: bool = False


def stopped(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The adjuster was turned; where it stopped, and whether it answered as it should.

    A stop that leaves its axis out is asked about first: a foot may press before the hands are
    done, and what is past can be brought back before anything is made of it.
    So is one where the number still creeps, once.
    """
    on_purpose = given.payload(Stopped).on_purpose
    stop, back = move_of(job), is_to_come_back(job)
    if job.step == "question" and (job.zero_asked is not None or not (on_purpose or back)):
        raise Refused("question-open")
    reading = watched(job, given, stop.position)
    check_turned(job, given)
    check_travel(job, reading)
    now_mm, axis = reading.mean_mm, stop.axis
    # Pressed again at the number already asked about, it goes no further: the check will tell.
    asked = job.parked.asked if job.parked is not None and not back else None
    told = asked is not None and abs(now_mm - asked.mean_mm) <= noise_mm(job)
    if leaves_out(job, stop, now_mm) and not told and not on_purpose:
        past, to = now_mm - stop.stop_face_mm, Next("question", axis)
        return (e.StopDoubted(axis, reading, past, meant(job, stop, now_mm), to),)
    creep = creeping(given.samples, job.setup.gauge.resolution)
    if creep is not None and creep.wait_s > 0.0 and not told and not on_purpose:
        past, to = now_mm - stop.stop_face_mm, Next("question", axis)
        return (e.StopDoubted(axis, reading, past, _creeps(job, creep), to),)
    return (_ended(job, stop, reading, creep, meant=on_purpose),)


def _creeps(job: Job, creep: Creep) -> Question:
    """The question whether a number that still creeps is read: later, or now all the same."""
    asked = said(
        "creeps-still", by=shown_face(job, abs(creep.left_mm)), seconds=by_fives(creep.wait_s)
    )
    return Question(asked, (READ_NOW, TURN_FURTHER))


def _ended(
    job: Job, stop: StopAt, reading: Reading, creep: Creep | None, *, meant: bool
) -> e.Moved:
    """A turn that ended at this reading: what is to be said of it, and what it tells.

    `meant`: it ended there on purpose: out by so much, that tells nothing of the hand.
    """
    now_mm = reading.mean_mm
    past, wrong = now_mm - stop.stop_face_mm, missed(job, stop, now_mm)
    way = _last_way(job, stop, now_mm)
    late = None
    # Out by its limit again, it was stopped early, or for another reason than a slow hand.
    left_mm = lean_left(job, stop, now_mm) * job.setup.machine.diameter
    most_mm = (1.0 if meant else 2.0) * half_zone(job, stop.axis)
    if way and abs(left_mm) <= most_mm:
        late = past * _shows(stop, way)
    still_mm = math.hypot(creep.left_mm, creep.doubt_mm) if creep is not None else 0.0
    creeps = still_mm / max(sees_mm(job, stop.axis), 0.5 * job.setup.machine.sweep_radius)
    check = Next("check", stop.axis)
    moved = e.Moved(stop.axis, reading, past, check, wrong, way=way, late_mm=late, creeps=creeps)
    if stop.by_hand or _went_away(job, stop, now_mm):
        return moved
    follows, stands = after_work(_moved(job, moved), moved.axis)
    return replace(moved, next=follows, stands=stands)


def _last_way(job: Job, stop: StopAt, face_mm: float) -> int:
    """Which way the lean was turned last; 0 where the number does not tell."""
    if stop.by_hand or _went_away(job, stop, face_mm):
        return 0
    asked = job.parked.asked if job.parked is not None else None
    if asked is not None and abs(face_mm - asked.mean_mm) > _TURNED * job.setup.gauge.resolution:
        # Asked whether it had ended, it was turned on, or back.
        turned = (face_mm - asked.mean_mm) * _shows(stop, 1)
    else:
        turned = _turn(stop)
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
    noticed = onward and past > max(noise_mm(job), stop.band_mm)
    if noticed or leaves_out(job, stop, face_mm):
        by = shown_face(job, past)
        return said("stopped-off", by=by, where="past" if onward else "short")
    return None


def _went_away(job: Job, stop: StopAt, face_mm: float) -> bool:
    gauge = job.setup.gauge
    stood, end, now = (gauge.pushed(mm) for mm in (began_mm(job, stop), stop.stop_face_mm, face_mm))
    return adjuster.reverse(stood, end, now, noise_mm(job))


def _is_past(job: Job, stop: StopAt, face_mm: float) -> bool:
    return (face_mm - stop.stop_face_mm) * (stop.stop_face_mm - began_mm(job, stop)) > 0.0


def leaves_out(job: Job, stop: StopAt, face_mm: float) -> bool:
    """Whether a turn that ends here is likelier than not to leave its axis out.

    That is off by more than the axis may be, and not within what the screens call there; of a
    stop-at from before that was told, not within the number's noise.
    """
    if stop.by_hand:
        return False
    # The stop-at is told so much earlier as this hand is late as a rule.
    meant_mm = face_mm - _usually_late_mm(job, stop)
    left_mm = abs(lean_left(job, stop, meant_mm)) * job.setup.machine.diameter
    off_mm = abs(on_face(job, meant_mm) - on_face(job, stop.stop_face_mm))
    near_mm = stop.band_mm or noise_mm(job)
    return left_mm > within_mm(job, stop.axis) and off_mm > near_mm + SLACK_MM


def _usually_late_mm(job: Job, stop: StopAt) -> float:
    """How far past a stop-at this hand is as a rule, mm on the face, signed."""
    way = last_way(job, stop.axis, _turn(stop))
    late_mm = late_by(stop_stats(job, stop.axis), hand_mm(job, stop.axis))
    return _shows(stop, way) * late_mm


def _turn(stop: StopAt) -> float:
    """How the stop-at changes the lean of its axis, slope."""
    sense = 1.0 if stop.position == PARKED[stop.axis] else -1.0
    return sense * (stop.wanted - stop.lean)


def meant(job: Job, stop: StopAt, face_mm: float) -> Question:
    """What is asked of a turn that ends here: whether it is to, or that it be brought back."""
    by = shown_face(job, abs(face_mm - stop.stop_face_mm))
    if _went_away(job, stop, face_mm):
        where = "past" if _is_past(job, stop, face_mm) else "short"
        asked = said("stop-far", way="wrong", by=by, where=where)
        return Question(asked, (TURN_BACK if where == "past" else TURN_FURTHER, STOPPED))
    if _is_past(job, stop, face_mm):
        return Question(said("stop-past", by=by), (BROUGHT_BACK, STAYS))
    return Question(said("stop-far", way="right", by=by, where="short"), (TURN_FURTHER, STOPPED))


def _says(job: Job) -> Wording:
    spec = spec_of(job)
    move = certain(job.stop)
    others = (other_bolts(job),)
    if move.by_hand:
        by = verb(spec)
        back = move.by_hand == "back"
        title = said("a-little-back", turn=by) if back else said("a-little", turn=by)
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


def _hands(job: Job) -> Do:
    if job.stop is None:
        return ByHand("nothing")
    if job.stop.by_hand:
        return Nudge(job.axis, job.stop.by_hand == "back")
    return turn(job, job.stop)


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
    after = as_foreseen(leave(job, data.next, data.said), data.stands)
    to_tighten = data.next.step == "tighten"
    return replace(
        after,
        tightening=replace(job.tightening, before={}),
        moves=replace(job.moves, made=job.moves.made + 1, late=(*job.moves.late, *late)),
        bolts=Bolts(first_face_mm=data.reading.mean_mm) if to_tighten else job.bolts,
        head=replace(after.head, story=(*job.head.story, *happened)),
    )


STAGES = (
    Stage(
        "move",
        shows=Shows("square", _says, _buttons, _hands, heed_turning, stop_turning),
        commands={"stopped": Handler(stopped, WATCHED), "tightened": "tighten"},
        took={e.StopDoubted: Took(_doubted, undoable=True), e.Moved: Took(_moved, undoable=True)},
    ),
)
