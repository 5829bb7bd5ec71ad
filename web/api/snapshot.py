"""Everything a screen shows of a machine besides the live number."""

from flask import Blueprint

from daq.words import Snapshot
from web.rights import needs
from web.rooms import rooms
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_snapshot", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/api/machines/<machine>/snapshot")
@needs("look")
@typed()
def snapshot(machine: str) -> Snapshot:
    """Return the machine's state as the screens show it, one view a page."""
    return rooms().hub.snapshot(machine)
