"""The touch test: the contact hangs free, then is pushed by hand, and must come back."""

from dataclasses import replace
from itertools import pairwise

from daq.audit import events as e
from daq.audit.facts import first_read, is_look, points, reads_as_free, shown_face
from daq.audit.folding import begun, go, values
from daq.audit.input import Input, Nothing, Take
from daq.audit.parts import Next
from daq.audit.stage import SETTLED, WATCHED, Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.common import WAIT
from daq.audit.views.figures import with_unit
from daq.audit.views.step import Action, ByHand, Wording
from daq.metrology.jump import zero_noticed
from daq.metrology.presses import GAP_S
from daq.squaring.story import Happened
from daq.units import SLACK_MM
from daq.words import Said, said

_HALT = just((WAIT, None))

FREE_SPREAD_MM = 0.02
"""What a gauge hanging free may still wander within a window; its noise is not known yet."""

SLOWEST_NS = 200_000_000
"""A hand's push or flick lasts a few tenths of a second; numbers further apart may miss it."""

SENT = 3
"""So many numbers a gauge sends for one press of its key, at the most."""

LEAST_PUSH_MM = 0.1
"""A push by hand moves a contact further than this; vibration does not."""


def free_reading(job: Job, given: Input) -> tuple[e.Data, ...]:
    """The gauge with its contact in the air: unit, free reading, noise; later on, its zero."""
    reading = given.reading(None)
    pushed_mm = job.setup.gauge.pushed(reading.mean_mm)
    shift = _shift(job, pushed_mm)
    told = None
    if job.resume is not None:
        told = said("zeroed-read-again") if shift else said("not-zeroed-carry-on")
    return (
        e.FreeRead(
            reading=reading,
            unit=given.window[-1].unit,
            pushed_mm=pushed_mm,
            spread_mm=max(5 * job.setup.gauge.resolution, 8 * reading.sd_mm),
            streams=_streams(given),
            points=points({p: m + shift for p, m in job.circle.known.items()}),
            restart=bool(shift and job.reads.taken),
            said=told,
            next=job.resume or _then(job),
        ),
    )


def _streams(given: Input) -> bool:
    """Whether numbers come by themselves, and so often that a movement shows in several.

    A press of a gauge's key may send several; between quick presses is still as long as a press.
    """
    gaps = [b.mono_ns - a.mono_ns for a, b in pairwise(given.window)]
    presses = sum(gap >= GAP_S * 1e9 for gap in gaps)
    return bool(gaps) and sum(gaps) <= SLOWEST_NS * len(gaps) and SENT * presses < len(gaps)


def _then(job: Job) -> Next:
    """The push; brought down from the air onto a surface, a contact has shown as much by itself."""
    pushes = not is_look(job) or job.anew is not None
    return Next("touch-push") if pushes else first_read(job)


def _shift(job: Job, pushed_mm: float) -> float:
    """How far the zero has moved since the free reading before; 0 when it has not."""
    back = job.anew is not None and job.anew.why in ("restart", "left")
    if job.gauge.free_pushed_mm is None or (job.resume is None and not back):
        return 0.0
    shift = pushed_mm - job.gauge.free_pushed_mm
    return 0.0 if abs(shift) <= max(5 * job.setup.gauge.resolution, job.gauge.spread_mm) else shift


def pushed(job: Job, given: Input) -> tuple[e.Data, ...]:
    """Whether the number moved, the right way, and came back, when the contact was pushed in."""
    given.payload(Nothing)
    free = job.gauge.free_pushed_mm or 0.0
    travel = [job.setup.gauge.pushed(s.value_mm) - free for s in given.samples]
    furthest = max(travel, key=abs, default=0.0)
    moved = job.setup.gauge.face(furthest)
    zero = zero_noticed(given.samples, job.setup.gauge.resolution)
    if zero is not None and not reads_as_free(job, job.setup.gauge.pushed(zero.after_mm)):
        return (e.Pushed(False, moved, said("zeroed-at-the-push"), Next("touch-free")),)
    if abs(furthest) < LEAST_PUSH_MM:
        return (e.Pushed(False, moved, said("pushed-unmoved"), Next("touch-push")),)
    by = shown_face(job, moved, plus=True)
    if furthest < 0:
        counts = "up" if job.setup.gauge.counts_up else "down"
        told = said("pushed-wrong-way", moved=by, counts=counts)
        return (e.Pushed(False, moved, told, Next("touch-push")),)
    away = _away(job, given)
    if away is not None and abs(away) >= LEAST_PUSH_MM and not job.gauge.streams:
        # Of a gauge that sends now and then only the push was seen yet.
        return (e.Pushed(False, moved, said("gauge-answers", moved=by), Next("touch-back")),)
    return (_came_back(job, moved, away, said("gauge-answers", moved=by)),)


