"""The gauge is parked where it sees the move; the base of the stop-at is read."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.anytime import wish
from daq.audit.facts import axis_of, certain, shown_face
from daq.audit.folding import go, seen_at
from daq.audit.held.circle import Circle
from daq.audit.held.move import Asked, Parked
from daq.audit.stage import SETTLED, Handler, Shows, Stage, Took, always
from daq.audit.stages.park import decide
from daq.audit.state import Job
from daq.audit.views.common import (
    HELD,
    NOSE,
    again,
    other_bolts,
    spec_of,
    stop_here,
    swing,
    take,
    tight_now,
    touch,
    turned,
    wait_turning_nothing,
)
from daq.audit.views.figures import with_unit
from daq.audit.views.places import at, next_place, still_out
from daq.audit.views.step import Action, Wording
from daq.audit.views.whole import notes
from daq.squaring.story import parked as stood
from daq.words import Reading, Said, said

BIG_NOD_MM = {"plunger": 1.0, "lever": 0.2}
"""A nod that moves the head at the parked spot by more than a contact is usually pushed in."""


def _says(job: Job) -> Wording:
    place = at(certain(next_place(job)))
    if job.base is not None:
        return Wording(said("read-again-at", at=place), said("touch-nothing"))
    name = job.setup.machine.axis(axis_of(job)).say.lower()
    tight = said("bolts-as-they-are") if job.loose else said("bolts-still-tight")
    title, detail = said("park-at", at=place), said("park-next", axis=name, bolts=tight)
    still = still_out(job)
    if still:
        title, detail = (
            said("out-go-on", out=still, onward=_onward(job)),
            said("park-take", park=title, bolts=tight),
        )
    return Wording(title, detail, (*notes(job), other_bolts(job)))


def _onward(job: Job) -> Said:
    """How the axis goes on; a turn by hand that is to show something may go back."""
    kind = job.setup.machine.axis(axis_of(job)).adjust.kind
    if job.is_told("led-astray"):
        return said("try-a-turn")
    if kind == "shim":
        asked = any(axis == job.axis for axis, _ in job.moves.shims)
        return said("another-shim") if asked else said("a-shim")
    return said("push-further") if kind == "hand" else said("turn-further")


def _buttons(job: Job) -> list[Action]:
    first = take(next_place(job))
    if job.loose:
        return [first, *tight_now(job), touch()]
    return [first, touch(), again(job), *turned(job), stop_here()]


def _cautions(job: Job) -> tuple[Said, ...]:
    """What must be done before the parked reading: done after it, it would spoil the base."""
    held = (HELD,) if spec_of(job).held_by != "adjuster" and not job.loose else ()
    fall_mm = job.ahead.nod_mm if job.ahead is not None else 0.0
    if fall_mm <= BIG_NOD_MM[job.setup.gauge.kind]:
        return (*held, NOSE)
    big = said("big-nod", about=with_unit(shown_face(job, fall_mm)))
    return (*held, big, said("falling-head"), NOSE)


def _parked(job: Job, data: e.Parked) -> Job:
    """The base stands, or a question does."""
    told = seen_at(data.reading.position, data.pushed_mm) if data.question is None else ()
    story = job.head.story
    for reading in told:
        story = stood(story, reading)
    visit = () if data.visit_mm is None else (data.visit_mm,)
    return replace(
        go(job, data.next, data.said),
        parked=Parked(data.reading, data.stop) if data.stop or data.question else None,
        asked=Asked(data.question) if data.question else None,
        gauge=replace(job.gauge, lifted=False, visits=(*job.gauge.visits, *visit)),
        circle=_circle(job, data.reading),
        head=replace(job.head, story=story),
    )


def _base(job: Job, data: e.BaseRead) -> Job:
    """The parked spot read again after a zero: the stop-at counts from it."""
    # What was read just now, but with the head as it stood when the base was first read.
    told = seen_at(data.reading.position, job.setup.gauge.pushed(data.stop.base_face_mm))
    cracked_mm = data.reading.mean_mm if job.loose else None
    return replace(
        go(job, data.next),
        parked=Parked(data.reading, data.stop, cracked_face_mm=cracked_mm),
        gauge=replace(job.gauge, lifted=False),
        circle=_circle(job, data.reading),
        head=replace(job.head, story=(*job.head.story, *told)),
    )


def _circle(job: Job, reading: Reading) -> Circle:
    place, circle = reading.position, job.circle
    shown = {} if place is None else {place: reading.mean_mm}
    return replace(circle, shown={**circle.shown, **shown})


STAGES = (
    Stage(
        "park",
        shows=Shows(
            "square", _says, _buttons, swing, _cautions, wait_turning_nothing, lowered=always
        ),
        commands={
            "take": Handler(decide.take, SETTLED, decide.place),
            "tightened": "tighten",
            "touch": Handler(wish.touch),
            "stop-here": Handler(wish.stop_here),
            "again": Handler(wish.again),
        },
        took={e.Parked: Took(_parked, undoable=True), e.BaseRead: Took(_base)},
    ),
)
