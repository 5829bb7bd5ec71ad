"""The console: the same step with its buttons, for phone, tablet, keyboard and pedal."""

from flask import Blueprint, render_template

from web.rights import needs
from web.rooms import machine_or_404, rooms
from web.scan import Family

blueprint = Blueprint("console", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/machines/<machine>/console")
@needs("look")
def console(machine: str) -> str:
    """Show a machine in the hand."""
    found = machine_or_404(machine)
    view = rooms().page(machine, "console")
    return render_template("console.html", machine=found, view=view)
