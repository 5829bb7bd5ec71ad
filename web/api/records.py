"""The list of all audits on record."""

from flask import Blueprint

from daq.records.shown import RecordsView, shown
from daq.records.wanted import Wanted, answer
from daq.service.listing import NoList
from web.problems import Problem
from web.rights import needs
from web.rooms import listing_or_404, rooms
from web.scan import Family
from web.typed import WithStatus, typed

blueprint = Blueprint("api_records", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/api/records")
@needs("look")
@typed({200: RecordsView, 404: Problem, 503: Problem})
def records(query: Wanted) -> RecordsView | WithStatus:
    """Return audits of every kind, newest first: practice, open and given up ones are among them.

    `kind`: "squaring" or the key of another check. `since`, `until`: days, both included.
    `gauge`: a key or a serial number. `by`: a name, or a part of it. `voided`, `practice`, `open`:
    "yes" or "no". `failed_check`: those that used a gauge which failed its check on that day or
    later, since it was last known to be good. Older ones are asked for with `before`, as `more`
    gives it.
    """
    listing = listing_or_404()
    try:
        with listing.asked() as index:
            return shown(answer(index, query, rooms().hub.people), listing.behind)
    except NoList as error:
        return WithStatus(Problem("service-unavailable", error.said), 503)
