"""The first page: which machine, on which kind of screen."""

from flask import Blueprint, render_template

from web.rooms import rooms
from web.scan import Family

blueprint = Blueprint("start", __name__)
FAMILY = Family(blueprint)


@blueprint.get("/")
def start() -> str:
    """List the machines, each with its screens.

    It stays a choice with one machine too: the same address is typed at the
    wall and on a phone, and the two want different pages.
    """
    shared = rooms()
    machines = [
        {"key": m.key, "say": m.say, "view": shared.told(shared.hub.snapshot(m.key).pages["wall"])}
        for m in shared.hub.machines()
    ]
    has_setup = shared.setup is not None
    return render_template("start.html", machines=machines, setup=has_setup)
