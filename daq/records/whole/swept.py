"""Every sweep, pair check and round with its readings, those taken back among them."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from daq.audit.events import CheckDone, ReadingTaken, SweepDone
from daq.audit.facts import decimals, unit_of
from daq.audit.stages.stations import Measured, StationRead
from daq.audit.state import Job
from daq.audit.views.figures import with_unit
from daq.audit.views.places import named
from daq.records.lines import Line
from daq.records.record import AuditRecord, AuditRow
from daq.records.whole.shapes import ReadingCell, SweptView
from daq.words import Reading, Said, Shown, Text, said

_READ = ReadingTaken | StationRead
_CAME_TO = SweepDone | CheckDone | Measured


def swept(record: AuditRecord, told: Mapping[int, Line]) -> tuple[SweptView, ...]:
    """All of them, in order; `told`: each row in words, by its number.

    Readings that came to nothing, because they were begun again, stand by themselves.
    """
    return tuple(_swept(record, told))


def _swept(record: AuditRecord, told: Mapping[int, Line]) -> Iterator[SweptView]:
    waiting: list[tuple[AuditRow, Job]] = []
    for at, row in enumerate(record.rows):
        job = record.found_by(at)
        if isinstance(row.data, _READ):
            waiting.append((row, job))
        if not isinstance(row.data, _CAME_TO):
            continue
        used = [each for each in waiting if _reading(each[0]) in job.reads.taken]
        left = [each for each in waiting if each not in used]
        if left:
            yield _to_nothing(left)
        line = told[row.seq]
        yield SweptView(row.seq, _title(row.data), _cells(used), line.detail, row.voided_by)
        waiting = []
    if waiting:
        yield _to_nothing(waiting)


def _to_nothing(rows: Sequence[tuple[AuditRow, Job]]) -> SweptView:
    return SweptView(None, said("readings-alone"), _cells(rows), (), None)


def _title(data: Any) -> Said:  # noqa: ANN401 - one of three
    if isinstance(data, SweepDone):
        turned = data.turned or "none"
        return said("row-sweep", n=data.number, purpose=data.purpose, turned=turned)
    if isinstance(data, Measured):
        return said("row-round", n=data.round.number)
    return said("pair-check-of", axis=said("told-axis", axis=data.axis))


def _reading(row: AuditRow) -> Reading:
    assert isinstance(row.data, _READ)
    return row.data.reading


def _cells(rows: Sequence[tuple[AuditRow, Job]]) -> tuple[ReadingCell, ...]:
    return tuple(cell for row, job in rows for cell in _of_row(row, job))


def _of_row(row: AuditRow, job: Job) -> Iterator[ReadingCell]:
    """The reading, and that of the other gauge on a bar behind it."""
    place = _place(row, job)
    yield _cell(row, job, _reading(row), place)
    second = row.data.second if isinstance(row.data, ReadingTaken) else None
    if second is not None:
        yield _cell(row, job, second, said("other-gauge-at", place=place), second=True)


def _cell(
    row: AuditRow, job: Job, reading: Reading, place: Text, *, second: bool = False
) -> ReadingCell:
    unit = unit_of(job)
    digits = decimals(job, job.setup.second_gauge if second else None)
    return ReadingCell(
        seq=row.seq,
        place=place,
        value=with_unit(Shown(reading.mean_mm, unit, digits)),
        spread=Shown(reading.sd_mm, unit, digits + 1),
        samples=reading.count,
        struck_by=row.voided_by,
    )


def _place(row: AuditRow, job: Job) -> Said:
    if isinstance(row.data, StationRead):
        stations = job.ahead.stations if job.ahead is not None else ()
        found = [each.name for each in stations if each.key == row.data.station]
        return found[0] if found else said("name", name=row.data.station)
    position = _reading(row).position
    return said("name", name="") if position is None else named(position)
