"""An audit on record: all of it on one page."""

from flask import Blueprint, redirect, render_template, url_for
from werkzeug import Response

from daq.records.whole.shapes import RecordView
from daq.records.whole.view import shown
from daq.report.number import replaced
from web.drawings import on_page
from web.recorded import record_or_404
from web.rights import needs
from web.rooms import rooms
from web.scan import Family

blueprint = Blueprint("record", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/records/<audit>")
@needs("look")
def record(audit: str) -> str | Response:
    """Show it, as it is read from the ledger now; any way of naming it leads to its own address."""
    found = record_or_404(audit)
    if found.audit != audit:
        return redirect(url_for("record.record", audit=found.audit))
    view = shown(found)
    return render_template(
        "record.html",
        view=rooms().told(view),
        above=_above(view),
        pictures=on_page(found),
        replaced=replaced(found),
    )


def _above(view: RecordView) -> frozenset[int]:
    """The rows whose numbers stand further up on the page: they are not told twice."""
    read = {cell.seq for each in view.swept for cell in each.readings}
    came = {each.seq for each in view.swept if each.seq is not None}
    return frozenset(read | came | {each.seq for each in (*view.moves, *view.asked)})
