"""The check of a gauge, led through on a phone or a screen while the service runs."""

from flask import Blueprint, render_template

from web.rights import needs
from web.rooms import bench_or_404, rooms
from web.scan import Family

blueprint = Blueprint("gauge_check", __name__)
FAMILY = Family(blueprint, pairing_only=True)


@blueprint.get("/gauge-check")
@needs("work")
def gauge_check() -> str:
    """Begin one, or go on with the one under way."""
    return render_template("gauge_check.html", view=rooms().told(bench_or_404().view()))
