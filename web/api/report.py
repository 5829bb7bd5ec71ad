"""An audit's report as a file: the same bytes as `headsweep report` writes."""

from typing import ClassVar

from flask import Blueprint, Response
from werkzeug.exceptions import NotFound

from daq.ledger.errors import LedgerError
from daq.words import SaidTrouble
from web.problems import Problem
from web.recorded import unread
from web.rights import needs
from web.rooms import on_record_or_404, rooms
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_report", __name__)
FAMILY = Family(blueprint)

SHOWN = ("application/pdf", "text/html")
"""What a browser shows itself; anything else is kept as a file."""


class ReportResponse(Response):
    """A report in the format of its ending."""

    default_mimetype = "application/octet-stream"
    kinds: ClassVar[tuple[str, ...]] = (
        "application/pdf",
        "text/html",
        "application/json",
        "text/csv",
        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    )


@blueprint.get("/api/records/<audit>/report.<ending>")
@needs("look")
@typed({200: ReportResponse, 404: Problem, 503: Problem})
def report(audit: str, ending: str) -> ReportResponse:
    """Return an audit's report: pdf, html, json (headsweep report --schema), csv, xlsx.

    The audit by its UUID, how that begins, or its short form. The ending csv has a line a reading,
    samples.csv a line a sample. The same record gives the same bytes each time.
    """
    return _made(audit, ending)


@blueprint.get("/records/<audit>/report.<ending>")
@needs("look")
def for_people(audit: str, ending: str) -> ReportResponse:
    """The same, what goes wrong on a page."""
    return _made(audit, ending)


@blueprint.get("/records/<audit>/reports/<number>.pdf")
@needs("look")
def replaced(audit: str, number: str) -> ReportResponse:
    """A report by its number: of one that was replaced the bytes that were kept."""
    return _made(audit, "pdf", number)


def _made(audit: str, ending: str, number: str = "") -> ReportResponse:
    """It is made in the thread that asks, from a view of its own: no press waits for it."""
    from daq import __version__
    from daq.ledger.view import LedgerView
    from daq.report.files import report_of

    there = on_record_or_404().data
    try:
        with LedgerView.open(there) as view:
            found = report_of(view, audit, ending, rooms().of_shop, __version__, number)
    except LedgerError as error:
        raise unread(error) from error
    except SaidTrouble as trouble:
        raise NotFound(rooms().says.words(trouble.said)) from trouble
    answer = ReportResponse(found.content, content_type=content_type(found.media))
    how = "inline" if found.media in SHOWN else "attachment"
    answer.headers["Content-Disposition"] = f'{how}; filename="{found.name}"'
    answer.headers["Content-Security-Policy"] = found.policy
    return answer


def content_type(media: str) -> str:
    """A file's kind as it is sent."""
    return f"{media}; charset=utf-8" if media.startswith("text/") else media
