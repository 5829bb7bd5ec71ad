"""The pictures of an audit, row by row, from its record and its samples: for page and paper alike.

A sweep's row has the sweep, a move's the way of the number to its end, that of a tightening the
way while the bolts were pulled up; any other row with a reading has the samples behind it.
"""

from collections.abc import Iterator, Sequence

from daq.audit.events import Answered, BaseRead, BoltPulled, Moved, Parked, SweepDone, Tightened
from daq.audit.facts import decimals, unit_of
from daq.audit.parts import AxisResult, StopAt
from daq.audit.state import Job
from daq.plots.frame import Level
from daq.plots.picture import Picture
from daq.plots.swept import Edge, SweptAt, SweptWords, swept
from daq.plots.trace import MOST, DoneAt, NumberAt, TraceWords, trace
from daq.records.record import AuditRecord, AuditRow, ReadingRow
from daq.report.drawn import Pen, pen_of, stands
from daq.report.fitted import remains
from daq.report.given import SamplesOf
from daq.says import Language
from daq.says.language import Names
from daq.words import POSITIONS, Axis, Reading, Said, Sample, Shown, said

_NS = 1e9


def has_picture(record: AuditRecord, row: AuditRow) -> bool:
    """Whether a row has any, without reading a sample."""
    data = row.data
    if isinstance(data, Tightened):
        return bool(_pulled(record, row, data.axis))
    return sweep_of(row) is not None or isinstance(getattr(data, "reading", None), Reading)


def named(record: AuditRecord, says: Language, names: Names) -> Iterator[tuple[AuditRow, str]]:
    """Give the rows of sweeps, moves and bolts pulled up, each with what its picture is called."""
    for row in record.rows:
        pen = _pen(record, row, says, names)
        data, done = row.data, sweep_of(row)
        if done is not None:
            yield row, pen.words(_sweep_title(record, done, pen))
        elif isinstance(data, Moved):
            yield row, pen.words(_move_title(data, pen))
        elif isinstance(data, Tightened) and has_picture(record, row):
            yield row, pen.words(_tightening_title(data, pen))


def _sweep_title(record: AuditRecord, done: SweepDone, pen: Pen) -> Said:
    over = pen.over(record.opened.setup.machine.diameter)
    return said("picture-sweep", n=done.number, unit=pen.unit, over=over)


def _move_title(moved: Moved, pen: Pen) -> Said:
    return said("picture-move", axis=said("axis-name", axis=moved.axis), unit=pen.unit)


def _tightening_title(done: Tightened, pen: Pen) -> Said:
    return said("picture-tightening", axis=said("axis-name", axis=done.axis), unit=pen.unit)


def of_row(
    record: AuditRecord, row: AuditRow, says: Language, names: Names, samples: SamplesOf
) -> tuple[Picture, ...]:
    """Return the pictures of a row, none of one that has none."""
    pen = _pen(record, row, says, names)
    if sweep_of(row) is not None:
        return (of_sweep(record, row, says, names),)
    if isinstance(row.data, Moved):
        return (_move(record, row, row.data, pen, samples),)
    if isinstance(row.data, Tightened):
        return tuple(_tightening(record, row, row.data, pen, samples))
    taken = (each for each in record.readings if each.row.seq == row.seq)
    return tuple(_samples(each, pen, samples) for each in taken)


def _job(record: AuditRecord, row: AuditRow) -> Job:
    """The audit as a row came upon it: the gauge may show another unit later."""
    return record.found_by(next(n for n, each in enumerate(record.rows) if each.seq == row.seq))


def _pen(record: AuditRecord, row: AuditRow, says: Language, names: Names) -> Pen:
    job = _job(record, row)
    return pen_of(says, names, unit_of(job), decimals(job))


def sweep_of(row: AuditRow) -> SweepDone | None:
    """The sweep that a row is of, or that an answer put right."""
    data = row.data
    return (
        data if isinstance(data, SweepDone) else data.sweep if isinstance(data, Answered) else None
    )


