"""Buttons, words and cautions that several stages share."""

from daq.audit.facts import axis_of, has_sweep_to_compare
from daq.audit.parts import OTHER_WHY, WHYS, Shim
from daq.audit.setup import AxisSetup
from daq.audit.state import Job
from daq.audit.views.figures import with_unit
from daq.audit.views.places import at, next_place, still_out, to
from daq.audit.views.step import Action, Choice, Field, Swing
from daq.units import FINE, MM_PER_INCH
from daq.words import OTHER, Position, Said, Shown, Unit, said

FIRST = said("manual-first")
HELD = said("held-by-bolts")
NOSE = said("turn-by-the-nose")
CRACK = said("crack-only")
CLEAR = said("hands-clear")

WAIT = said("halt-wait")
STOP = said("halt-stop")
TURN_NOTHING = said("halt-turn-nothing")
LEAVE_BOLTS = said("halt-leave-bolts")
WAIT_TURNING_NOTHING = (WAIT, TURN_NOTHING)

_MOVE = {
    "hand": (said("head-still-blocked"), said("tap-softly")),
    "shim": (said("head-still-slung"), said("push-with-a-strip")),
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
    if job.check is not None:
        return Action("again", said("read-again"), fields=_whys(said("read-again-why")))
    return Action("again", said("sweep-again"), fields=_whys(said("sweep-again-why")))


def _whys(asked: Said) -> tuple[Field, ...]:
    """Why once more: pressed, or typed where it is another."""
    keys = (*WHYS, OTHER_WHY)
    choices = tuple(Choice(key, said("again-because", why=key)) for key in keys)
    own_words = Field("own_words", said("why-other"), required=False)
    return Field("why", asked, "choice", choices=choices), own_words


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


def verb(spec: AxisSetup) -> Said:
    """What a person does to the adjuster."""
    if spec.adjust.kind == "hand":
        return said("push-adjuster", adjuster=spec.adjuster)
    return said("turn-adjuster", adjuster=spec.adjuster)


def say_shim(needed: Shim, unit: Unit) -> Said:
    """A shim in words: its thickness, and the bolts it goes behind."""
    thickness = Shown(needed.thickness_mm, unit, FINE[unit])
    return said("shim", thickness=thickness, place=needed.place)


def heed_turning(job: Job) -> tuple[Said, ...]:
    """What to heed while hands are on the adjuster."""
    usual = (said("do-not-force"), said("watch-the-travel"))
    return usual if job.axis is None else _MOVE.get(spec_of(job).adjust.kind, usual)


def stop_turning(job: Job) -> tuple[Said, Said | None]:
    """What to do without a number while hands are on the adjuster."""
    if job.stop is not None and job.stop.shim is not None:
        return STOP, said("halt-leave-shim")
    return said("halt-turning"), said("halt-hands-off")


def preload(job: Job) -> Said:
    """A plunger about a millimetre, a lever within its 0.1 to 0.25: common practice, no source."""
    if job.setup.gauge.kind == "lever":
        inch, metric = Shown(0.008 * MM_PER_INCH, "in", 3), Shown(0.2, "mm", 1)
    else:
        inch, metric = Shown(0.050 * MM_PER_INCH, "in", 3), Shown(1.0, "mm", 0)
    return with_unit(inch if job.gauge.unit == "in" else metric)
