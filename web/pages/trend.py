"""How a machine keeps square, and what its verdicts and the shop's were worth."""

from collections.abc import Mapping

from flask import Blueprint, render_template, request, url_for
from werkzeug.exceptions import BadRequest, NotFound

from daq.plots.picture import Picture
from daq.plots.run import MOST
from daq.report.run_pictures import KEYS, of_trend
from daq.service.trends import NoSuchPage
from daq.words.trend import TrendView
from web.rights import needs
from web.rooms import machine_or_404, rooms, trends_or_404, words
from web.scan import Family

blueprint = Blueprint("trend", __name__)
FAMILY = Family(blueprint)

SHOWN = 100
"""As many of the latest audits as are kept: no page waits for the disk."""
DRAWN = 32
"""So many of them are drawn on the page of all pictures; each picture's own page has more."""


@blueprint.get("/machines/<machine>/trend")
@needs("look")
def trend(machine: str) -> str:
    """Draw it, and say it in sentences and counts."""
    found, trends, told = machine_or_404(machine), trends_or_404(), rooms().told
    view = trends.of(found.key, SHOWN)
    return render_template(
        "trend.html",
        machine=found,
        view=told(view),
        shop=told(trends.reliability()),
        pictures=pictures_of(view, DRAWN, linked=("run-side", "run-nod")),
    )


@blueprint.get("/machines/<machine>/trend/<picture>")
@needs("look")
def alone(machine: str, picture: str) -> str:
    """Draw one picture of as many audits as it holds, with its table; `before`: earlier ones."""
    found, trends = machine_or_404(machine), trends_or_404()
    if picture not in KEYS:
        raise NotFound(words("no-such-picture", key=picture, there=", ".join(KEYS)))
    try:
        view = trends.of(found.key, MOST, request.args.get("before", type=int))
    except NoSuchPage as error:
        raise BadRequest(rooms().says.words(error.said)) from error
    drawn = pictures_of(view, MOST, linked=KEYS)[picture]
    more = url_for("trend.alone", machine=found.key, picture=picture, before=view.more)
    return render_template(
        "picture.html",
        title=words("trend-title"),
        of=found.say,
        back=url_for("trend.trend", machine=found.key),
        shown=(drawn,),
        earlier=more if view.more is not None else None,
    )


def pictures_of(view: TrendView, most: int, linked: tuple[str, ...]) -> Mapping[str, Picture]:
    """A machine's pictures of so many audits at most; the points of some are links."""
    shared = rooms()
    return of_trend(
        view, shared.says, shared.hub.people, most, lambda audit: f"/records/{audit}", linked
    )
