"""What the screens say after a run that was cut off is taken away once somebody has read it."""

from dataclasses import dataclass

from flask import Blueprint

from web.rights import needs
from web.rooms import rooms, words
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_cut_off", __name__)
FAMILY = Family(blueprint)


@dataclass(frozen=True)
class ReadBody:
    """An empty object."""


@dataclass(frozen=True)
class WasRead:
    """What became of it."""

    say: str


@blueprint.post("/api/cut-off/read")
@needs("work")
@typed()
def read(body: ReadBody) -> WasRead:
    """Take it from all screens."""
    rooms().hub.rise.away()
    return WasRead(words("cut-off-gone"))
