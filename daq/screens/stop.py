"""The stop-at as screens show it: of an adjuster that is turned, or of an end that is tapped."""

from daq.audit.facts import shown_face, tap_of, turned_to
from daq.audit.parts import StopAt
from daq.audit.rounds import Tap
from daq.audit.state import Job
from daq.audit.views.common import verb
from daq.audit.views.places import at
from daq.audit.views.shapes import StopView
from daq.audit.views.to_go import to_go
from daq.words import Said, said


def stop(job: Job) -> StopView | None:
    """The stop-at, and what is left of the way to it from where the gauge stands now."""
    to, tap = turned_to(job), tap_of(job)
    if tap is not None:
        return _tap(job, tap)
    if to is None or to.by_hand:
        return None
    way = to_go(job, to)
    value, turn = shown_face(job, way.stop_face_mm), verb(job.setup.machine.axis(to.axis))
    return StopView(
        axis=to.axis,
        position=to.position,
        value=value,
        base=shown_face(job, way.now_face_mm),
        change=shown_face(job, way.change_mm, plus=True),
        way=way.way,
        past=shown_face(job, way.past_mm) if way.past_mm else None,
        say=said("parked-turn", at=at(to.position), turn=turn, stop=value),
        within=_within(job, to),
    )


def _within(job: Job, to: StopAt) -> Said | None:
    """How near is near enough; None at a stop-at from before that was told."""
    if not to.band_mm:
        return None
    return said("stop-within", band=shown_face(job, to.band_mm), finer="yes" if to.finer else "no")


def _tap(job: Job, tap: Tap) -> StopView:
    value = shown_face(job, tap.stop_face_mm)
    return StopView(
        axis=None,
        position=None,
        value=value,
        base=shown_face(job, tap.from_face_mm),
        change=shown_face(job, tap.stop_face_mm - tap.from_face_mm, plus=True),
        way=tap.way,
        past=None,
        say=said("tap-until", end=said("jaw-end", end=tap.end), stop=value),
    )
