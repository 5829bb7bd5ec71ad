"""The report as JSON, in the published form (`headsweep report --schema`)."""

import json
from dataclasses import dataclass

from daq.report.report import AuditReport
from daq.settings import plain


@dataclass(frozen=True)
class _Json:
    ending: str = "json"
    media: str = "application/json"
    policy: str = "default-src 'none'"

    def made(self, report: AuditReport) -> bytes:
        """An object of the schema, its keys sorted, UTF-8."""
        text = json.dumps(plain(report.data), ensure_ascii=False, indent=1, sort_keys=True)
        return f"{text}\n".encode()


FORMAT = _Json()
