"""The wall screen, read at 3 to 5 m."""

from flask import Blueprint, render_template, url_for
from markupsafe import Markup

from daq.report.qr import qr
from web.phones import for_phones
from web.rights import needs
from web.rooms import machine_or_404, rooms, words
from web.scan import Family

blueprint = Blueprint("wall", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/machines/<machine>/wall")
@needs("look")
def wall(machine: str) -> str:
    """Show a machine on the wall."""
    found = machine_or_404(machine)
    view = rooms().page(machine, "wall")
    return render_template("wall.html", machine=found, view=view, phone=_phone(machine))


def _phone(machine: str) -> tuple[str, Markup] | None:
    """Where a phone finds the console, and that as a code to be read by its camera."""
    address = for_phones().address
    if not address:
        return None
    at = address.rstrip("/") + url_for("console.console", machine=machine)
    # It is drawn from an address that is of this computer: nobody else's text is in it.
    return address.split("//")[-1].rstrip("/"), Markup(qr(at, words("console-by-phone")))
