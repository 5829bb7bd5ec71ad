"""Presses that wait and connections left open, by the hundred: everybody else is still served."""

import http.client
import json
import socket
import threading
import uuid
from collections import Counter
from concurrent.futures import Future, ThreadPoolExecutor, as_completed
from contextlib import ExitStack, contextmanager
from itertools import islice

import pytest

from daq.words import Ack
from tests.patience import PATIENCE_S, until
from web import channels
from web.app import create_app
from web.serve import serve

MACHINE = "practice-mill"
COMMANDS = f"/api/machines/{MACHINE}/commands"
STREAM = f"/api/machines/{MACHINE}/stream"
ME, OTHER = "127.0.0.1", "127.0.0.2"
STREAMS = 4


class SlowInbox:
    """Answers nothing before all have settled; counts what it was handed."""

    def __init__(self):
        self.waiting = []
        self.settled = False
        self.lock = threading.Lock()
        self.handed = threading.Semaphore(0)

    def hand_in(self, command):
        reply = Future()
        with self.lock:
            self.waiting.append((command, reply))
        self.handed.release()
        if self.settled:
            self.settle()
        return reply

    def settle(self, reason=""):
        """Answer all that wait, and from now on at once."""
        with self.lock:
            self.settled, waiting, self.waiting = True, self.waiting, []
        for command, reply in waiting:
            reply.set_result(Ack(command.id, True, (42,), "ok", reason))

    def got(self, count):
        """Wait until so many were handed in."""
        for _ in range(count):
            assert self.handed.acquire(timeout=PATIENCE_S)


@pytest.fixture
def inbox():
    slow = SlowInbox()
    yield slow
    slow.settle()


@pytest.fixture
def app(hub, inbox):
    return create_app(hub, inbox, max_streams=STREAMS)


@pytest.fixture
def server(app):
    with serve(app, ME, 0, threads=2) as running:
        yield running


@contextmanager
def asked(server, method, path, body=None, peer=ME):
    line = http.client.HTTPConnection(ME, server.port, timeout=PATIENCE_S, source_address=(peer, 0))
    try:
        line.request(method, path, body, {"Content-Type": "application/json"})
        answer = line.getresponse()  # kept: one that nobody holds hangs up
        yield answer
    finally:
        line.close()


def healthy(server, peer=ME):
    with asked(server, "GET", "/healthz", peer=peer) as answer:
        return answer.status == 200


def press(server, command_id=None, peer=ME):
    body = json.dumps({"id": command_id or str(uuid.uuid4()), "kind": "take"})
    with asked(server, "POST", COMMANDS, body, peer) as answer:
        return answer.status, json.loads(answer.read())


def connected(server, peer=ME):
    return socket.create_connection((ME, server.port), PATIENCE_S, source_address=(peer, 0))


@pytest.mark.parametrize("same", [True, False], ids=["one and the same", "each another"])
def test_sixty_presses_of_one_peer_leave_places_for_the_others(server, inbox, app, same):
    one = str(uuid.uuid4()) if same else None
    with ThreadPoolExecutor(61) as people:
        posts = [people.submit(press, server, one) for _ in range(60)]
        inbox.got(16)
        refused = [done.result() for done in islice(as_completed(posts), 44)]
        assert {status for status, _ in refused} == {429}
        assert all("Too many presses are waiting" in body["reason"] for _, body in refused)
        assert healthy(server)
        other = people.submit(press, server, None, OTHER)
        inbox.got(1)
        inbox.settle()
        assert other.result()[0] == 200
    assert Counter(post.result()[0] for post in posts) == {200: 16, 429: 44}
    assert app.extensions["headsweep"].presses.within == {}


def test_with_every_stream_and_every_press_taken_threads_stay_free(server, inbox):
    with ExitStack() as opened, ThreadPoolExecutor(60) as people:
        for _ in range(STREAMS):
            assert opened.enter_context(asked(server, "GET", STREAM)).status == 200
        peers = [f"127.0.0.{2 + n % 10}" for n in range(60)]
        posts = [people.submit(press, server, None, peer) for peer in peers]
        inbox.got(24)
        for done in islice(as_completed(posts), 36):
            assert done.result()[0] == 429
        assert healthy(server)
        # The one that said how the service is may be on its way back.
        until(lambda: not server._server.task_dispatcher.active_count)
        inbox.settle()
    assert Counter(post.result()[0] for post in posts) == {200: 24, 429: 36}


def test_whoever_posts_and_goes_keeps_a_place_no_longer_than_the_press(server, inbox, app):
    body = json.dumps({"id": str(uuid.uuid4()), "kind": "take"})
    head = f"POST {COMMANDS} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
    for _ in range(8):
        with connected(server) as line:
            line.sendall(f"{head}Content-Length: {len(body)}\r\n\r\n{body}".encode())
            inbox.got(1)
    presses = app.extensions["headsweep"].presses
    assert presses.within == {ME: 8}
    inbox.settle()
    assert press(server, peer=OTHER)[0] == 200
    end = threading.Event()
    while presses.within:
        end.wait(0.01)


@pytest.mark.parametrize("begun", [b"", b"GET / HTTP/1.1\r\nX-Slow: "], ids=["idle", "trickling"])
def test_hundreds_of_open_connections_of_one_peer_lock_nobody_out(server, begun):
    with ExitStack() as opened:
        assert opened.enter_context(asked(server, "GET", STREAM)).status == 200
        lines = [opened.enter_context(connected(server)) for _ in range(520)]
        for line in lines[-60:]:
            line.sendall(begun)
        assert healthy(server)
        assert healthy(server, OTHER)
        assert len(server._server.active_channels) <= channels.MOST_A_PEER + 3


def test_a_stream_is_not_closed_for_an_idle_connection(server):
    with ExitStack() as opened:
        stream = opened.enter_context(asked(server, "GET", STREAM))
        for _ in range(2 * channels.MOST_A_PEER):
            opened.enter_context(connected(server))
        assert healthy(server)
        for _ in range(3):
            while stream.readline() != b"event: beat\n":
                pass


def test_where_all_are_at_work_the_next_of_that_peer_is_closed(server, monkeypatch):
    monkeypatch.setattr(channels, "MOST_A_PEER", 3)
    with ExitStack() as opened:
        for _ in range(3):
            assert opened.enter_context(asked(server, "GET", STREAM)).status == 200
        with pytest.raises(ConnectionError):
            healthy(server)
        assert healthy(server, OTHER)


def test_connections_of_many_peers_make_room_for_another(server, monkeypatch):
    monkeypatch.setattr(channels, "MOST", 20)
    with ExitStack() as opened:
        lines = [opened.enter_context(connected(server, f"127.0.1.{n}")) for n in range(1, 31)]
        assert healthy(server)
        assert lines[0].recv(1) == b"", "the oldest idle one went"
