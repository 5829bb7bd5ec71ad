"""Where a screen is paired, and where the Pi's own wall comes in."""

from flask import Blueprint, Response, abort, render_template, request, url_for

from web.rights import keep, needs
from web.rooms import rooms, words
from web.scan import Family

blueprint = Blueprint("pair", __name__)
FAMILY = Family(blueprint, pairing_only=True)


@blueprint.get("/pair")
@needs("open")
def pair() -> str:
    """Ask for the code, which stands on the own wall and never here."""
    return render_template("pair.html")


@blueprint.get("/own")
@needs("open")
def own() -> Response:
    """Let the Pi's own wall in by its ticket, and send it on at once to its page."""
    shared = rooms()
    token = shared.access and shared.access.admit_wall(request.args.get("ticket", ""))
    if not token:
        abort(403, description=words("ticket-spent"))
    machine = request.args.get("machine", "")
    there = machine in [each.key for each in shared.hub.machines()]
    page = url_for("wall.wall", machine=machine) if there else url_for("start.start")
    return keep(Response(status=303, headers={"Location": page}), token)
