"""The pictures of one row of an audit on record, with their tables; each as a file, too."""

from flask import Blueprint, Response, render_template, url_for
from werkzeug.exceptions import NotFound

from daq.ledger.errors import LedgerError
from daq.plots.picture import Picture
from daq.records.record import AuditRecord
from daq.report.pictures import has_picture, of_row
from daq.words import Sample
from web.recorded import kept_or_404
from web.rights import needs
from web.rooms import on_record_or_404, rooms, words
from web.scan import Family

blueprint = Blueprint("drawn", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/records/<audit>/rows/<int:row>")
@needs("look")
def drawn(audit: str, row: int) -> str:
    """Draw what a row is of, and lead to the rows with pictures before and after it."""
    found = kept_or_404(audit)
    rows = [each.seq for each in found.rows if has_picture(found, each)]
    pictures = _pictures(found, row)
    at = rows.index(row)

    def of(seq: int) -> str:
        return url_for("drawn.drawn", audit=found.audit, row=seq)

    return render_template(
        "picture.html",
        title=words("picture-of-row", row=row, audit=found.opened.short),
        of=words("audit-short", short=found.opened.short),
        back=url_for("record.record", audit=found.audit),
        shown=pictures,
        before=of(rows[at - 1]) if at else None,
        after=of(rows[at + 1]) if at + 1 < len(rows) else None,
        file=url_for("drawn.alone", audit=found.audit, row=row),
    )


@blueprint.get("/records/<audit>/rows/<int:row>.svg")
@needs("look")
def alone(audit: str, row: int) -> Response:
    """Return the row's first picture, dark on white as on paper."""
    return Response(_pictures(kept_or_404(audit), row)[0].svg, mimetype="image/svg+xml")


def _pictures(found: AuditRecord, seq: int) -> tuple[Picture, ...]:
    """A row's pictures; answers 404 where it has none."""
    row = next((each for each in found.rows if each.seq == seq), None)
    shared = rooms()
    pictures = () if row is None else of_row(found, row, shared.says, shared.hub.people, _samples)
    if not pictures:
        raise NotFound(words("no-picture-of-row", row=seq, audit=found.opened.short))
    return pictures


def _samples(digest: str) -> tuple[Sample, ...]:
    """What is there of a piece of evidence; the audit's own page says why there is none."""
    try:
        return on_record_or_404().samples(digest)
    except LedgerError:
        return ()
