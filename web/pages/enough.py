"""Good enough for this job: a drawing's callout typed in, held against the last sweep."""

from flask import Blueprint, render_template

from web.rights import needs
from web.rooms import machine_or_404, rooms, trends_or_404
from web.scan import Family

blueprint = Blueprint("enough", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/machines/<machine>/enough")
@needs("look")
def enough(machine: str) -> str:
    """Ask for the callout."""
    found = machine_or_404(machine)
    trends_or_404()
    unit = rooms().page(machine, "wall")["unit"]
    return render_template("enough.html", machine=found, unit=unit)