def of_sweep(record: AuditRecord, row: AuditRow, says: Language, names: Names) -> Picture:
    """A sweep's picture, as a head is set: finer than the gauge counts.

    Raises:
        LookupError: the row is of no sweep.
    """
    done = sweep_of(row)
    if done is None:
        raise LookupError(f"row {row.seq}: found no sweep")
    pen = pen_of(says, names, unit_of(_job(record, row)))
    off = remains(done)
    places = tuple(
        SweptAt(
            name=pen.words(said("place-name", place=point.position)),
            azimuth_deg=POSITIONS[point.position],
            read=pen.value(record.opened.setup.gauge.face(point.pushed_mm)),
            remains=pen.value(left),
        )
        for point, left in zip(done.points, off, strict=True)
    )
    side, nod = (_edge(axis, done.results[axis], pen) for axis in ("side", "nod"))
    most = Shown(max(map(abs, off), default=0.0), pen.unit, pen.digits + 1)
    told = SweptWords(
        title=pen.words(_sweep_title(record, done, pen)),
        says=pen.words(said("picture-sweep-says", side=side.says, nod=nod.says)),
        front=pen.words(said("place-name", place="front")),
        right=pen.words(said("place-name", place="right")),
        back=pen.words(said("place-name", place="back")),
        left=pen.words(said("place-name", place="left")),
        low=pen.words(said("mark-low")),
        allowed=pen.words(said("mark-allowed")),
        remains=pen.words(said("mark-remains", at=most)),
        head=(
            pen.words(said("column-place")),
            pen.words(said("column-reads")),
            pen.words(said("column-remains")),
            pen.words(said("column-remarks")),
        ),
    )
    return swept(places, side, nod, told, pen.digits)


def _edge(axis: Axis, result: AxisResult, pen: Pen) -> Edge:
    wanted = result.d_mm - result.error_mm
    low, high = (
        None if limit is None else limit + wanted for limit in (result.low_mm, result.high_mm)
    )
    return Edge(
        name=pen.words(said("axis-name", axis=axis)),
        over=pen.value(result.d_mm),
        low=pen.maybe(low),
        high=pen.maybe(high),
        says=stands(axis, result.d_mm, pen),
    )


def _told(title: Said, says: Said, seen: Sequence[NumberAt], pen: Pen) -> TraceWords:
    name = pen.words(title)
    if len(seen) > MOST:
        name = pen.words(said("picture-thinned", title=name, samples=len(seen)))
    return TraceWords(
        title=name,
        says=pen.words(says),
        seconds=pen.words(said("mark-seconds")),
        empty=pen.words(said("no-samples-kept")),
        flagged=pen.words(said("mark-flagged")),
        head=(
            pen.words(said("column-seconds")),
            pen.words(said("column-number")),
            pen.words(said("column-remarks")),
        ),
    )


def _seen(samples: Sequence[Sample], pen: Pen) -> tuple[NumberAt, ...]:
    """Each sample by the seconds since the first."""
    return tuple(
        NumberAt((s.mono_ns - samples[0].mono_ns) / _NS, pen.value(s.value_mm), ", ".join(s.flags))
        for s in samples
    )


def _window(reading: Reading, samples: Sequence[Sample]) -> tuple[float, float] | None:
    """From when to when a reading's own samples came, seconds since the first of all."""
    inside = [
        s.mono_ns - samples[0].mono_ns
        for s in samples
        if s.run == reading.run and reading.first_n <= s.n <= reading.last_n
    ]
    return (inside[0] / _NS, inside[-1] / _NS) if inside else None


