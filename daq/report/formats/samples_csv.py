"""Every sample as a table of text: a line each, with the place it belongs to."""

from dataclasses import dataclass

from daq.report.cells import table
from daq.report.readings import SampleLine
from daq.report.report import AuditReport


@dataclass(frozen=True)
class _SamplesCsv:
    ending: str = "samples.csv"
    media: str = "text/csv"
    policy: str = "default-src 'none'"

    def made(self, report: AuditReport) -> bytes:
        """One sample a line, UTF-8."""
        return table(SampleLine, report.samples(), report.data)


FORMAT = _SamplesCsv()
