"""What a report shows drawn: the sweep as found, and the one as left."""

from daq.records.record import AuditRecord
from daq.report.given import Given
from daq.report.paper import Drawing
from daq.report.pictures import of_sweep, sweep_of
from daq.report.results import found_and_left


def drawings(record: AuditRecord, given: Given) -> tuple[Drawing, ...]:
    """Return them, each with its caption; none of a check without a sweep."""
    wanted = {each.number for each in found_and_left(record) if each is not None}
    latest = {
        sweep.number: row
        for row in record.rows
        if row.voided_by is None and (sweep := sweep_of(row)) is not None
    }
    found = (
        of_sweep(record, latest[number], given.says, given.names)
        for number in sorted(wanted & latest.keys())
    )
    return tuple(Drawing(each.svg, each.table.caption) for each in found)
