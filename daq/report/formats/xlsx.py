"""The report as a spreadsheet: a summary, every reading, every row, and the uncertainty.

A text stays a text, whatever it begins with: none is ever stored as a formula or a link. Numbers
are numbers, of 16 digits, as many as such a file is written with; the anchor stands in the file's
properties.
"""

import datetime
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from typing import Any, Final

from daq.report.data import ReportData, RowPart, TermPart
from daq.report.paper import Facts, Grid, Lines, VerdictBlock
from daq.report.readings import ReadingLine
from daq.report.report import AuditReport

Workbook = Any
Worksheet = Any
"""The library has no type hints."""

_LIMIT: Final = 32_767
"""Characters that a cell can hold."""
_OPTIONS: Final = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
}
_EPOCH: Final = datetime.datetime(2000, 1, 1)


@dataclass(frozen=True)
class _Xlsx:
    ending: str = "xlsx"
    media: str = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    policy: str = "default-src 'none'"

    def made(self, report: AuditReport) -> bytes:
        """Four sheets."""
        import xlsxwriter  # type: ignore[import-untyped]

        out, data = io.BytesIO(), report.data
        book = xlsxwriter.Workbook(out, _OPTIONS)
        paper = report.paper
        book.set_properties(
            {
                "title": f"{paper.title} {paper.number}",
                "keywords": paper.token,
                "created": _issued(paper.issued_us),
            }
        )
        _summary(book, report)
        _sheet(book, "readings", _named(ReadingLine), (_values(r) for r in data.readings))
        _sheet(book, "rows", _named(RowPart), (_values(r) for r in data.rows))
        _sheet(book, "budget", ("of", "sweep", *_named(TermPart)), _budget(data))
        book.close()
        return out.getvalue()


def _issued(us: int | None) -> datetime.datetime:
    return _EPOCH if us is None else datetime.datetime.fromtimestamp(us // 1_000_000, datetime.UTC)


def _summary(book: Workbook, report: AuditReport) -> None:
    """The first page, a block below the other."""
    paper, sheet = report.paper, book.add_worksheet("summary")
    sheet.set_column(0, 0, 28)
    sheet.set_column(1, 12, 22)
    lines: list[Sequence[object]] = [(paper.title, paper.number), (paper.subtitle,)]
    lines += [(paper.labels.mark,)] if paper.labels.mark else []
    lines += [(each,) for each in paper.shop]
    for section in paper.first:
        lines.append((section.heading,))
        for block in section.blocks:
            if isinstance(block, Grid):
                lines += [block.head, *block.rows]
            elif isinstance(block, Facts):
                lines += block.rows
            elif isinstance(block, Lines):
                lines += [(each,) for each in block.rows]
            elif isinstance(block, VerdictBlock):
                lines.append((block.text,))
    for y, line in enumerate([*lines, (paper.labels.foot,), (paper.token,), (paper.labels.end,)]):
        _write(sheet, y, line)


def _sheet(
    book: Workbook, name: str, head: Sequence[str], rows: Iterable[Sequence[object]]
) -> None:
    sheet = book.add_worksheet(name)
    sheet.freeze_panes(1, 0)
    for y, row in enumerate((head, *rows)):
        _write(sheet, y, row)


def _write(sheet: Worksheet, y: int, row: Sequence[object]) -> None:
    for x, value in enumerate(row):
        if isinstance(value, bool):
            sheet.write_string(y, x, "yes" if value else "no")
        elif isinstance(value, int | float):
            sheet.write_number(y, x, value)
        elif value not in (None, ""):
            sheet.write_string(y, x, str(value)[:_LIMIT])


def _named(cls: type[Any]) -> tuple[str, ...]:
    return tuple(each.name for each in fields(cls))


def _values(line: ReadingLine | RowPart | TermPart) -> tuple[object, ...]:
    values = (getattr(line, each.name) for each in fields(line))
    return tuple(". ".join(each) if isinstance(each, tuple) else each for each in values)


def _budget(data: ReportData) -> Iterable[Sequence[object]]:
    for budget in data.budgets:
        for term in budget.terms:
            yield (budget.of, budget.sweep, *_values(term))


FORMAT = _Xlsx()
