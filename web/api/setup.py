"""The shop's setup as the setup page shows it; nothing can be changed here."""

from flask import Blueprint

from daq.words.setup import SetupView
from web.problems import Problem
from web.rights import needs
from web.rooms import setup_or_404
from web.scan import Family
from web.typed import typed

blueprint = Blueprint("api_setup", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/api/setup")
@needs("look")
@typed(answers={200: SetupView, 404: Problem})
def setup() -> SetupView:
    """Return gauges with their wires and papers, machines, and where the ledger ends."""
    return setup_or_404().view()
