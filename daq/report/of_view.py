"""Reports of records as they are read from a ledger, with what else they take from there."""

from collections.abc import Callable
from functools import partial

from daq.ledger.view import LedgerView
from daq.records.record import AuditRecord
from daq.says import language


def reports(tag: str, version: str) -> Callable[[LedgerView, AuditRecord, str], bytes]:
    """Return what makes a report in the language `tag` as a file of an ending.

    What that takes is loaded with the first one: a service's start waits for none of it. What is
    returned raises NoSuchFormat for an ending that no report has.
    """

    def made_of(view: LedgerView, record: AuditRecord, ending: str) -> bytes:
        from daq.report.files import samples
        from daq.report.given import Given
        from daq.report.made import made

        given = Given(language(tag), view.people(), partial(samples, view), version)
        return made(record, ending, given)

    return made_of
