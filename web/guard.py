"""Who may talk to the pages: deny by default.

A page of another site, opened in a browser on the shop's network, must neither
read nor drive a machine. So the Host must be one this Pi is called by (a name
that somebody re-pointed at it is refused), and a request that a browser marks
with an Origin must come from this very host.
"""

import ipaddress
from urllib.parse import urlsplit

from flask import Flask, Response, abort, request

from daq.settings import quoted
from web.rooms import words

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
}


def host_name(netloc: str) -> str | None:
    """Return the host of a Host header, without port and in lower case; None if malformed."""
    try:
        parts = urlsplit(f"//{netloc}")
        _ = parts.port  # raises where the port is no number
    except ValueError:
        return None
    if parts.netloc != netloc or parts.username is not None or not parts.hostname:
        return None
    return parts.hostname.rstrip(".")


def host_allowed(netloc: str, names: frozenset[str]) -> bool:
    """Return whether a Host header is an IP address or one of the names."""
    host = host_name(netloc)
    if host is None:
        return False
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return host in names
    return True


def origin_allowed(origin: str, netloc: str) -> bool:
    """Return whether an Origin header is the host that was called."""
    scheme, _, rest = origin.partition("://")
    return scheme in ("http", "https") and rest.lower() == netloc.lower()


def install(app: Flask, hosts: tuple[str, ...]) -> None:
    """Check every request and put the security headers on every answer."""
    names = frozenset({"localhost", *(host.lower().rstrip(".") for host in hosts)})

    @app.before_request
    def check() -> None:
        called = request.headers.get("Host", "")
        if not host_allowed(called, names):
            abort(403, description=words("not-called-so", host=quoted(called)))
        origin = request.headers.get("Origin")
        if origin is not None and not origin_allowed(origin, called):
            abort(403, description=words("foreign-page", origin=quoted(origin)))
        if request.method == "POST" and request.mimetype != "application/json":
            abort(415, description=words("send-as-json"))

    @app.after_request
    def seal(response: Response) -> Response:
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        if request.endpoint != "static":
            response.headers["Cache-Control"] = "no-store"
        return response
