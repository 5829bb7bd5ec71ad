"""An answer that is still to come, and no thread that waits for it."""

from collections.abc import Callable, Iterable
from concurrent.futures import Future, TimeoutError
from typing import TYPE_CHECKING

from flask import Response

from daq.words import Ack
from web.channels import CHANNEL, Suspended

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment


class Later(Response):
    """Answers with an Ack once it has come. A server that cannot put requests aside waits."""

    default_mimetype = "application/json"

    def __init__(
        self, reply: "Future[Ack]", for_s: float, made: Callable[[Ack | None], tuple[int, str]]
    ) -> None:
        """`made` gives status and body for an Ack, or for None where none came in `for_s`."""
        super().__init__()
        self._reply = reply
        self._for_s = for_s
        self._made = made
        self._aside = False

    def __call__(
        self, environ: "WSGIEnvironment", start_response: "StartResponse"
    ) -> Iterable[bytes]:
        """Answer, or put the request aside until there is an answer."""
        channel = environ.get(CHANNEL)
        if channel is not None and not self._aside and not self._reply.done():
            self._aside = True
            channel.wait(self, self._for_s)
            self._reply.add_done_callback(lambda _: channel.go_on())
            raise Suspended
        try:
            ack = self._reply.result(0.0 if self._aside else self._for_s)
        except TimeoutError:
            ack = None
        self.status_code, body = self._made(ack)
        self.set_data(body)
        return super().__call__(environ, start_response)
