"""A note to an address: JSON by one POST, signed with a shared secret if there is one.

It is posted when an audit was signed, something was added to one or its report issued anew, and
sent again until its answer is 2xx; redirects are not followed. `X-Headsweep-Delivery` is the same
for each try of one note; `X-Headsweep-Signature` is "sha256=" and the HMAC-SHA256 of the body, hex.
"""

import contextlib
import hashlib
import hmac
import http.client
import socket
import ssl
import threading
from collections.abc import Mapping
from typing import Final
from urllib.parse import SplitResult, urlsplit

from daq.service.delivery.courier import NotDelivered
from daq.words import said

SIGNATURE: Final = "X-Headsweep-Signature"
DELIVERY: Final = "X-Headsweep-Delivery"
"""The header with the HMAC of the body, and the one that is the same for each try of one note."""
BUSY: Final = (408, 425, 429)
"""Statuses that say to come again (RFC 9110, RFC 8470, RFC 6585)."""
WITHIN_S: Final = 10.0
"""So long for each of its answers, and three times so long in all."""


def problem(url: str) -> str:
    """What is wrong with an address, as found and allowed; "" for one that can be asked."""
    try:
        parts = urlsplit(url)
        good = parts.scheme in ("http", "https") and bool(parts.hostname) and parts.port != 0
    except ValueError:
        return "allowed: http:// or https://, a host and a path"
    plain = url.isascii() and url.isprintable() and " " not in url
    if not good or not plain or parts.fragment:
        return "allowed: http:// or https://, a host and a path"
    return "allowed: an address without a name in it" if parts.username is not None else ""


def headers(body: bytes, delivery: str, secret: str) -> Mapping[str, str]:
    """Those of a note; HMAC-SHA256 (RFC 2104) over the body's bytes, hex."""
    found = {"Content-Type": "application/json", DELIVERY: delivery, "User-Agent": "headsweep"}
    if secret:
        digest = hmac.new(secret.encode(), body, hashlib.sha256).hexdigest()
        found[SIGNATURE] = f"sha256={digest}"
    return found


def post(url: str, body: bytes, of: Mapping[str, str]) -> None:
    """Hand it in. A redirect is not followed: whoever moved says so in the shop's file.

    Raises:
        NotDelivered: nobody answers, or with something else than a 2xx status.
    """
    parts = urlsplit(url)
    line = _line(parts)
    path = (parts.path or "/") + (f"?{parts.query}" if parts.query else "")
    # An answer that drips in byte by byte is none.
    end = threading.Timer(3.0 * WITHIN_S, _cut, (line,))
    end.daemon = True
    end.start()
    try:
        line.request("POST", path, body, dict(of))
        status = line.getresponse().status
    except (OSError, http.client.HTTPException) as error:
        why = getattr(error, "strerror", None) or str(error) or type(error).__name__
        raise NotDelivered(said("address-not-reached", host=parts.netloc, why=why)) from error
    finally:
        end.cancel()
        line.close()
    if not 200 <= status < 300:
        refused = said("address-refused", host=parts.netloc, status=str(status))
        # Of a note that does not suit it the next one may know better; else it is busy or broken.
        raise NotDelivered(refused, alone=400 <= status < 500 and status not in BUSY)


def _line(parts: SplitResult) -> http.client.HTTPConnection:
    host = parts.hostname or ""
    if parts.scheme == "http":
        return http.client.HTTPConnection(host, parts.port, timeout=WITHIN_S)
    context = ssl.create_default_context()
    return http.client.HTTPSConnection(host, parts.port, timeout=WITHIN_S, context=context)


def _cut(line: http.client.HTTPConnection) -> None:
    """Whoever waits on it is told that it is over."""
    with contextlib.suppress(OSError, AttributeError):  # it may end just now by itself
        line.sock.shutdown(socket.SHUT_RDWR)
