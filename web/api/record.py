"""An audit on record, as data: what its page shows, and no report's form."""

import re
from typing import Final

from flask import Blueprint

from daq.records.played import MomentsView, MomentView, count, moment, moments
from daq.records.whole.shapes import RecordView
from daq.records.whole.view import shown
from daq.settings import quoted
from daq.words import said
from web.problems import Problem
from web.recorded import kept_or_404, record_or_404
from web.rights import needs
from web.rooms import on_record_or_404
from web.scan import Family
from web.typed import WithStatus, typed

_NUMBER: Final = re.compile(r"[0-9]{1,6}")

blueprint = Blueprint("api_record", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/api/records/<audit>")
@needs("look")
@typed({200: RecordView, 404: Problem, 503: Problem})
def record(audit: str) -> RecordView:
    """Return an audit whole, named by its id, how that begins, or its short form.

    Each row was held against its hash, and its samples against theirs, as it was read.
    """
    return shown(record_or_404(audit))


@blueprint.get("/api/records/<audit>/moments")
@needs("look")
@typed({200: MomentsView, 404: Problem, 503: Problem})
def every_moment(audit: str) -> MomentsView:
    """Return every press of an audit as a place to play it from."""
    return moments(record_or_404(audit))


@blueprint.get("/api/records/<audit>/moments/<n>")
@needs("look")
@typed({200: MomentView, 404: Problem, 503: Problem})
def one_moment(audit: str, n: str) -> MomentView | WithStatus:
    """Return what the screens showed after an audit's press of that number, counted from 0.

    With the numbers of the gauge since the one before, thinned. It is a record: nothing is live.
    """
    found, asked = kept_or_404(audit), int(n) if _NUMBER.fullmatch(n) else -1
    if asked >= count(found):
        found = record_or_404(audit)  # an open audit goes on
    if not 0 <= asked < count(found):
        none = said("play-no-moment", found=quoted(n), last=count(found) - 1)
        return WithStatus(Problem("not-found", none), 404)
    return moment(found, asked, on_record_or_404().samples)
