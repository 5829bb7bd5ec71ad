"""The event stream of one machine."""

from contextlib import ExitStack

from flask import Blueprint, Response

from web import problems
from web.rooms import rooms
from web.scan import Family
from web.stream import events
from web.typed import typed

blueprint = Blueprint("api_stream", __name__)
FAMILY = Family(blueprint)


class EventStream(Response):
    """Server-sent events: `snapshot`, `live`, `settling` and `beat`."""

    default_mimetype = "text/event-stream"


class FullPage(Response):
    """A page saying that every stream is taken."""

    default_mimetype = "text/html"


@blueprint.get("/api/machines/<machine>/stream", provide_automatic_options=False)
@typed(answers={200: EventStream, 503: FullPage})
def stream(machine: str) -> Response:
    """Follow a machine: the state on each change, the live number as it comes.

    A `beat` comes every half second; a client that hears nothing for 1.5 s
    should take its number away and connect again.
    """
    shared = rooms()
    if not shared.gate.enter():
        full = problems.page(
            503,
            f"All {shared.gate.most} places for screens are taken. "
            "Close a page you do not need; this one then comes back by itself.",
        )
        full.headers["Retry-After"] = "2"
        return full
    with ExitStack() as entered:
        entered.callback(shared.gate.leave)
        slot = entered.enter_context(shared.hub.subscribe(machine))
        response = EventStream(events(shared, machine, slot))
        response.headers["X-Accel-Buffering"] = "no"
        # Runs when the server lets go of the response, even if nothing was ever sent.
        response.call_on_close(entered.pop_all().close)
    return response
