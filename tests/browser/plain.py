"""The pages served over a scene, with no machine behind them."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from typing import Any

from flask import Blueprint

from tests.web.conftest import FakeHub, FakeInbox, FakePractice
from tests.web.scenes import MACHINE
from web.app import create_app
from web.rights import needs
from web.serve import Server, listening_socket


@contextmanager
def served(
    hub: FakeHub, inbox: FakeInbox, besides: Blueprint | None = None, **more: Any
) -> Iterator[str]:
    """Where the pages of `hub`, and those `besides`, are found; `inbox` gets what they hand in."""
    app = create_app(hub, inbox, FakePractice(), hosts=("localhost",), max_streams=4, **more)
    if besides is not None:
        app.register_blueprint(besides)
        for endpoint, view in list(app.view_functions.items()):
            if endpoint.startswith(f"{besides.name}."):
                app.view_functions[endpoint] = needs("look")(partial(view))
    sock = listening_socket("127.0.0.1", 0)
    server = Server(app, sock, 4)
    worker = threading.Thread(target=server.run)
    worker.start()
    try:
        yield f"http://127.0.0.1:{sock.getsockname()[1]}/machines/{MACHINE}"
    finally:
        server.close()
        worker.join()
