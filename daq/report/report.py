"""One report while its bytes are made: what it says, as data and as a paper; its samples."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from daq.records.record import AuditRecord
from daq.report.data import ReportData
from daq.report.drawings import drawings
from daq.report.figures import Figures
from daq.report.gather import gathered
from daq.report.given import Given
from daq.report.lay import laid
from daq.report.number import number
from daq.report.one_anchor import without_anchors
from daq.report.paper import Paper
from daq.report.readings import SampleLine, samples
from daq.report.told import Told


@dataclass(frozen=True)
class AuditReport:
    """A record and what it is told with; whatever a format asks for is made once."""

    record: AuditRecord
    given: Given

    @cached_property
    def data(self) -> ReportData:
        """Everything it says, as codes, numbers and texts."""
        data = gathered(self.record, self.given)
        return replace(without_anchors(data), anchor=data.anchor)

    @cached_property
    def paper(self) -> Paper:
        """The same as sections of words."""
        issued = number(self.record).issued
        issued_us = None if issued is None else issued.event.stamp.utc_us
        figures, drawn = (
            Figures(self.record.job, Told(self.given)),
            drawings(self.record, self.given),
        )
        paper = laid(self.data, figures, issued_us, drawn)
        return replace(without_anchors(paper), token=paper.token, qr=paper.qr)

    def samples(self) -> Iterator[SampleLine]:
        """Every sample behind it, one after the other."""
        return samples(self.record, self.given.samples)
