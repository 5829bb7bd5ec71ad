"""An audit's report as the bytes of a file: the same record gives the same bytes."""

from daq.records.record import AuditRecord
from daq.report.formats import Format, formats
from daq.report.given import Given
from daq.report.report import AuditReport
from daq.words import SaidTrouble, said


class NoSuchFormat(SaidTrouble):
    """No report is made as that."""


def endings() -> tuple[str, ...]:
    """Return how a report's file may end, such as "pdf"; the longest first."""
    return tuple(formats())


def made(record: AuditRecord, ending: str, given: Given) -> bytes:
    """Return an audit's report as a file of that ending.

    Raises:
        NoSuchFormat: no report is made as that; says which are.
    """
    return form(ending).made(AuditReport(record, given))


def form(ending: str) -> Format:
    """Return the format whose files end so.

    Raises:
        NoSuchFormat: there is none; says which there are.
    """
    found = formats().get(ending)
    if found is None:
        raise NoSuchFormat(said("no-such-format", found=ending, allowed=", ".join(endings())))
    return found
