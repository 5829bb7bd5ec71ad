"""Every kind of crowd at once, and many screens behind one proxy: the others are served."""

import json
import resource
import selectors
import threading
import uuid
from contextlib import ExitStack, closing

import pytest

from tests.patience import until
from tests.web.test_crowd import COMMANDS, ME, STREAM, SlowInbox, asked, connected, healthy
from web.app import PRESSES, PRESSES_EACH, STREAMS_EACH, create_app
from web.serve import AT_ONCE, serve

PROXY = "127.0.0.9"
SCREENS, TAKES, UNREAD, IDLE, TRICKLING = 200, 60, 64, 460, 100


@pytest.fixture(autouse=True)
def descriptors():
    """Both ends of every connection are in this process."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(4096, hard), hard))
    yield
    resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))


@pytest.fixture
def inbox():
    slow = SlowInbox()
    yield slow
    slow.settle()


@pytest.fixture
def app(hub, inbox):
    return create_app(hub, inbox, proxies=(PROXY,))


@pytest.fixture
def server(app):
    with serve(app, ME, 0) as running:
        yield running


@pytest.fixture
def crowd(server):
    with closing(Crowd(server)) as made:
        yield made


class Crowd:
    """Connections that stay; what comes to the screens among them is read."""

    def __init__(self, server):
        self.server = server
        self.opened = ExitStack()
        self.screens = selectors.DefaultSelector()
        self.got = {}
        self.over = threading.Event()
        self.reader = threading.Thread(target=self.read)
        self.reader.start()

    def send(self, data, peer=ME):
        line = self.opened.enter_context(connected(self.server, peer))
        line.sendall(data)
        return line

    def ask(self, method, path, body=b"", peer=ME, **heads):
        heads |= {"Host": "localhost", "Content-Type": "application/json"}
        lines = [f"{name.replace('_', '-')}: {value}" for name, value in heads.items()]
        head = "\r\n".join([f"{method} {path} HTTP/1.1", *lines, f"Content-Length: {len(body)}"])
        return self.send(head.encode() + b"\r\n\r\n" + body, peer)

    def stream(self, peer=ME, read=True, **heads):
        line = self.ask("GET", STREAM, peer=peer, **heads)
        if read:
            self.got[line] = b""
            self.screens.register(line, selectors.EVENT_READ)
        return line

    def take(self, peer=ME, **heads):
        body = json.dumps({"id": str(uuid.uuid4()), "kind": "take"}).encode()
        return self.ask("POST", COMMANDS, body, peer, **heads)

    def read(self):
        while not self.over.is_set():
            for key, _ in self.screens.select(0.05) if self.got else ():
                data = key.fileobj.recv(65536)
                self.got[key.fileobj] = (self.got[key.fileobj] + data)[-65536:]
                if not data:
                    self.screens.unregister(key.fileobj)

    def follow(self):
        """How many screens are told of what happens."""
        return sum(b"event: beat" in got for got in self.got.values())

    def refused(self):
        """How many were told that there is no place."""
        return sum(got.startswith(b"HTTP/1.1 503") for got in self.got.values())

    def close(self):
        self.over.set()
        self.reader.join()
        self.screens.close()
        self.opened.close()


def test_in_every_crowd_at_once_a_page_and_health_are_answered(server, app, inbox, crowd):
    gate = app.extensions["headsweep"].gate
    for n in range(SCREENS):
        crowd.stream(f"127.0.3.{1 + n % 10}")
    until(lambda: crowd.follow() == SCREENS, lambda: (crowd.follow(), crowd.refused()))
    for n in range(UNREAD):
        crowd.stream(f"127.0.4.{1 + n % 2}", read=False)
    for n in range(TAKES):
        crowd.take(f"127.0.5.{1 + n % 5}")
    inbox.got(PRESSES)
    for n in range(IDLE):
        crowd.send(b"", f"127.0.6.{1 + n % 9}")
    slow = [crowd.send(b"GET / HTTP/1.1\r\nX: ", f"127.0.7.{1 + n % 3}") for n in range(TRICKLING)]
    until(lambda: gate.open == gate.most)
    for peer in (ME, "127.0.8.1"):
        for line in slow:
            line.send(b"x")
        assert healthy(server, peer)
        with asked(server, "GET", "/machines/practice-mill/wall", peer=peer) as page:
            assert page.status == 200
            assert b"</html>" in page.read()
    until(lambda: server._server.task_dispatcher.active_count == 0)
    assert app.extensions["headsweep"].presses.open == PRESSES, "all of it is still there"
    assert gate.open == gate.most
    assert crowd.refused() == 0


def test_one_client_does_not_take_every_screens_place(server, app, crowd):
    for _ in range(STREAMS_EACH + 5):
        crowd.stream()
    until(lambda: (crowd.follow(), crowd.refused()) == (STREAMS_EACH, 5))
    crowd.stream("127.0.3.1")
    until(lambda: crowd.follow() == STREAMS_EACH + 1)


def test_forty_screens_behind_a_proxy_have_each_a_share_of_its_own(server, app, inbox, crowd):
    """With more connections, streams and presses than one client may have."""
    presses = app.extensions["headsweep"].presses
    for n in range(40):
        said = f"198.51.100.{1 + n}"
        crowd.stream(PROXY, X_Forwarded_For=said)
        crowd.stream(PROXY, X_Forwarded_For=said)
    until(lambda: crowd.follow() == 80, lambda: (crowd.follow(), crowd.refused()))
    for _ in range(60):
        crowd.take(PROXY, X_Forwarded_For="198.51.100.99")
    inbox.got(PRESSES_EACH)
    for n in range(PRESSES - PRESSES_EACH):
        crowd.take(PROXY, X_Forwarded_For=f"198.51.100.{1 + n}")
    inbox.got(PRESSES - PRESSES_EACH)
    assert max(presses.within.values()) == PRESSES_EACH
    for _ in range(100):
        crowd.send(b"", PROXY)
    assert healthy(server, PROXY)
    assert healthy(server)
    assert crowd.follow() == 80


def test_what_a_stranger_says_of_whom_it_asks_for_gives_it_no_share(server, crowd):
    for n in range(STREAMS_EACH + 5):
        crowd.stream("127.0.3.1", X_Forwarded_For=f"198.51.100.{1 + n}")
    until(lambda: (crowd.follow(), crowd.refused()) == (STREAMS_EACH, 5))


def test_a_crowd_at_the_door_is_taken_in_at_once(app):
    server = serve(app, ME, 0)
    with ExitStack() as opened:
        for n in range(2 * AT_ONCE):
            opened.enter_context(connected(server, f"127.0.6.{1 + n % 9}"))
        server._turn(0.0)
        assert len(server._server.active_channels) >= AT_ONCE
        server._turn(0.0)
        server._turn(0.0)
        assert len(server._server.active_channels) == 2 * AT_ONCE
    server.close()
    server.run()