def _samples(taken: ReadingRow, pen: Pen, samples: SamplesOf) -> Picture:
    """The samples behind a reading, before its window and in it."""
    reading = taken.reading
    there = [s for s in samples(reading.evidence) if s.gauge == reading.gauge]
    seen, mean = _seen(there, pen), Shown(reading.mean_mm, pen.unit, pen.digits + 1)
    at = said("one-reading") if reading.position is None else _place(reading)
    title = said("picture-samples", at=at, samples=len(seen), unit=pen.unit)
    told = _told(title, said("picture-samples-says", mean=mean, count=reading.count), seen, pen)
    line = Level(pen.value(reading.mean_mm), pen.words(said("level-mean", at=mean)), "limit", 1)
    return trace(seen, (line,), told, pen.digits, _window(reading, there))


def _place(reading: Reading) -> Said:
    assert reading.position is not None
    return said("place-name", place=reading.position)


def _level(mm: float, say: Said, kind: str, pen: Pen) -> Level:
    return Level(pen.value(mm), pen.words(say), kind)


def _move(
    record: AuditRecord, row: AuditRow, moved: Moved, pen: Pen, samples: SamplesOf
) -> Picture:
    """The number's way from its base to where the turn ended."""
    there, stop, reading = samples(moved.reading.evidence), _stop(record, row), moved.reading
    seen, end = _seen(there, pen), Shown(reading.mean_mm, pen.unit, pen.digits)
    base_mm = reading.mean_mm if stop is None else stop.base_face_mm
    base = Shown(base_mm, pen.unit, pen.digits)
    lines = [
        _level(base_mm, said("level-base", at=base), "control", pen),
        _level(reading.mean_mm, said("level-end", at=end), "control left", pen),
    ]
    says = said("picture-move-by-hand", base=base, end=end)
    if stop is not None and not stop.by_hand:
        at = Shown(stop.stop_face_mm, pen.unit, pen.digits)
        lines.append(_level(stop.stop_face_mm, said("level-stop", at=at), "limit", pen))
        says = said("picture-move-says", base=base, end=end, stop=at)
    told = _told(_move_title(moved, pen), says, seen, pen)
    return trace(seen, lines, told, pen.digits, _window(reading, there))


def _stop(record: AuditRecord, row: AuditRow) -> StopAt | None:
    """The stop-at that held when a row was written."""
    held = None
    for each in record.rows:
        if each.seq >= row.seq:
            return held
        stands = each.voided_by is None or each.voided_by > row.seq
        if stands and isinstance(each.data, Parked | BaseRead | Answered):
            held = each.data.stop or held
    return held


def _tightening(
    record: AuditRecord, row: AuditRow, done: Tightened, pen: Pen, samples: SamplesOf
) -> Iterator[Picture]:
    """The number's way while the bolts of an axis were pulled up one by one; none of others."""
    pulled = _pulled(record, row, done.axis)
    if not pulled:
        return
    there = [s for each in pulled for s in samples(each.reading.evidence)]
    there = list({(s.run, s.n): s for s in there}.values())
    seen = _seen(there, pen)
    began, last = there[0].mono_ns if there else 0, pulled[-1].reading
    base_mm = pulled[0].reading.mean_mm - pulled[0].since_face_mm
    base, end = (Shown(mm, pen.unit, pen.digits) for mm in (base_mm, last.mean_mm))
    lines = (
        _level(base_mm, said("level-base", at=base), "control", pen),
        _level(last.mean_mm, said("level-end", at=end), "control left", pen),
    )
    steps = [DoneAt((each.reading.mid_ns - began) / _NS, each.bolt) for each in pulled if there]
    told = _told(
        _tightening_title(done, pen),
        said("picture-tightening-says", base=base, end=end),
        seen,
        pen,
    )
    yield trace(seen, lines, told, pen.digits, None, steps)


def _pulled(record: AuditRecord, row: AuditRow, axis: Axis) -> Sequence[BoltPulled]:
    """The steps of one tightening, those taken back left out."""
    found: list[BoltPulled] = []
    for each in record.rows:
        if each.seq >= row.seq:
            break
        if isinstance(each.data, Tightened):
            found = []
        elif (
            isinstance(each.data, BoltPulled) and each.data.axis == axis and each.voided_by is None
        ):
            found.append(each.data)
    return found
