"""The published form of a JSON report: a JSON schema (draft 2020-12) made from its dataclasses."""

from typing import Any

from daq.report.data import SCHEMA, ReportData
from daq.settings.schema import Schemas


def report_schema() -> dict[str, Any]:
    """Return it; every field that a report has is required."""
    schemas = Schemas("#/$defs/")
    body = schemas.of(ReportData)
    named = schemas.named
    named["ReportData"]["properties"]["schema"] = {"const": SCHEMA}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:headsweep:{SCHEMA}",
        "title": "A headsweep report",
        **body,
        "$defs": named,
    }
