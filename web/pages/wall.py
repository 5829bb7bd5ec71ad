"""The wall screen, read at 3 to 5 m."""

from flask import Blueprint, render_template

from web.rights import needs
from web.rooms import machine_or_404, rooms
from web.scan import Family

blueprint = Blueprint("wall", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/machines/<machine>/wall")
@needs("look")
def wall(machine: str) -> str:
    """Show a machine on the wall."""
    found = machine_or_404(machine)
    view = rooms().page(machine, "wall")
    return render_template("wall.html", machine=found, view=view)
