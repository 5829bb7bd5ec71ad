"""The setup page: gauges with their raw frames, machines, disk and ledger."""

from flask import Blueprint, render_template

from web.rooms import setup_or_404
from web.scan import Family

blueprint = Blueprint("setup", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/setup")
def setup() -> str:
    """Show the shop's setup; complete without a script, which only keeps it fresh."""
    return render_template("setup.html", view=setup_or_404().view())
