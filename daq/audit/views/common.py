"""Buttons, words and cautions that several stages share."""

from typing import Final

from daq.audit.facts import axis_of, has_sweep_to_compare
from daq.audit.reading_order import is_quick
from daq.audit.setup import AxisSetup
from daq.audit.state import Job
from daq.audit.views.marks import mark_now
from daq.audit.views.places import at, next_place, still_out, to
from daq.audit.views.step import Action, Choice, Field, Swing
from daq.words import OTHER, POSITIONS, Position, Said, said

FIRST = said("manual-first")
NOSE = said("turn-by-the-nose")

WAIT = said("halt-wait")
STOP = said("halt-stop")
TURN_NOTHING = said("halt-turn-nothing")
LEAVE_BOLTS = said("halt-leave-bolts")
WAIT_TURNING_NOTHING = (WAIT, TURN_NOTHING)

_HALF_TURN: Final = 180.0

BECAUSE: Final = ("chip", "bumped", "unsure", "other")
"""Why a sweep is mostly taken again."""

_MOVE = {
    "hand": (said("head-still-blocked"), said("tap-softly")),
}


def spec_of(job: Job) -> AxisSetup:
    """The file's part of the axis being worked on."""
    return job.setup.machine.axis(axis_of(job))


def swing(job: Job) -> Swing:
    """The gauge is swung to where it is wanted."""
    return Swing(next_place(job))


def take(place: Position | None) -> Action:
    """Take the reading."""
    say = said("take-reading-at", at=at(place)) if place else said("take-reading")
    return Action("take", say, {"position": place}, primary=True)


def touch() -> Action:
    """The gauge was zeroed."""
    return Action("touch", said("touch-again"))


def again(job: Job) -> Action:
    """Another full sweep, or round of another check."""
    head = job.check is None
    because = Field(
        "because",
        said("sweep-again-why") if head else said("read-again-why"),
        "choice",
        choices=tuple(Choice(key, said("because", because=key)) for key in BECAUSE),
    )
    why = Field("why", said("in-own-words"), required=False)
    say = said("sweep-again") if head else said("read-again")
    return Action("again", say, fields=(because, why, *mark_now(job)))


def turned(job: Job) -> list[Action]:
    """Another sweep with the ring or the arm half round: it takes their part out."""
    if not has_sweep_to_compare(job):
        return []
    ring = Action("again", said("ring-turned"), {"turned": "ring"})
    arm = Action("again", said("arm-turned"), {"turned": "arm"})
    return [ring, arm] if job.setup.machine.seat_turns else [arm]


def stop_here() -> Action:
    """The head is left as it is."""
    return Action("stop-here", said("leave-it"), fields=(Field("why", said("leave-it-why")),))


def tight_now(job: Job) -> list[Action]:
    """The axis's loose bolts are said to be tight."""
    if job.axis not in job.loose:
        return []
    still = still_out(job)
    sure = said("tighten-anyway", out=still) if still else None
    say = said("tight-again", bolts=job.setup.machine.axis(job.axis).bolts)
    return [Action("tightened", say, confirm=sure)]


def other_bolts(job: Job) -> Said:
    """What becomes of the other axis's bolts meanwhile."""
    other = OTHER[axis_of(job)]
    bolts = job.setup.machine.axis(other).bolts
    if other in job.loose:
        return said("cracked-too", bolts=bolts)
    if job.axes.results[other].word == "in" or other in job.moves.alone:
        return said("leave-alone", bolts=bolts)
    return said("keep-tight", bolts=bolts)


def turn_to(job: Job, place: Position) -> Said:
    """Turn there and take the reading, or take it there."""
    stands = job.ahead.stands_at if job.ahead is not None and not job.reads.taken else None
    return said("take-at", at=at(place)) if stands == place else said("turn-to", to=to(place))


def round_by(job: Job, place: Position | None) -> tuple[Said, ...]:
    """By which place half a turn goes, so that the cable unwinds, where its turns are counted."""
    here = job.gauge.at
    if place is None or here is None or not is_quick(job):
        return ()
    turn = job.gauge.swing_deg(place)
    if abs(turn) != _HALF_TURN:
        return ()
    half = (POSITIONS[here] + 0.5 * turn) % 360.0
    return tuple(said("round-by", at=at(p)) for p, azimuth in POSITIONS.items() if azimuth == half)


def verb(spec: AxisSetup) -> Said:
    """What a person does to the adjuster."""
    if spec.adjust.kind == "hand":
        return said("push-adjuster", adjuster=spec.adjuster)
    return said("turn-adjuster", adjuster=spec.adjuster)


def heed_turning(job: Job) -> tuple[Said, ...]:
    """What to heed while hands are on the adjuster."""
    usual = (said("do-not-force"), said("watch-the-travel"))
    return usual if job.axis is None else _MOVE.get(spec_of(job).adjust.kind, usual)


def stop_turning(job: Job) -> tuple[Said, Said | None]:
    """What to do without a number while hands are on the adjuster."""
    return said("halt-turning"), said("halt-hands-off")
