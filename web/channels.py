"""Connections: counted by peer, and able to wait for their answer without a thread.

Four habits of the web server are leaned on, each with a test (tests/web/test_waiting.py,
test_stream.py and test_slow_lines.py): a request whose `service` ended early stays the connection's
first one, and another `service` goes on with it; `write_soon` may be called by any thread; it
waits in `_flush_outbufs_below_high_watermark` alone; however a connection ends, `del_channel` is
called. So sockets, idle time-outs and limits stay the server's.
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

WHOLE_S = 10.0
"""So long a request may take from its first byte to its last."""

TAKEN_S = 20.0
"""So long an answer, or a piece of a stream, may take until the other end has all of it."""

SLOW_S = 2.0
"""After so long it makes room for others, where there is none."""

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
    _parked = False
    _asks_s: float | None = None
    """Since when a request is on its way."""

    _sends_s: float | None = None
    """Since when there is always something that the other end has not taken."""

    def service(self) -> None:
        """Carry out a request, or go on with it, as far as that goes without waiting."""
        self._asks_s = None
        with self.outbuf_lock:
            self._parked = self.total_outbufs_len > self.adj.outbuf_high_watermark
        if not self._parked:  # else it is gone on with once there is room for its answer
            with suppress(Suspended):
                super().service()
        self.server.pages.turn()  # type: ignore[attr-defined]

    def received(self, data: bytes) -> bool:
        """Take in a part of a request."""
        if self._asks_s is None:
            self._asks_s = time.monotonic()
        return super().received(data)

    def handle_write(self) -> None:
        """Send more; go on with a request that waited for that."""
        super().handle_write()
        with self.outbuf_lock:
            parked = self._parked and self.total_outbufs_len <= self.adj.outbuf_high_watermark
            self._parked = self._parked and not parked
        if parked and self.connected:
            self.server.add_task(cast(Any, self))

    def _flush_outbufs_below_high_watermark(self) -> None:
        """No thread waits until the other end takes what it asked for."""

    def look(self, now_s: float) -> None:
        """Called again and again: end a connection whose other end keeps it waiting."""
        if not self.total_outbufs_len:
            self._sends_s = None
        elif self._sends_s is None:
            self._sends_s = now_s
        asks_s = None if self.requests else self._asks_s
        if _since(asks_s, now_s) >= WHOLE_S or _since(self._sends_s, now_s) >= TAKEN_S:
            self.handle_close()  # to wait until more can be sent may be for long

    def gives_way(self, now_s: float) -> bool:
        """Whether it may be ended in favour of another: idle, or its other end takes nothing."""
        idle = not self.requests and not self.total_outbufs_len
        return idle or _since(self._sends_s, now_s) >= SLOW_S

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


def _since(then_s: float | None, now_s: float) -> float:
    return 0.0 if then_s is None else now_s - then_s


def answering(app: "WSGIApplication") -> "WSGIApplication":
    """The application, and whatever answer it has waited for."""

    def call(environ: "WSGIEnvironment", start_response: "StartResponse") -> Iterable[bytes]:
        return (environ[CHANNEL].answer() or app)(environ, start_response)

    return call


class Connections(Protocol):
    """What is asked of the server: its connections by their descriptor, the oldest first."""

    active_channels: dict[int, Channel]
    proxies: frozenset[str]


def admit(
    server: Connections,
    sock: socket.socket,
    address: tuple[str, int],
    settings: Adjustments,
    map: dict[int, Any],
) -> None:
    """Take a new connection in; where there are too many, in place of the oldest idle one.

    Idle is one without a whole request, however busily it sends parts of one, and one whose
    answer is not taken. Where all are at work the new one is closed. A named proxy's
    connections are many people's: they are not counted as one peer's.
    """
    there = [each for each in server.active_channels.values() if not each.will_close]
    counted = address[0] not in server.proxies
    of_peer = [each for each in there if counted and each.addr[0] == address[0]]
    if len(of_peer) >= MOST_A_PEER or len(there) >= MOST:
        crowd, now_s = of_peer if len(of_peer) >= MOST_A_PEER else there, time.monotonic()
        idle = next((each for each in crowd if each.gives_way(now_s)), None)
        if idle is None:
            sock.close()
            return
        idle.handle_close()
    Channel(cast(BaseWSGIServer, server), sock, address, settings, map=map)
