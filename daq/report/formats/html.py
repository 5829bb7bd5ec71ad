"""The report as one page that needs nothing else: no script, no file beside it, made to print.

Every text is escaped. The page says itself what a browser may do with it: show it in its own style.
"""

import base64
import hashlib
from dataclasses import dataclass
from functools import cache
from html import escape
from importlib.resources import files
from typing import Final

from daq.report.paper import Block, Drawing, Facts, Grid, Lines, Paper, Section
from daq.report.report import AuditReport

_STYLE: Final = "html.css"
_SIZES: Final = {"A4": "A4", "Letter": "letter"}


@dataclass(frozen=True)
class _Html:
    ending: str = "html"
    media: str = "text/html"

    @property
    def policy(self) -> str:
        """Its own style, and nothing else."""
        return _policy()

    def made(self, report: AuditReport) -> bytes:
        """The page, UTF-8."""
        return html_of(report.paper)


def html_of(paper: Paper) -> bytes:
    """Return any paper as a page, UTF-8."""
    return _page(paper, _policy()).encode()


def _policy() -> str:
    every = (f"'{_digest(_style(size))}'" for size in _SIZES)
    return f"default-src 'none'; style-src {' '.join(every)}"


@cache
def _style(size: str) -> str:
    text = files(__package__).joinpath(_STYLE).read_text(encoding="utf-8")
    page = '@bottom-right { content: counter(page) " / " counter(pages); font: 8pt serif; }'
    return f"@page {{ size: {_SIZES[size]}; margin: 15mm; {page} }}\n{text}"


def _digest(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _page(paper: Paper, policy: str) -> str:
    title = f"{paper.title} {paper.number}"
    return "\n".join(
        (
            "<!DOCTYPE html>",
            f'<html lang="{escape(paper.language)}">',
            "<head>",
            '<meta charset="utf-8">',
            f'<meta http-equiv="Content-Security-Policy" content="{escape(policy)}">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f'<meta name="headsweep-anchor" content="{escape(paper.token)}">',
            f"<title>{escape(title)}</title>",
            f"<style>{_style(paper.size)}</style>",
            "</head>",
            "<body>",
            "<main>",
            _head(paper),
            f'<div class="first">{_sections(paper.first)}</div>',
            _sections(paper.rest),
            f'<p class="end">{escape(paper.labels.end)}</p>',
            _mark(paper),
            f'<p class="foot">{escape(paper.labels.foot)}</p>',
            "</main>",
            "</body>",
            "</html>",
            "",
        )
    )


def _head(paper: Paper) -> str:
    shop = "".join(f"<p>{escape(line)}</p>" for line in paper.shop)
    return (
        f"{_mark(paper)}<header><div><h1>{escape(paper.title)}</h1>"
        f"<p><em>{escape(paper.subtitle)}</em></p><p>{escape(paper.number)}</p>{shop}</div>"
        f"<figure>{paper.qr}<figcaption>{escape(paper.labels.qr)}</figcaption></figure></header>"
    )


def _mark(paper: Paper) -> str:
    mark = paper.labels.mark
    return f'<p class="mark">{escape(mark)}</p>' if mark else ""


def _sections(sections: tuple[Section, ...]) -> str:
    return "\n".join(_section(each) for each in sections)


def _section(section: Section) -> str:
    heading = f"<h2>{escape(section.heading)}</h2>" if section.heading else ""
    blocks = "\n".join(_block(each, section) for each in section.blocks)
    return f'<section class="{escape(section.key)}">{heading}{blocks}</section>'


def _block(block: Block, section: Section) -> str:
    if isinstance(block, Facts):
        rows = (f"<dt>{escape(name)}</dt><dd>{escape(text)}</dd>" for name, text in block.rows)
        return f"<dl>{''.join(rows)}</dl>"
    if isinstance(block, Grid):
        return _table(block, section.heading)
    if isinstance(block, Lines):
        return "".join(f"<p>{escape(each)}</p>" for each in block.rows)
    if isinstance(block, Drawing):
        says = escape(block.says)
        return f"<figure>{block.svg}<figcaption>{says}</figcaption></figure>"
    return f'<p class="stated">{escape(block.text)}</p>'


def _table(grid: Grid, heading: str) -> str:
    head = "".join(f'<th scope="col">{escape(t)}</th>' if t else "<td></td>" for t in grid.head)
    rows = "\n".join(_row(grid, y, row) for y, row in enumerate(grid.rows))
    small = ' class="small"' if grid.small else ""
    return (
        f'<div class="table" role="region" tabindex="0" aria-label="{escape(heading)}">'
        f"<table{small}><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>"
    )


def _row(grid: Grid, y: int, row: tuple[str, ...]) -> str:
    wide = (' class="wide"' if x in grid.wide else "" for x in range(len(row)))
    cells = (f"<td{of}>{escape(text)}</td>" for of, text in zip(wide, row, strict=True))
    struck = ' class="struck"' if y in grid.struck else ""
    return f"<tr{struck}>{''.join(cells)}</tr>"


FORMAT = _Html()
