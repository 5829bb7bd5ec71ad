"""How old what the screens show is: what was read before the head, the zero or the unit changed.

A number of the circle depends on the whole head, the zero and the unit; an axis's error on
that axis alone, and on the zero not at all.
"""

from daq.audit import events as e
from daq.audit.changed import changed
from daq.audit.held.circle import Age
from daq.audit.state import Job
from daq.words import AXES, OTHER, Axis, Position

Worked = e.Loosened | e.Moved | e.BoltPulled | e.Tightened
"""What was done to one axis."""


def aged(before: Job, after: Job, data: e.Data) -> Job:
    """The audit after an event, with the age of everything it shows."""
    ages = _points(before, after, data)
    axes, stirred = _axes(before, after, data)
    return changed(
        after,
        circle=changed(after.circle, ages=ages),
        axes=changed(after.axes, ages=axes, stirred=stirred),
    )


def at_work(job: Job) -> Axis | None:
    """The axis that hands are turning or pulling up now: what was read of it is no more."""
    return job.axis if job.step in ("move", "tighten") else None


def spot_age(job: Job, position: Position) -> Age | None:
    """How old the number shown at a place is; None for one of now."""
    unsure = at_work(job) is not None or job.zero_asked is not None
    return job.circle.ages.get(position) or ("was" if unsure else None)


def axis_age(job: Job, axis: Axis) -> Age | None:
    """How old an axis's result is; None for one that a full sweep of the head now shows."""
    age = job.axes.ages.get(axis)
    if axis != at_work(job) or age == "as-found":
        return age
    return "before-tightening" if job.step == "tighten" else "before-move"


def unread(job: Job, axis: Axis) -> bool:
    """Whether an axis has been worked on since it was read: it can be called neither in nor out."""
    return axis in job.axes.stirred or axis == at_work(job)


def _points(before: Job, after: Job, data: e.Data) -> dict[Position, Age]:
    ages = {p: age for p, age in before.circle.ages.items() if p in after.circle.shown}
    if isinstance(data, e.ReadingTaken | e.Parked | e.BaseRead) and data.reading.position:
        ages.pop(data.reading.position, None)
    stale = _outdated(before, data)
    spared = before.base.position if isinstance(data, e.Answered) and before.base else None
    for place in after.circle.shown:
        if stale and place != spared and (stale == "old-zero" or place not in ages):
            ages[place] = stale
    return ages


def _outdated(before: Job, data: e.Data) -> Age | None:
    """What this event makes of every number read before it, or None."""
    if isinstance(data, e.Zeroed):
        return None if data.question is not None else "old-zero"
    if isinstance(data, Worked | e.BroughtCloser):
        return "was" if before.sweeps.loosened else "as-found"
    zero_unknown = isinstance(data, e.GaugeBack | e.Restarted) or (
        isinstance(data, e.FreeRead) and before.resume is not None
    )
    admitted = isinstance(data, e.Answered) and data.key in ("zeroed", "set-anew")
    noted = isinstance(data, e.GaugeNoted) and (data.unit is not None or data.next is not None)
    return "was" if zero_unknown or admitted or noted else None


def _axes(before: Job, after: Job, data: e.Data) -> tuple[dict[Axis, Age], frozenset[Axis]]:
    """Each axis's age, and the axes that were worked on since they were last read."""
    if isinstance(data, e.SweepDone) and data.usable:
        return {}, frozenset()
    ages, stirred, stood = dict(before.axes.ages), before.axes.stirred, before.axes.results
    if isinstance(data, e.Restarted) and data.anew is not None and stood:
        return {**dict.fromkeys(AXES, "was"), **ages}, stirred | after.loose
    away = isinstance(data, e.PutAside) or (isinstance(data, e.Prepared) and data.touched)
    if away and stood:
        return {**dict.fromkeys(AXES, "was"), **ages}, frozenset(AXES)
    if isinstance(data, e.CheckDone):
        other = OTHER[data.axis]
        if stood and after.axes.results[other].d_mm != stood[other].d_mm:
            ages[other] = "estimate"
        return {**ages, data.axis: "pair-check"}, stirred - {data.axis}
    if isinstance(data, e.BroughtCloser):
        return dict.fromkeys(AXES, "as-found"), frozenset(AXES)
    if isinstance(data, Worked):
        ages.setdefault(OTHER[data.axis], _since(before, data))
        if data.axis not in stirred and ages.get(data.axis) != "as-found":
            ages[data.axis] = _since(before, data)
        worked = frozenset(AXES) if getattr(data, "both", False) else {data.axis}
        if getattr(data, "stands", None) is not None:
            ages = dict.fromkeys(AXES, "estimate")
        return ages, stirred | worked
    return ages, stirred


def _since(before: Job, data: e.Data) -> Age:
    if not before.sweeps.loosened:
        return "as-found"
    return "before-tightening" if isinstance(data, e.BoltPulled | e.Tightened) else "before-move"
