"""The report as a PDF, set by typst: our layout (`pdf.typ`), the report's words as data.

No text of the report is ever read as markup: it comes in as JSON. Fonts are those in typst's own
wheel, no file and no network is read, no clock: the same report gives the same bytes.
"""

import json
from dataclasses import dataclass
from importlib.resources import files
from typing import Final

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
        layout = files(__package__).joinpath(_LAYOUT).read_bytes()
        paper = json.dumps(plain(report.paper), ensure_ascii=False)
        issued_us = report.paper.issued_us
        return typeset(layout, {"paper": paper}, 0 if issued_us is None else issued_us // 1_000_000)


FORMAT = _Pdf()
