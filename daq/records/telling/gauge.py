"""What the gauge did by itself, in words: a zero, a fault, its unit."""

from collections.abc import Callable, Mapping
from typing import Any

from daq.audit import events as e
from daq.audit.state import Job
from daq.audit.views.afterwards import face, known
from daq.words import Said, said


def _zeroed(job: Job, data: e.Zeroed) -> tuple[Said, ...]:
    lost = data.lost_face_mm
    before, after = face(job, data.before_face_mm), face(job, data.after_face_mm)
    return known(
        said("row-zeroed", before=before, after=after),
        None if lost is None else said("row-lost", value=face(job, lost)),
        None if data.question is None else said("row-asked", what=data.question.said),
        data.said,
    )


def _fault(job: Job, data: e.GaugeFault) -> tuple[Said, ...]:
    return (said("row-fault", code=data.code),)


def _back(job: Job, data: e.GaugeBack) -> tuple[Said, ...]:
    return known(data.said)


def _noted(job: Job, data: e.GaugeNoted) -> tuple[Said, ...]:
    shows = None if data.unit is None else said("row-unit", unit=data.unit)
    return known(data.said, shows)


GAUGE: Mapping[type, Callable[[Job, Any], tuple[Said, ...]]] = {
    e.Zeroed: _zeroed,
    e.GaugeFault: _fault,
    e.GaugeBack: _back,
    e.GaugeNoted: _noted,
}
