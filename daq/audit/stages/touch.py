"""The touch test: the contact hangs free, then is pushed by hand."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.facts import first_read, is_look, points, reads_as_free, shown_face
from daq.audit.folding import begun, go, values
from daq.audit.input import Input, Nothing
from daq.audit.parts import Next
from daq.audit.stage import HISTORY, SETTLED, Handler, Shows, Stage, Took, just
from daq.audit.state import Job
from daq.audit.views.common import WAIT
from daq.audit.views.step import Action, ByHand, Wording
from daq.metrology.jump import zero_noticed
from daq.squaring.story import Happened
from daq.words import said

_HALT = just((WAIT, None))

FREE_SPREAD_MM = 0.02
"""What a gauge hanging free may still wander within a window; its noise is not known yet."""

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
            points=points({p: m + shift for p, m in job.circle.known.items()}),
            restart=bool(shift and job.reads.taken),
            said=told,
            next=job.resume or _then(job),
        ),
    )


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
    """Whether the number moved, and the right way, when the contact was pushed in."""
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
    follows = job.anew.next if job.anew else first_read(job)
    return (e.Pushed(True, moved, said("gauge-answers", moved=by), follows),)


def _free_says(job: Job) -> Wording:
    if job.resume is not None:
        return Wording(said("lift-contact"), said("lift-contact-why"))
    return Wording(said("hang-free"), said("hang-free-take"))


def _free(job: Job, data: e.FreeRead) -> Job:
    """The free reading stands; after a zero everything remembered has shifted."""
    gauge = replace(
        job.gauge,
        unit=data.unit,
        free_pushed_mm=data.pushed_mm,
        spread_mm=data.spread_mm,
        lifted=True,
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
            just(Wording(said("push-contact"), said("push-contact-why"))),
            just([Action("pushed", said("pushed"), primary=True)]),
            just(ByHand("push")),
            halt=_HALT,
        ),
        commands={"pushed": Handler(pushed, HISTORY)},
        took={e.Pushed: Took(_pushed)},
        heeds_zero=False,
    ),
)
