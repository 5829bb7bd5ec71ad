"""What a machine's signed audits show together."""

from dataclasses import dataclass
from typing import Annotated

from flask import Blueprint

from daq.service.trends import NoSuchPage
from daq.settings import Range
from daq.words import SaidTrouble
from daq.words.reliability import ReliabilityView
from daq.words.trend import TrendView
from web.problems import Problem
from web.rights import needs
from web.rooms import trends_or_404
from web.scan import Family
from web.typed import WithStatus, typed

blueprint = Blueprint("api_trend", __name__)
FAMILY = Family(blueprint)


@dataclass(frozen=True)
class Excerpt:
    """Which audits: the latest `limit`, or as many before the row `before`."""

    limit: Annotated[int, Range(1, 200)] = 100
    before: Annotated[int, Range(1, 2**63 - 1)] | None = None


@blueprint.get("/api/reliability")
@needs("look")
@typed({200: ReliabilityView, 404: Problem})
def reliability() -> ReliabilityView:
    """Return of how many verdicts of each stated probability the next as-found bore out.

    Of all machines together; each machine's is in its trend. Practice is not in it.
    """
    return trends_or_404().reliability()


@blueprint.get("/api/machines/<machine>/trend")
@needs("look")
@typed({200: TrendView, 503: Problem})
def trend(machine: str, query: Excerpt) -> TrendView | WithStatus:
    """Return each axis as found, as left and how tightening shifts it, and the next due date.

    Lengths are millimetres over `over_mm`. Practice is not in it. The limits are those of all
    audits; those before the ones shown are asked for with `before`, as `more` gives it.
    """
    try:
        return trends_or_404().of(machine, query.limit, query.before)
    except NoSuchPage as none:
        return WithStatus(Problem("bad-request", none.said), 400)
    except SaidTrouble as error:
        return WithStatus(Problem("service-unavailable", error.said), 503)
