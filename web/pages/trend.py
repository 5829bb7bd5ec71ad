"""How a machine keeps square, and what its verdicts and the shop's were worth."""

from flask import Blueprint, render_template

from web.rights import needs
from web.rooms import machine_or_404, rooms, trends_or_404
from web.scan import Family

blueprint = Blueprint("trend", __name__)
FAMILY = Family(blueprint)

SHOWN = 100
"""As many of the latest audits as are kept: no page waits for the disk."""


@blueprint.get("/machines/<machine>/trend")
@needs("look")
def trend(machine: str) -> str:
    """Say it in sentences and counts."""
    found, trends, told = machine_or_404(machine), trends_or_404(), rooms().told
    view, shop = told(trends.of(found.key, SHOWN)), told(trends.reliability())
    return render_template("trend.html", machine=found, view=view, shop=shop)