def came_back(job: Job, given: Input) -> tuple[e.Data, ...]:
    """Whether the number is the free one again, read once more after the contact was let go."""
    given.payload(Take)
    away = _away(job, given)
    return (_came_back(job, 0.0, away, said("contact-came-back")),)


def _away(job: Job, given: Input) -> float | None:
    """How far from the free reading the contact stays, on the gauge's face, mm; None: it is back.

    Back is within a count of it, or, where the number itself is not as still as that, within
    twice the standard deviation of the free reading's samples: the means of two windows of ten
    differ by more in 1 or 2 of 1,000 touches (Student's t), those of more in fewer.
    """
    gauge = job.setup.gauge
    face_mm = given.reading(None).mean_mm - gauge.face(job.gauge.free_pushed_mm or 0.0)
    allowed_mm = max(gauge.resolution, 2.0 * job.gauge.free_sd_mm)
    return None if abs(face_mm) <= allowed_mm + SLACK_MM else face_mm


def _came_back(job: Job, moved: float, away: float | None, told: Said) -> e.Pushed:
    if away is not None:
        stays = said("pushed-not-back", off=with_unit(shown_face(job, away, plus=True)))
        return e.Pushed(False, moved, stays, Next("touch-push"), away)
    follows = job.anew.next if job.anew else first_read(job)
    return e.Pushed(True, moved, told, follows)


def _free_says(job: Job) -> Wording:
    if job.resume is not None:
        return Wording(said("lift-contact"), said("lift-contact-why"))
    return Wording(said("hang-free"), said("hang-free-take"))


def _was_out(job: Job) -> bool:
    """Whether the arm came out of the spindle since it was flicked."""
    return job.anew is not None and job.anew.why != "restart"


def _free(job: Job, data: e.FreeRead) -> Job:
    """The free reading stands; after a zero everything remembered has shifted."""
    gauge = replace(
        job.gauge,
        unit=data.unit,
        free_pushed_mm=data.pushed_mm,
        spread_mm=data.spread_mm,
        free_sd_mm=data.reading.sd_mm,
        streams=data.streams,
        lifted=True,
        friction=None if _was_out(job) else job.gauge.friction,
        sent_back=() if _was_out(job) else job.gauge.sent_back,
        zeroed=job.gauge.zeroed or job.resume is not None,
    )
    after = replace(
        go(job, data.next, data.said),
        gauge=gauge,
        circle=replace(job.circle, known=values(data.points)),
        resume=None,
    )
    if job.resume is not None:
        after = replace(after, head=job.head.then(Happened("zeroed")))
    return begun(after) if data.restart else after


def _pushed(job: Job, data: e.Pushed) -> Job:
    """The gauge is alive and counts the right way, or not."""
    return replace(go(job, data.next), anew=None) if data.ok else go(job, data.next, data.said)


def _push_says(job: Job) -> Wording:
    if job.gauge.streams:
        return Wording(said("push-contact"), said("push-contact-why"))
    return Wording(said("hold-contact-in"), said("hold-contact-in-why"))


def _push_spread(job: Job) -> float:
    """Who has to hold the contact in while it is read does not hold it still."""
    return job.gauge.spread_mm if job.gauge.streams else job.setup.gauge.travel


def _free_spread(job: Job) -> float:
    return max(FREE_SPREAD_MM, 3 * job.setup.gauge.resolution)


STAGES = (
    Stage(
        "touch-free",
        shows=Shows(
            "prepare",
            _free_says,
            just([Action("take", said("take-free"), primary=True)]),
            just(ByHand("free")),
            just((said("swing-clear"), said("pedal-clear"))),
            _HALT,
        ),
        commands={"take": Handler(free_reading, SETTLED, spread=_free_spread)},
        took={e.FreeRead: Took(_free, undoable=True)},
        heeds_zero=False,
    ),
    Stage(
        "touch-push",
        shows=Shows(
            "prepare",
            _push_says,
            just([Action("pushed", said("pushed"), primary=True)]),
            just(ByHand("push")),
            halt=_HALT,
        ),
        commands={"pushed": Handler(pushed, WATCHED, spread=_push_spread)},
        took={e.Pushed: Took(_pushed)},
        heeds_zero=False,
    ),
    Stage(
        "touch-back",
        shows=Shows(
            "prepare",
            just(Wording(said("let-contact-go"), said("let-contact-go-why"))),
            just([Action("take", said("take-free"), primary=True)]),
            just(ByHand("free")),
            halt=_HALT,
        ),
        commands={"take": Handler(came_back, SETTLED, spread=_free_spread)},
        heeds_zero=False,
    ),
)
