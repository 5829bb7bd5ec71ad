"""The first page: which machine, on which kind of screen."""

from flask import Blueprint, render_template

from web.phones import for_phones
from web.rights import needs
from web.rooms import rooms
from web.scan import Family

blueprint = Blueprint("start", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/")
@needs("look")
def start() -> str:
    """List the machines, each with its screens.

    It stays a choice with one machine too: the same address is typed at the
    wall and on a phone, and the two want different pages.
    """
    shared = rooms()
    trends = shared.trends
    machines = [
        {
            "key": machine.key,
            "say": machine.say,
            "amiss": shared.told(machine.amiss),
            "view": shared.page(machine.key, "wall"),
            "due": () if trends is None else shared.told(trends.due(machine.key)),
        }
        for machine in shared.hub.machines()
    ]
    has_setup = shared.setup is not None
    found = trends is not None
    listed = shared.listing is not None
    empty = not machines and shared.set_up is not None
    return render_template(
        "start.html",
        machines=machines,
        setup=has_setup,
        trends=found,
        records=listed,
        can_set_up=shared.set_up is not None,
        missing=shared.set_up.missing if empty and shared.set_up else (),
        phone=for_phones() if empty else None,
    )
