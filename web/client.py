"""Who a request comes from: the one place that looks beyond the connection.

Behind a proxy every connection is the proxy's own. What it says of whom it asks for
(X-Forwarded-For, X-Forwarded-Proto) is believed only of a proxy that the shop names: anybody
else may write what they like there. No right ever follows from an address.
"""

import ipaddress
from collections.abc import Set as AbstractSet

from flask import g, has_request_context, request

from web.rooms import rooms

SCREEN = "screen"
"""Under which name of `flask.g` the paired screen of a request stands, once it is known."""


def behind(peer: str, forwarded: str, proxies: AbstractSet[str]) -> str:
    """The address that a connection from `peer` speaks for.

    `forwarded` is what X-Forwarded-For says. Each proxy adds whom it heard to its end: of those
    added by named proxies the first counts. What is no address ends the search: whoever wrote
    that is the one who asks.
    """
    found = peer
    for said in reversed(forwarded.split(",")):
        if found not in proxies:
            break
        try:
            found = str(ipaddress.ip_address(said.strip()))
        except ValueError:
            break
    return found


def address() -> str:
    """The address of whoever makes this request."""
    forwarded = ",".join(request.headers.getlist("X-Forwarded-For"))
    return behind(request.remote_addr or "", forwarded, rooms().proxies)


def by_https() -> bool:
    """Whether a named proxy says that it was asked by https."""
    named = (request.remote_addr or "") in rooms().proxies
    return named and request.headers.get("X-Forwarded-Proto", "").strip().lower() == "https"


def who() -> str:
    """What this request is counted under: its paired screen, or the address it came from.

    Screens of one address, such as those behind one proxy, do not use up each other's share.
    """
    screen = g.get(SCREEN) if has_request_context() else None
    return f"screen {screen}" if screen else address()
