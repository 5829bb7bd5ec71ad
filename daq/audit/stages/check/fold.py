"""What a pair check changes in the audit."""

from dataclasses import replace

from daq.audit import events as e
from daq.audit.folding import go, values
from daq.audit.held.head import HeadSeen
from daq.audit.held.move import Asked
from daq.audit.held.tightening import Tightening
from daq.audit.parts import AxisShift, Next
from daq.audit.stages.check.believed import believed
from daq.audit.state import Job
from daq.squaring.story import Happened, Story, unread


def checked(job: Job, data: e.CheckDone) -> Job:
    """The axis stands as read, the other as it must have followed; all as it was while asked."""
    if data.question is not None:
        asked = replace(go(job, data.next), asked=Asked(data.question))
        return replace(asked, head=job.head.naming(data.guesses))
    shims = tuple(each for each in job.moves.shims if data.results[each[0]].word != "in")
    return replace(
        go(job, data.next, data.said),
        reads=job.reads.anew(),
        circle=replace(job.circle, known=values(data.points)),
        axes=replace(job.axes, results=data.results, whole=data.whole),
        moves=replace(job.moves, shims=shims),
        asked=None,
        head=_head(job, data).naming(data.guesses).taking(data.used),
        bolts=replace(
            job.bolts,
            steps=job.bolts.steps if data.strange == "again" else 0,
            first_face_mm=_parked_face(job, data),
            last_face_mm=None,
        ),
        tightening=_tightening(job, data),
    )


def _tightening(job: Job, data: e.CheckDone) -> Tightening:
    """What tightening did; what it seemed to do and is believed is doubted no more."""
    known, before_mm = job.tightening, data.before_tightening_mm
    shifts, doubted = known.shifts, dict(known.doubted_mm)
    if data.shift_mm is not None:
        shifts = (*shifts, AxisShift(data.axis, data.shift_mm))
        doubted.pop(data.axis, None)
    elif data.strange == "bumped" and known.reread_mm is not None:
        doubted[data.axis] = known.reread_mm
    before = {} if before_mm is None else {data.axis: before_mm}
    return Tightening(before, shifts, data.doubted_mm, doubted)


def _head(job: Job, data: e.CheckDone) -> HeadSeen:
    """What this check showed; of a head that answered backwards, nothing it taught is kept."""
    head, unsure = job.head, {data.axis} if data.strange == "astray" else set()
    if data.strange == "backwards":
        head = head.reversing(data.axis, job.setup.learned)
    elif data.strange and data.axis in job.loose:  # taken back: it does not fit that either
        head = replace(head, backwards=head.backwards - {data.axis})
    return replace(
        head,
        story=_believed(job, data),
        unsure=head.unsure | unsure,
        slack_mm=data.slack_mm,
    )


def _believed(job: Job, data: e.CheckDone) -> Story:
    """The story as far as it can be believed after this check."""
    if data.strange == "again":
        return (*unread(job.head.story, len(job.reads.taken)), Happened("zeroed"))
    return believed(job, data.axis, data.strange, job.head.story, len(job.reads.taken))


def _parked_face(job: Job, data: e.CheckDone) -> float | None:
    """What the gauge reads where it stands now, when the bolts of this axis are next."""
    if data.next != Next("tighten", data.axis):
        return None
    return job.reads.taken[-1].mean_mm if job.reads.taken else None
