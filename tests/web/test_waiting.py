"""A press that waits for its gauge holds a connection and a place, and no thread."""

import json
import socket
import threading
import uuid
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import ExitStack

import pytest

from daq.words import Ack
from tests.patience import PATIENCE_S, until
from tests.web.test_crowd import (
    COMMANDS,
    ME,
    OTHER,
    SlowInbox,
    asked,
    connected,
    healthy,
    press,
)
from tests.words import en
from web import serve as serving
from web.api import commands
from web.app import create_app
from web.serve import serve

THREADS = 1


@pytest.fixture
def inbox():
    slow = SlowInbox()
    yield slow
    slow.settle()


@pytest.fixture
def app(hub, inbox):
    return create_app(hub, inbox)


@pytest.fixture
def server(app):
    with serve(app, ME, 0, threads=THREADS) as running:
        yield running


def begun(server, peer=ME, more=b""):
    """A connection on which a press was sent; nothing of its answer was read yet."""
    body = json.dumps({"id": str(uuid.uuid4()), "kind": "take"}).encode()
    head = f"POST {COMMANDS} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
    line = connected(server, peer)
    line.sendall(f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + body + more)
    return line


def answered(line):
    """Everything that comes until the other end hangs up or the body is whole."""
    got = b""
    while b"\r\n\r\n" not in got:
        got += line.recv(4096)
    head, _, body = got.partition(b"\r\n\r\n")
    (length,) = (int(h[16:]) for h in head.split(b"\r\n") if h.startswith(b"Content-Length: "))
    while len(body) < length:
        body += line.recv(4096)
    return head.split(b"\r\n")[0], json.loads(body)


def test_with_24_waiting_no_thread_is_taken_and_health_is_told(server, inbox, app):
    before = threading.active_count()
    with ExitStack() as opened:
        lines = [
            opened.enter_context(begun(server, peer)) for peer in (ME, OTHER) for _ in range(12)
        ]
        inbox.got(24)
        until(lambda: server._server.task_dispatcher.active_count == 0)
        assert threading.active_count() == before
        assert healthy(server)
        inbox.settle()
        for line in lines:
            status, ack = answered(line)
            assert (status, ack["accepted"]) == (b"HTTP/1.1 200 OK", True)
    assert app.extensions["headsweep"].presses.within == {}


def test_the_line_is_kept_for_the_next_request(server, inbox):
    with begun(server) as line:
        inbox.got(1)
        inbox.settle()
        assert answered(line)[1]["seqs"] == [42]
        line.sendall(b"GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n")
        assert answered(line)[1]["ok"]


def test_a_request_sent_while_one_waits_is_answered_after_it(server, inbox):
    with begun(server, more=b"GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n") as line:
        inbox.got(1)
        until(lambda: server._server.task_dispatcher.active_count == 0)
        inbox.settle()
        got = b""
        while got.count(b"HTTP/1.1 200 OK") < 2 or not got.endswith(b"}\n"):
            got += line.recv(4096)
        assert got.index(b'"seqs"') < got.index(b'"most_streams"')


def test_an_answer_carries_the_headers_of_every_other(server, inbox):
    inbox.settle()
    with asked(server, "GET", "/healthz") as other:
        expected = {name for name, _ in other.getheaders()}
    inbox.settled = False
    with ThreadPoolExecutor(1) as person:
        body = json.dumps({"id": str(uuid.uuid4()), "kind": "take"})

        def posted():
            with asked(server, "POST", COMMANDS, body) as answer:
                return dict(answer.getheaders())

        waiting = person.submit(posted)
        inbox.got(1)
        inbox.settle()
        assert set(waiting.result()) == expected
        assert waiting.result()["Content-Type"] == "application/json"


def test_whoever_goes_while_waiting_is_let_go_at_once(server, inbox, app):
    with begun(server):
        inbox.got(1)
        until(lambda: len(server._server.active_channels) == 1)
    until(lambda: server._server.active_channels == {})
    assert app.extensions["headsweep"].presses.within == {ME: 1}, "the press itself goes on"
    inbox.settle()
    assert app.extensions["headsweep"].presses.within == {}
    assert healthy(server)


def test_an_answer_larger_than_the_sockets_buffer_arrives_whole(server, inbox):
    reason = "long " * 40_000
    with begun(server) as line:
        line.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
        inbox.got(1)
        inbox.settle(reason)
        assert answered(line)[1]["reason"] == reason


def test_no_answer_in_time_is_said_and_gives_the_place_back(hub, monkeypatch):
    class Deaf:
        def hand_in(self, command):
            return Future()

    monkeypatch.setattr(commands, "ANSWER_S", 0.0)
    app = create_app(hub, Deaf())
    with serve(app, ME, 0, threads=THREADS) as server:
        status, body = press(server)
        assert (status, body["code"]) == (503, "not-recorded")
        assert "does not answer" in body["reason"]
        assert app.extensions["headsweep"].presses.within == {}
        assert [en(why) for _, _, why, _ in hub.refused] == [body["reason"]]


def test_the_end_waits_until_those_who_wait_are_answered(server, inbox):
    reason = "long " * 100_000
    with begun(server) as line:
        line.settimeout(PATIENCE_S)
        inbox.got(1)
        server.close()
        inbox.settle(reason)
        assert answered(line)[1]["reason"] == reason


def test_the_end_does_not_wait_for_a_press_that_nobody_answers_and_says_so(hub, monkeypatch):
    monkeypatch.setattr(serving, "ENDS_S", 0.0)
    held = SlowInbox()
    with serve(create_app(hub, held), ME, 0, threads=THREADS) as server, begun(server) as line:
        held.got(1)
        server.close()
        line.settimeout(PATIENCE_S)
        status, body = answered(line)
        assert (status, body["code"]) == (b"HTTP/1.1 503 SERVICE UNAVAILABLE", "not-recorded")
    (_, reply) = held.waiting[0]
    reply.set_result(Ack("x", True, (1,), "ok"))
