"""The server: waitress on a socket prepared for screens that vanish."""

import ipaddress
import math
import select
import socket
import threading
import time
from types import TracebackType
from typing import Any, Self

from flask import Flask
from waitress import wasyncore
from waitress.server import create_server

from daq.service.turns import Turns
from web.channels import Channel, admit, answering
from web.phones import REACHED
from web.rooms import EXTENSION
from web.streams import Streams

DEAD_AFTER_MS = 5_000
SEND_BUFFER = 16 * 1024
WATERMARK = 16 * 1024
ENDS_S = 2.5
"""How long the end waits for presses to be answered: they are refused, unless a disk holds them;
then they are told that nothing is known."""

SENDS_S = 0.5
"""How long such an answer may be on its way."""


LOOK_S = 0.25
"""How often connections are looked after: not each time one of hundreds sends a byte."""

AT_ONCE = 64
"""So many connections are taken in a turn: a crowd at the door costs no turn each."""

LEFT_S = 0.5
"""So long each further thread is waited for; one that hangs is left behind."""


class CannotListenError(OSError):
    """The address cannot be served; the message says which and why."""


def listening_socket(host: str, port: int) -> socket.socket:
    """Return a socket bound to `host`:`port`; accepted connections inherit its options.

    TCP_USER_TIMEOUT ends a connection whose other end stopped acknowledging;
    the small send buffer makes a stalled screen felt while little is queued.

    Raises:
        CannotListenError: the port is taken, or the address is not this machine's.
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    sock = socket.socket(family, socket.SOCK_STREAM)
    try:
        sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_USER_TIMEOUT, DEAD_AFTER_MS)
        sock.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, SEND_BUFFER)
        sock.bind((host, port))
    except (OSError, OverflowError) as error:
        sock.close()
        where = f"[{host}]:{port}" if ":" in host else f"{host}:{port}"
        why = getattr(error, "strerror", None) or str(error)
        raise CannotListenError(
            getattr(error, "errno", None),
            f"cannot serve the screens on {where}: {why}; "
            "stop the program that uses it or choose another host or port",
        ) from error
    return sock


class Server:
    """A running set of threads and a loop; `run` blocks until `close` is called."""

    def __init__(self, app: Flask, sock: socket.socket, threads: int) -> None:
        """Start listening; nothing is answered before `run`."""
        shared = app.extensions[EXTENSION]
        self._streams: Streams = shared.streams
        self.failed = False
        self._map: dict[int, Any] = {}
        self._stop = threading.Event()
        self._done = False
        self._arriving = select.poll()
        self._arriving.register(sock, select.POLLIN)
        self.turns, self.pages = Turns(), Turns()
        self._end_s, self._look_s = math.inf, 0.0
        # Once the trigger is closed its number may be another file's. Re-entrant: a signal
        # handler may call `close` while `run` ends on the same thread.
        self._ending = threading.RLock()
        made: Any = create_server(
            answering(app),
            map=self._map,
            sockets=[sock],
            threads=threads,
            outbuf_high_watermark=WATERMARK,
            # Without look-ahead a running stream would not notice its reader hang up.
            channel_request_lookahead=1,
            # What a proxy says of whom it asks for is weighed by `web.client`.
            clear_untrusted_proxy_headers=False,
            connection_limit=500,
            channel_timeout=30,
            cleanup_interval=5,
            asyncore_use_poll=True,
            max_request_body_size=64 * 1024,
            ident="",
        )
        self._server = made
        self._server.channel_class = admit
        # Between the turns: in one, a connection ended for a new one could pass it its events.
        self._accept, made.handle_accept = made.handle_accept, lambda: None
        self._server.pages, self._server.proxies = self.pages, shared.proxies
        self.host, self.port = sock.getsockname()[:2]
        app.config[REACHED] = self.others_reach_it

    @property
    def others_reach_it(self) -> bool:
        """Whether it answers to more than the computer it runs on."""
        return not ipaddress.ip_address(self.host).is_loopback

    @property
    def threads(self) -> dict[str, Turns]:
        """Its threads, by name; those that make pages are as one: any of them may answer."""
        return {"web": self.turns, "pages": self.pages, "streams": self._streams.turns}

    def run(self) -> None:
        """Serve until `close` is called; frees threads and sockets before returning.

        It also ends when the streams do: then `failed` is set.
        """
        self.turns.turn()
        telling = threading.Thread(target=self._tell, name="streams", daemon=True)
        telling.start()
        try:
            while not self._stop.is_set():
                self._turn(1.0)
            self._end_s = time.monotonic() + ENDS_S
            self._take_in()
            gone_s = self._end_s + SENDS_S
            while time.monotonic() < gone_s and any(each.owes for each in self._channels()):
                self._turn(0.05)
        finally:
            self._streams.end()
            telling.join(LEFT_S)
            self._server.task_dispatcher.shutdown(timeout=LEFT_S)
            self.turns.rest()
            self.pages.rest()
            with self._ending:
                self._done = True
            for each in self._channels():
                each.handle_close()  # and with it the file of an answer that was too large to hold
            wasyncore.close_all(self._map)
            self._server.trigger.close()

    def _tell(self) -> None:
        try:
            self._streams.run()
        except BaseException:
            self.failed = True
            self.close()
            raise

    def _turn(self, timeout_s: float) -> None:
        wasyncore.loop(timeout=timeout_s, use_poll=True, map=self._map, count=1)
        for _ in range(AT_ONCE):
            if not self._server.readable() or not self._arriving.poll(0):
                break
            self._accept()
        self.turns.turn()
        if not self._server.task_dispatcher.queue:
            self.pages.turn()
        now_s = time.monotonic()
        if now_s < self._look_s and self._end_s == math.inf:
            return
        self._look_s = now_s + LOOK_S
        for each in self._channels():
            each.look(now_s)
            if each.overdue(self._end_s):
                each.go_on()

    def _take_in(self) -> None:
        """Read what came before the end did: a press among it is to be answered."""
        while self._arriving.poll(0) and time.monotonic() < self._end_s:
            self._turn(0.0)
        self._turn(0.0)

    def _channels(self) -> list[Channel]:
        return list(self._server.active_channels.values())

    def close(self) -> None:
        """End `run`, from any thread or a signal handler; streams end within a beat."""
        self._stop.set()
        with self._ending:
            if not self._done:
                self._server.pull_trigger()

    def __enter__(self) -> Self:
        """Serve from a thread of its own for the length of the block."""
        self._thread = threading.Thread(target=self.run, name="web", daemon=True)
        self._thread.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close and wait for the loop to end."""
        self.close()
        self._thread.join()


def serve(app: Flask, host: str, port: int, *, threads: int = 8) -> Server:
    """Return a server listening on `host`:`port` (0 picks a free one: see `.port`).

    `threads` answer requests; a stream and a press that waits keep none.

    Raises:
        CannotListenError: names host and port and what to do.
    """
    return Server(app, listening_socket(host, port), threads)
