"""The setup page: what is to be looked at, gauges with their raw frames, machines, ledger."""

from flask import Blueprint, render_template

from web.examined import examination
from web.rights import may_work, needs, paired
from web.rooms import rooms, setup_or_404
from web.scan import Family

blueprint = Blueprint("setup", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/setup")
@needs("look")
def setup() -> str:
    """Show the shop's setup; complete without a script, which only keeps it fresh."""
    shared = rooms()
    hub = shared.hub
    walls = [(m.say, shared.page(m.key, "wall")) for m in hub.machines()]
    unsafe = [(say, wall["title"]) for say, wall in walls if wall["step"] == "unsafe"]
    view = shared.told(setup_or_404().view())
    doctor = None if shared.doctor is None else shared.told(examination(shared.doctor))
    return render_template(
        "setup.html",
        view=view,
        unsafe=unsafe,
        screens=paired(),
        doctor=doctor,
        can_set_up=shared.set_up is not None and may_work(),
        can_check=shared.bench is not None and may_work(),
    )
