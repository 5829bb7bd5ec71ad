"""The pages served over a scene, with no machine behind them."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from tests.web.conftest import MACHINE, FakeHub, FakeInbox, FakePractice
from web.app import create_app
from web.serve import Server, listening_socket


@contextmanager
def served(hub: FakeHub, inbox: FakeInbox, **more: Any) -> Iterator[str]:
    """Where the pages of `hub` are found; what they hand in arrives at `inbox`."""
    app = create_app(hub, inbox, FakePractice(), hosts=("localhost",), max_streams=4, **more)
    sock = listening_socket("127.0.0.1", 0)
    server = Server(app, sock, 4)
    worker = threading.Thread(target=server.run)
    worker.start()
    try:
        yield f"http://127.0.0.1:{sock.getsockname()[1]}/machines/{MACHINE}"
    finally:
        server.close()
        worker.join()
