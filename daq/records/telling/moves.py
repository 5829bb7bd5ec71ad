"""What was done to the head, in words: parked, cracked, turned, pulled up; what was asked."""

from collections.abc import Callable, Mapping
from typing import Any

from daq.audit import events as e
from daq.audit.parts import StopAt
from daq.audit.questions import Question
from daq.audit.state import Job
from daq.audit.views.afterwards import because, face, known, read
from daq.audit.views.shims import told_shim
from daq.audit.views.why import why
from daq.records.telling.figures import axes
from daq.words import Figure, Said, said


def _stop(job: Job, stop: StopAt | None) -> tuple[Said, ...]:
    """The stop-at, or the shim, and why it is what it is."""
    if stop is None:
        return ()
    if stop.shim is not None:
        return (*told_shim(job, stop.shim), *why(job, stop))
    return (_what(job, stop), *why(job, stop))


def _what(job: Job, stop: StopAt) -> Said:
    if stop.by_hand:
        return said("row-by-hand", base=face(job, stop.base_face_mm))
    return said(
        "row-stop-at",
        base=face(job, stop.base_face_mm),
        stop=face(job, stop.stop_face_mm),
        past=face(job, stop.past_mm) if stop.past_mm else "none",
        turns=stop.turns or "none",
    )


def _asked(question: Question | None) -> Said | None:
    return None if question is None else said("row-asked", what=question.said)


def _parked(job: Job, data: e.Parked) -> tuple[Said, ...]:
    expected = face(job, job.setup.gauge.face(data.expected_pushed_mm))
    off = data.visit_mm
    return known(
        read(job, data.reading),
        said("row-expected", value=expected),
        None if off is None else said("row-came-back", by=face(job, off, plus=True)),
        *_stop(job, data.stop),
        _asked(data.question),
        data.said,
    )


def _base(job: Job, data: e.BaseRead) -> tuple[Said, ...]:
    return (read(job, data.reading), *_stop(job, data.stop))


def _loosened(job: Job, data: e.Loosened) -> tuple[Said, ...]:
    return (
        read(job, data.reading),
        said("row-dropped", by=face(job, data.drop_face_mm, plus=True)),
    )


def _past(job: Job, past_mm: float) -> Said:
    return said("row-past", by=face(job, past_mm, plus=True))


def _doubted(job: Job, data: e.StopDoubted) -> tuple[Said, ...]:
    return known(read(job, data.reading), _past(job, data.past_face_mm), _asked(data.question))


def _moved(job: Job, data: e.Moved) -> tuple[Said, ...]:
    creeps = said("row-creeps", by=Figure(100.0 * data.creeps, 4)) if data.creeps else None
    return known(read(job, data.reading), _past(job, data.past_face_mm), creeps, data.said)


def _pulled(job: Job, data: e.BoltPulled) -> tuple[Said, ...]:
    return known(
        said("row-bolt", bolt=data.bolt, step=data.step),
        read(job, data.reading),
        said(
            "row-bolt-did",
            by=face(job, data.shift_face_mm, plus=True),
            since=face(job, data.since_face_mm, plus=True),
            over="yes" if data.over else "no",
        ),
        data.said,
    )


def _off_scale(job: Job, data: e.OffScale) -> tuple[Said, ...]:
    return (said("row-beyond", by=face(job, data.beyond_mm)), data.said)


def _answered(job: Job, data: e.Answered) -> tuple[Said, ...]:
    asked = job.asked.question if job.asked is not None else None
    given = [each.said for each in asked.answers if each.key == data.key] if asked else []
    return known(
        _asked(asked),
        said("row-answer", what=given[0]) if given else None,
        because(data.why) if data.why is not None else None,
        *_relabelled(job, data),
        *_stop(job, data.stop),
    )


def _relabelled(job: Job, data: e.Answered) -> tuple[Said, ...]:
    """The sweep whose spots were exchanged, as it is with them put right."""
    if data.sweep is None:
        return ()
    number = said("row-relabelled", n=data.sweep.number)
    return (number, *axes(job, data.results, data.whole))


def _left(job: Job, data: e.StopHere) -> tuple[Said, ...]:
    return known(because(data.why))


def _nothing_more(job: Job, data: e.Data) -> tuple[Said, ...]:
    return ()


MOVES: Mapping[type, Callable[[Job, Any], tuple[Said, ...]]] = {
    e.Parked: _parked,
    e.BaseRead: _base,
    e.Loosened: _loosened,
    e.StopDoubted: _doubted,
    e.Moved: _moved,
    e.BoltPulled: _pulled,
    e.Tightened: _nothing_more,
    e.OffScale: _off_scale,
    e.BroughtCloser: _nothing_more,
    e.Answered: _answered,
    e.StopHere: _left,
    e.Cleared: _nothing_more,
}
