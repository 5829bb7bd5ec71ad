"""Every reading as a table of text: a header line and a line a reading.

The last column has no cells; its head is the anchor of the audit in the ledger, so that a program
sees nothing but a table and the file still says where it comes from.
"""

from dataclasses import dataclass

from daq.report.cells import table
from daq.report.readings import ReadingLine
from daq.report.report import AuditReport


@dataclass(frozen=True)
class _Csv:
    ending: str = "csv"
    media: str = "text/csv"
    policy: str = "default-src 'none'"

    def made(self, report: AuditReport) -> bytes:
        """One reading a line, UTF-8."""
        return table(ReadingLine, report.data.readings, report.data)


FORMAT = _Csv()
