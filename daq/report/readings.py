"""Every reading of an audit, and every sample behind it, a line each: for tables."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from daq.audit.events import ReportAmended
from daq.records.record import AuditRecord, AuditRow, ReadingRow
from daq.report.figures import Figures
from daq.report.given import SamplesOf
from daq.words import PARKED, Sample, Stamp, Unit


@dataclass(frozen=True)
class ReadingLine:
    """One reading as it stands in the ledger's row `row`.

    `utc`: when that was written, ISO 8601; `clock_set`: by a clock that a time server had set.
    `event`: what the row is; `sweep`: the number of the sweep it went into. `position`: where on
    the circle, or `station` of another check. `face`: the number as the gauge could show it, in
    its `unit`; `mean_mm` and `sd_mm`: mean and standard deviation of its `count` samples on the
    gauge's own face, mm, nothing rounded. `taken_back_by`: the row that took it back.
    `evidence`: the SHA-256 of its samples.
    """

    row: int
    utc: str
    clock_set: bool
    event: str
    sweep: int | None
    position: str
    station: str
    gauge: str
    second_gauge: bool
    face: str
    unit: Unit
    mean_mm: float
    sd_mm: float
    count: int
    taken_back_by: int | None
    evidence: str


@dataclass(frozen=True)
class SampleLine:
    """One sample that is stored with row `row`, in the order it came.

    `position`: the place the gauge was read at, or was parked at while that was recorded.
    `used`: it is one of those the reading is the mean of. `mono_ns`: the Pi's own clock since it
    started, ns. `text` and `raw` (hex) are what was sent, `value_mm` is that in millimetres.
    """

    row: int
    event: str
    sweep: int | None
    position: str
    station: str
    used: bool
    gauge: str
    run: str
    n: int
    mono_ns: int
    text: str
    unit: Unit
    value_mm: float
    flags: str
    raw: str


def utc(stamp: Stamp) -> str:
    """A moment in UTC to the microsecond, ISO 8601."""
    whole, part = divmod(stamp.utc_us, 1_000_000)
    moment = datetime.fromtimestamp(whole, UTC)
    return f"{moment:%Y-%m-%dT%H:%M:%S}.{part:06d}Z"


def readings(record: AuditRecord, shown: Figures) -> tuple[ReadingLine, ...]:
    """Return every reading in the order of the rows, those taken back among them."""
    return tuple(_reading(each, shown) for each in record.readings)


def _reading(each: ReadingRow, shown: Figures) -> ReadingLine:
    row, reading = each.row, each.reading
    return ReadingLine(
        row=row.seq,
        utc=utc(row.event.stamp),
        clock_set=row.event.stamp.utc_trusted,
        event=row.event.type,
        sweep=each.sweep,
        position=reading.position or _parked(row),
        station=_station(row),
        gauge=reading.gauge,
        second_gauge=each.second,
        face=shown.face(reading.mean_mm),
        unit=shown.unit,
        mean_mm=reading.mean_mm,
        sd_mm=reading.sd_mm,
        count=reading.count,
        taken_back_by=row.voided_by,
        evidence=reading.evidence,
    )


def samples(record: AuditRecord, of: SamplesOf) -> Iterator[SampleLine]:
    """Give every sample that is stored with an audit's rows, a row after the other.

    What is stored with several rows is given with the first of them.
    """
    by_row: dict[int, list[ReadingRow]] = {}
    for each in record.readings:
        by_row.setdefault(each.row.seq, []).append(each)
    seen: set[str] = set()
    for row in record.rows:
        for digest in () if isinstance(row.data, ReportAmended) else row.event.evidence:
            if digest not in seen:
                seen.add(digest)
                yield from (_sample(row, by_row.get(row.seq, []), s) for s in of(digest))


def _sample(row: AuditRow, read: list[ReadingRow], sample: Sample) -> SampleLine:
    mine = next((each for each in read if each.reading.gauge == sample.gauge), None)
    reading = None if mine is None else mine.reading
    used = reading is not None and reading.run == sample.run
    return SampleLine(
        row=row.seq,
        event=row.event.type,
        sweep=None if mine is None else mine.sweep,
        position=(reading.position if reading is not None else None) or _parked(row),
        station=_station(row),
        used=used and reading is not None and reading.first_n <= sample.n <= reading.last_n,
        gauge=sample.gauge,
        run=sample.run,
        n=sample.n,
        mono_ns=sample.mono_ns,
        text=sample.text,
        unit=sample.unit,
        value_mm=sample.value_mm,
        flags=" ".join(sample.flags),
        raw=sample.raw.hex(),
    )


def _parked(row: AuditRow) -> str:
    """Where the gauge stands while an axis is worked on; "" where that is not known."""
    axis: Any = getattr(row.data, "axis", "")
    return PARKED.get(axis, "")


def _station(row: AuditRow) -> str:
    return str(getattr(row.data, "station", ""))
