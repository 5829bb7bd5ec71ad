"""The event stream of one machine."""

from collections.abc import Iterable, Iterator
from contextlib import ExitStack
from typing import TYPE_CHECKING

from flask import Blueprint, Response

from web import problems
from web.channels import CHANNEL, Channel, Suspended
from web.client import who
from web.rights import may_work, needs
from web.rooms import rooms, words
from web.scan import Family
from web.streams import Follower
from web.typed import typed

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

blueprint = Blueprint("api_stream", __name__)
FAMILY = Family(blueprint)


class EventStream(Response):
    """Server-sent events: `snapshot`, `live`, `settling` and `beat`."""

    default_mimetype = "text/event-stream"

    def __init__(self, first: bytes, follower: Follower) -> None:
        """Begin with `first`; a server that can put requests aside lets `follower` go on."""
        super().__init__(iter((first,)))
        self._follower = follower

    def __call__(
        self, environ: "WSGIEnvironment", start_response: "StartResponse"
    ) -> Iterable[bytes]:
        """Answer with the first events, and leave the connection to the thread of all streams."""
        pieces = super().__call__(environ, start_response)
        channel = environ.get(CHANNEL)
        if channel is None or environ["REQUEST_METHOD"] == "HEAD":
            return pieces
        return self._aside(channel, environ["SERVER_PROTOCOL"] == "HTTP/1.1")

    def _aside(self, channel: Channel, chunked: bool) -> Iterator[bytes]:
        channel.gone = self.close
        try:
            yield from self.iter_encoded()
        except GeneratorExit:
            self.close()
            raise
        self._follower.begin(channel, chunked)
        raise Suspended


class FullPage(Response):
    """A page saying that every stream is taken."""

    default_mimetype = "text/html"


@blueprint.get("/api/machines/<machine>/stream", provide_automatic_options=False)
@needs("look")
@typed(answers={200: EventStream, 503: FullPage})
def stream(machine: str) -> Response:
    """Follow a machine: the state on each change, the live number as it comes.

    A `beat` comes every half second; a client that hears nothing for 1.5 s
    should take its number away and connect again.
    """
    shared = rooms()
    gate = shared.gate
    with ExitStack() as entered:
        # Whoever only looks leaves room for those who work.
        keeping = 0 if may_work() else gate.most // 6
        if not entered.enter_context(gate.place(who(), keeping=keeping)):
            most = gate.most_each if gate.within[who()] >= gate.most_each else gate.most - keeping
            full = problems.page(503, words("all-places-taken", most=most))
            full.headers["Retry-After"] = "2"
            return full
        follower = entered.enter_context(shared.streams.join(machine, says := shared.says))
        response = EventStream(shared.streams.first(machine, says), follower)
        response.headers["X-Accel-Buffering"] = "no"
        # Runs when the server lets go of the response, even if nothing was ever sent.
        response.call_on_close(entered.pop_all().close)
    return response
