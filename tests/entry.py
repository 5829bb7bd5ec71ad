"""How a test comes in at a service that asks who it is: as its own wall, a paired screen, a signer.

One way for all: clients over HTTP, browsers and benchmarks take it from here.
"""

import time
from collections.abc import Mapping
from http import HTTPStatus
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

from argon2 import PasswordHasher
from flask import Flask
from flask.testing import FlaskClient

from daq.service.people import PERSONS
from daq.service.rights import pins, wall
from daq.service.rights.pins import folded
from daq.service.rights.store import Role, Store
from web.rights import COOKIE, HEADER, page_token

PIN = "271828"
QUICK = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
"""As a PIN is kept in a test: to work it out takes no time."""


def enrolled(data: Path, name: str, role: Role = "sign") -> None:
    """Somebody has the tests' PIN."""
    store = Store(data)
    if not any(folded(each.name) == folded(name) for each in store.kept().people):
        pins.enrol(store, name, PIN, role, {}, QUICK)


def pins_of(data: Path, kind: str, payload: Mapping[str, Any]) -> dict[str, str]:
    """The PINs that go with a press that names people; whoever is named has one from now on."""
    named = {key: payload.get(key) for key in PERSONS.get(kind, ())}
    there = {key: name for key, name in named.items() if isinstance(name, str) and name.strip()}
    for name in there.values():
        enrolled(data, name)
    return dict.fromkeys(there, PIN)


def ticket(data: Path) -> str:
    """What the wall's user makes of the wall's key."""
    return wall.ticket(wall.key(data), time.monotonic_ns())


def as_own_wall(line: HTTPConnection, data: Path) -> dict[str, str]:
    """The headers of the Pi's own wall, for a service on `data`; none where nobody asks."""
    line.request("GET", f"/own?ticket={ticket(data)}")
    with line.getresponse() as answer:
        answer.read()
        assert answer.status == HTTPStatus.SEE_OTHER, answer.status
        cookie = (answer.getheader("Set-Cookie") or "").partition(";")[0]
    return headers(cookie) if cookie else {}


def headers(cookie: str) -> dict[str, str]:
    """What goes with each request of whoever keeps this cookie ("name=token")."""
    return {"Cookie": cookie, HEADER: token_of(cookie)}


def token_of(cookie: str) -> str:
    """The token that the pages of this cookie carry."""
    app = Flask("token")
    with app.test_request_context(headers={"Cookie": cookie}):
        return page_token()


def paired(app: Flask, name: str = "Phone") -> tuple[FlaskClient, str]:
    """A screen paired by the code, and its page token."""
    access = app.extensions["headsweep"].access
    access.ask_code()
    client = app.test_client()
    body = {"code": access.shown.code, "name": name}
    assert client.post("/api/pairing", json=body).status_code == 200
    kept = client.get_cookie(COOKIE)
    assert kept is not None
    return client, token_of(f"{COOKIE}={kept.value}")
