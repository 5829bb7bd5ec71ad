"""An audit on record, as data: what its page shows, and no report's form."""

from flask import Blueprint

from daq.records.whole.shapes import RecordView
from daq.records.whole.view import shown
from web.problems import Problem
from web.recorded import record_or_404
from web.rights import needs
from web.scan import Family
from web.typed import typed

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
