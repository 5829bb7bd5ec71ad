"""The adjuster is turned until the gauge reads the stop-at.

`stop`: where the turn ended. What is shown meanwhile and how it folds stands here.
"""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.facts import axis_of, certain, shown_face, unit_of
from daq.audit.folding import go, leave, seen_at
from daq.audit.held.move import Asked
from daq.audit.parts import StopAt
from daq.audit.stage import WATCHED, Handler, Shows, Stage, Took
from daq.audit.stages.move import stop
from daq.audit.state import Job
from daq.audit.views.common import (
    heed_turning,
    other_bolts,
    say_shim,
    stop_turning,
    tight_now,
    verb,
)
from daq.audit.views.figures import on_face
from daq.audit.views.left import Left, left
from daq.audit.views.step import Action, Hands, Nudge, Turn, Wording
from daq.squaring.story import Happened, Story
from daq.words import Said, said


def _says(job: Job) -> Wording:
    spec = job.setup.machine.axis(axis_of(job))
    move = certain(job.stop)
    others = (other_bolts(job),)
    if move.by_hand:
        turn = verb(spec)
        back = move.by_hand == "back"
        title = said("a-little-back", turn=turn) if back else said("a-little", turn=turn)
        return Wording(title, said("a-little-how"), others)
    way = left(job, move)
    stop = shown_face(job, way.stop_face_mm)
    if move.shim is not None:
        return Wording(
            said("put-shim", shim=say_shim(move.shim, unit_of(job))),
            said("shim-reads", stop=stop, come=move.approach or ""),
            others,
            way.warnings,
        )
    return Wording(
        said("turn-until", turn=verb(spec), stop=stop),
        said("turn-how", goes=_goes(job, way), come=_come(job, way, move)),
        others,
        way.warnings,
    )


def _goes(job: Job, way: Left) -> Said:
    """Which way the number goes from where it stands, and in how many turns."""
    if way.there:
        return said("there-already")
    goes = said("goes", way=way.way, now=shown_face(job, way.now_face_mm))
    if not way.turns:
        return goes
    return said("and-then", first=goes, next=said("that-is", turns=way.turns))


def _come(job: Job, way: Left, move: StopAt) -> Said | str:
    if not way.past_mm:
        return move.approach or ""
    return said("go-past", by=shown_face(job, way.past_mm), come=move.approach or "")


def _buttons(job: Job) -> list[Action]:
    shimmed = job.stop is not None and job.stop.shim is not None
    done = said("shim-in") if shimmed else said("stopped")
    return [Action("stopped", done, primary=True), *tight_now(job)]


def _hands(job: Job) -> Hands | Nudge | Turn:
    if job.stop is None:
        return Hands("nothing")
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
    happened: Story = (Happened("moved", data.axis), *stopped, Happened("rested", data.axis))
    shim = job.stop.shim if job.stop is not None else None
    shims = job.moves.shims if shim is None else (*job.moves.shims, (data.axis, shim))
    return replace(
        leave(job, data.next, data.said),
        tightening=replace(job.tightening, before={}),
        moves=replace(job.moves, made=job.moves.made + 1, shims=shims),
        head=replace(job.head, story=(*job.head.story, *happened)),
    )


STAGES = (
    Stage(
        "move",
        shows=Shows("square", _says, _buttons, _hands, heed_turning, stop_turning),
        commands={
            "stopped": Handler(stop.stopped, WATCHED),
            "tightened": "tighten",
        },
        took={
            e.StopDoubted: Took(_doubted, undoable=True),
            e.Moved: Took(_moved, undoable=True),
        },
    ),
)
