"""Connections, counted by peer: whoever opens hundreds locks nobody out, himself included."""

import socket
from typing import Any, Protocol, cast

from waitress.adjustments import Adjustments
from waitress.channel import HTTPChannel
from waitress.server import BaseWSGIServer

MOST_A_PEER = 64
"""Every stream there may be from one address, and a browser's further connections."""

MOST = 480
"""Below the server's own limit, at which it would accept nobody."""


class Server(Protocol):
    """What is asked of the server: its connections by their descriptor, the oldest first."""

    active_channels: dict[int, HTTPChannel]


def admit(
    server: Server,
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
    HTTPChannel(cast(BaseWSGIServer, server), sock, address, settings, map=map)
