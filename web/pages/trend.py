"""How a machine keeps square, and what its verdicts and the shop's were worth."""

from flask import Blueprint, render_template, request, url_for
from werkzeug.exceptions import BadRequest, NotFound

from daq.plots.run import MOST
from daq.report.run_pictures import KEYS
from daq.service.trends import NoSuchPage
from web.drawings import DRAWN, RUNS, SHOWN, of_machine
from web.rights import needs
from web.rooms import machine_or_404, rooms, trends_or_404, words
from web.scan import Family

blueprint = Blueprint("trend", __name__)
FAMILY = Family(blueprint)


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
        pictures=of_machine(view, DRAWN, RUNS),
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
    drawn = of_machine(view, MOST, KEYS)[picture]
    more = url_for("trend.alone", machine=found.key, picture=picture, before=view.more)
    return render_template(
        "picture.html",
        title=words("trend-title"),
        of=found.say,
        back=url_for("trend.trend", machine=found.key),
        shown=(drawn,),
        earlier=more if view.more is not None else None,
    )
