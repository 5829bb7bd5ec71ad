"""What the Pi's own wall says by itself."""

from flask import Blueprint

from web.api.pairing import EmptyBody
from web.rights import needs
from web.rooms import rooms
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_own_wall", __name__)
FAMILY = Family(blueprint, pairing_only=True)


@blueprint.post("/api/wall/drawn")
@needs("own")
@typed()
def drawn(body: EmptyBody) -> EmptyBody:
    """Hear that a page of the own wall is drawn; whoever keeps its browser goes by that."""
    access = rooms().access
    assert access is not None  # else the family is not there
    access.drawn()
    return body
