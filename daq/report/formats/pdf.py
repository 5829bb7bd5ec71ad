"""The report as a PDF, set by typst: our layout (`pdf.typ`), the report's words as data.

No text of the report is ever read as markup: it comes in as JSON. Fonts are those in typst's own
wheel, no file and no network is read, no clock: the same report gives the same bytes.
"""

import json
from dataclasses import dataclass
from importlib.resources import files
from typing import Final

from daq.report.paper import Paper
from daq.report.report import AuditReport
from daq.report.typeset import typeset
from daq.settings import plain

_LAYOUT: Final = "pdf.typ"


@dataclass(frozen=True)
class _Pdf:
    ending: str = "pdf"
    media: str = "application/pdf"
    policy: str = "script-src 'none'; object-src 'self'"

    def made(self, report: AuditReport) -> bytes:
        """A4 or Letter pages, the first of them for whoever asked."""
        return pdf_of(report.paper)


def pdf_of(paper: Paper) -> bytes:
    """Return any paper's pages."""
    layout = files(__package__).joinpath(_LAYOUT).read_bytes()
    inputs = {"paper": json.dumps(plain(paper), ensure_ascii=False)}
    return typeset(layout, inputs, (paper.issued_us or 0) // 1_000_000)


FORMAT = _Pdf()
