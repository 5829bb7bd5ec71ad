"""What a machine's signed audits show together."""

from flask import Blueprint

from daq.words.trend import TrendView
from web.rooms import trends_or_404
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_trend", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/api/machines/<machine>/trend")
@typed()
def trend(machine: str) -> TrendView:
    """Return each axis as found, as left and how tightening shifts it, and the next due date.

    Lengths are millimetres over `over_mm`. Practice is not in it.
    """
    return trends_or_404().of(machine)
