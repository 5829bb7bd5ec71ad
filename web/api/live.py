"""The live number of a machine's gauge."""

from flask import Blueprint

from daq.words import Live
from web.rights import needs
from web.rooms import rooms
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_live", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/api/machines/<machine>/live")
@needs("look")
@typed()
def live(machine: str) -> Live:
    """Return the latest number; `fresh` is false when it must not be shown as live."""
    return rooms().hub.live(machine)
