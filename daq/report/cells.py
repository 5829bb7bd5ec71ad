"""Dataclasses as a table of comma-separated values (RFC 4180)."""

import csv
import io
import math
from collections.abc import Iterable
from dataclasses import fields
from typing import TYPE_CHECKING, Final

from daq.report.data import ReportData

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the beginning of a formula."""


def table(
    cls: "type[DataclassInstance]", lines: "Iterable[DataclassInstance]", of: ReportData
) -> bytes:
    """Return a line each under a line of names, with audit, machine and report in front."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    names = [each.name for each in fields(cls)]
    writer.writerow(["audit", "machine", "report", *names, of.anchor.token])
    known = [of.audit, cell(of.machine.key), cell(of.issue.number)]
    for line in lines:
        writer.writerow([*known, *(cell(getattr(line, name)) for name in names), ""])
    return out.getvalue().encode()


def cell(value: object) -> str:
    """A value as a cell: a text that a spreadsheet would compute gets an apostrophe before it.

    A number keeps every digit; nothing is an empty cell.
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return repr(value)
    text = str(value)
    return f"'{text}" if text.startswith(_FORMULA) and not _is_number(text) else text


def _is_number(text: str) -> bool:
    try:
        return math.isfinite(float(text))
    except ValueError:
        return False
