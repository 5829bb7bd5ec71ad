"""Where a screen is paired."""

from flask import Blueprint, render_template

from web.rights import needs
from web.scan import Family

blueprint = Blueprint("pair", __name__)
FAMILY = Family(blueprint, pairing_only=True)


@blueprint.get("/pair")
@needs("open")
def pair() -> str:
    """Ask for the code, which stands on the own wall and never here."""
    return render_template("pair.html")
