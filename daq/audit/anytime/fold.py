"""What events of more than one stage change in the audit, and those of the gauge."""

from collections.abc import Mapping

from daq.audit import events as e
from daq.audit.changed import changed
from daq.audit.folding import begun, go, in_unit, leave, seen_at, values
from daq.audit.held.move import Asked, MoveBase
from daq.audit.held.sweeps import ReadSoFar
from daq.audit.parts import Next
from daq.audit.stage import Took
from daq.audit.state import Job
from daq.squaring.story import Happened, stood


def _restarted(job: Job, data: e.Restarted) -> Job:
    if data.anew is None:
        return go(job, data.next, data.said)
    return changed(
        begun(leave(job, data.next, data.said)),
        anew=data.anew,
        resume=None,
        bolts=job.bolts.zeroed(None),
        head=job.head.then(Happened("zeroed")),
    )


def _reading(job: Job, data: e.ReadingTaken) -> Job:
    shown = dict(job.circle.shown) if job.step == "check" or job.reads.taken else {}
    position = data.reading.position
    if position is not None:
        shown[position] = data.reading.mean_mm
    story = job.head.story
    if job.step == "check":
        for seen in seen_at(position, data.pushed_mm):
            # Read where a turn ended, its contact landed as it had; bolts pulled up shake it.
            story = stood(story, seen) if job.axis in job.loose else (*story, seen)
    return changed(
        job,
        gauge=job.gauge.down(),
        reads=job.reads.then(data.reading, data.second),
        circle=changed(job.circle, shown=shown),
        message=data.said,
        head=changed(job.head, story=story),
    )


def _zeroed(job: Job, data: e.Zeroed) -> Job:
    if data.question is not None:
        asked = go(job, Next("question", job.axis))
        return changed(asked, asked=Asked(data.question, data))
    # Read as in the air, it may be lifted: by how much the zero moved is not known then.
    here = data.resume is None
    shift_mm = data.after_face_mm - data.before_face_mm if here else None
    base, lost_mm = job.base, data.lost_face_mm
    gauge = changed(job.gauge, free_pushed_mm=data.free_pushed_mm)
    after = changed(
        go(job, data.next, data.said),
        parked=MoveBase(base, lost_face_mm=lost_mm) if base and lost_mm is not None else None,
        asked=None,
        circle=changed(job.circle, known=values(data.points)),
        gauge=changed(gauge, zeroed=True) if here else gauge,
        resume=data.resume,
        head=job.head.then(Happened("zeroed")) if here else job.head,
        bolts=job.bolts.zeroed(shift_mm),
    )
    return begun(after) if data.restart else after


def _fault(job: Job, data: e.GaugeFault) -> Job:
    return job


def _back(job: Job, data: e.GaugeBack) -> Job:
    head = job.head.then(Happened("zeroed"))
    if data.next is None:
        # Its zero may be another now: the bolts are counted from what it reads next.
        return changed(job, bolts=job.bolts.zeroed(None), head=head)
    return changed(leave(job, data.next, data.said), head=head)


def _noted(job: Job, data: e.GaugeNoted) -> Job:
    if data.next is None:
        return changed(in_unit(job, data), message=data.said)
    head = job.head.then(Happened("unknown"))
    return changed(leave(job, data.next, data.said), head=head)


def _learned(job: Job, data: e.ResponseUpdated) -> Job:
    return changed(job, head=job.head.knowing(data.learned))


def _again(job: Job, data: e.SweepWanted) -> Job:
    """Another full sweep is wanted."""
    after = changed(
        begun(leave(job, data.next)),
        reads=ReadSoFar(turned=data.turned, why=data.why),
        anew=data.anew,
        arm_in=job.arm_in and data.anew is None,
        gauge=changed(job.gauge, lifted=job.gauge.lifted or bool(data.turned)),
    )
    # Swept anew for another reason, the surface may have been seated anew too.
    alone = changed(job.sweeps, parked_adds_mm={}, added=(), laid=data.laid)
    return after if data.turned else changed(after, sweeps=alone)


def _stop_here(job: Job, data: e.StopHere) -> Job:
    """No more moves."""
    return changed(leave(job, data.next), moves=changed(job.moves, ended=True))


def _touch(job: Job, data: e.TouchWanted) -> Job:
    """The free reading is taken again before the audit goes on."""
    return changed(go(job, data.next), resume=data.resume)


COMMON: Mapping[type[e.Data], Took] = {
    e.ReadingTaken: Took(_reading, undoable=True),
    e.ResponseUpdated: Took(_learned),
    e.SweepWanted: Took(_again),
    e.StopHere: Took(_stop_here),
    e.TouchWanted: Took(_touch),
    e.Restarted: Took(_restarted),
    e.Zeroed: Took(_zeroed),
    e.GaugeFault: Took(_fault),
    e.GaugeBack: Took(_back),
    e.GaugeNoted: Took(_noted),
}
"""Events of more than one stage."""
