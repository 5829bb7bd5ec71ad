"""Where the Pi's own wall comes in."""

from flask import Blueprint, Response, abort, request, url_for

from web.rights import keep, needs
from web.rooms import rooms, words
from web.scan import Family

blueprint = Blueprint("own", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/own")
@needs("open")
def own() -> Response:
    """Let the Pi's own wall in by its ticket, and send it on at once to its page.

    That is its machine's, which need not be said where there is one alone.
    Where nobody is asked who it is, as without a record, the page says what there is to say.
    """
    shared = rooms()
    keys = [each.key for each in shared.hub.machines()]
    machine = request.args.get("machine", keys[0] if len(keys) == 1 else "")
    there = machine in keys
    page = url_for("wall.wall", machine=machine) if there else url_for("start.start")
    sent_on = Response(status=303, headers={"Location": page})
    if shared.access is None:
        return sent_on
    token = shared.access.admit_wall(request.args.get("ticket", ""))
    if not token:
        abort(403, description=words("ticket-spent"))
    return keep(sent_on, token)
