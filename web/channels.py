"""Connections: counted by peer, and able to wait for their answer without a thread.

Three habits of the web server are leaned on, each with a test (tests/web/test_waiting.py and
test_stream.py): a request whose `service` ended early stays the connection's first one, and
another `service` goes on with it; `write_soon` may be called by any thread; however a
connection ends, `del_channel` is called. So sockets, time-outs and limits stay the server's.
"""

import socket
import time
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from typing import TYPE_CHECKING, Any, Protocol, cast

from waitress.adjustments import Adjustments
from waitress.channel import HTTPChannel
from waitress.server import BaseWSGIServer
from waitress.task import WSGITask

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

MOST_A_PEER = 64
"""Every stream there may be from one address, and a browser's further connections."""

MOST = 480
"""Below the server's own limit, at which it would accept nobody."""

CHANNEL = "headsweep.channel"
"""Where a request's environment names its connection."""


class Suspended(BaseException):
    """No error: the thread leaves a request for which there is nothing to do now."""


class Task(WSGITask):
    """A request that knows its connection."""

    def get_environment(self) -> "WSGIEnvironment":
        """The environment that the application is called with."""
        environ = super().get_environment()
        environ[CHANNEL] = self.channel
        return environ


class Channel(HTTPChannel):
    """A connection. Whoever waits for an answer on it is let go as soon as it ends."""

    task_class = Task
    gone: Callable[[], None] | None = None
    """Called when the connection ends."""

    until_s = 0.0
    """When an answer that is waited for must be given, by the monotonic clock."""

    _later: "WSGIApplication | None" = None
    _waits = False

    def service(self) -> None:
        """Carry out a request, or go on with it, as far as that goes without waiting."""
        with suppress(Suspended):
            super().service()
        self.server.pages.turn()  # type: ignore[attr-defined]

    def wait(self, later: "WSGIApplication", for_s: float) -> None:
        """Have `later` answer the present request after `go_on`; then raise Suspended."""
        self._later, self.until_s = later, time.monotonic() + for_s
        self._waits = True

    def go_on(self) -> None:
        """Answer: once, from any thread, wherever the asker still is."""
        with self.outbuf_lock:
            waits, self._waits = self._waits and self.connected, False
        if waits:
            self.server.add_task(cast(Any, self))

    def answer(self) -> "WSGIApplication | None":
        """What answers the present request, if it was waited for."""
        later, self._later = self._later, None
        return later

    @property
    def owes(self) -> bool:
        """Whether a press is not answered, or an answer that was waited for not wholly sent."""
        # The server's stubs call it bytes; it is text.
        pressed = any(cast(object, each.command) == "POST" for each in list(self.requests))
        return pressed or bool(self.until_s and self.total_outbufs_len)

    def overdue(self, end_s: float) -> bool:
        """Whether an answer should have come by now; none comes after `end_s`."""
        return self._waits and time.monotonic() >= min(self.until_s, end_s)

    def offer(self, data: bytes) -> bool:
        """Send it, from any thread; False where earlier data is still on its way."""
        with self.outbuf_lock:
            if not self.connected or self.total_outbufs_len:
                return False
            self.write_soon(data)
            return True

    def del_channel(self, map: Mapping[int, socket.socket] | None = None) -> None:
        """The connection ends."""
        super().del_channel(map)
        gone, self.gone, self._later = self.gone, None, None
        if gone is not None:
            gone()


def answering(app: "WSGIApplication") -> "WSGIApplication":
    """The application, and whatever answer it has waited for."""

    def call(environ: "WSGIEnvironment", start_response: "StartResponse") -> Iterable[bytes]:
        return (environ[CHANNEL].answer() or app)(environ, start_response)

    return call


class Connections(Protocol):
    """What is asked of the server: its connections by their descriptor, the oldest first."""

    active_channels: dict[int, HTTPChannel]


def admit(
    server: Connections,
    sock: socket.socket,
    address: tuple[str, int],
    settings: Adjustments,
    map: dict[int, Any],
) -> None:
    """Take a new connection in; where there are too many, in place of the oldest idle one.

    Idle is one without a whole request, however busily it sends parts of one. Where all are
    at work the new one is closed.
    """
    there = [each for each in server.active_channels.values() if not each.will_close]
    of_peer = [each for each in there if each.addr[0] == address[0]]
    if len(of_peer) >= MOST_A_PEER or len(there) >= MOST:
        crowd = of_peer if len(of_peer) >= MOST_A_PEER else there
        idle = next((c for c in crowd if not c.requests and not c.total_outbufs_len), None)
        if idle is None:
            sock.close()
            return
        idle.will_close = True
    Channel(cast(BaseWSGIServer, server), sock, address, settings, map=map)
