"""The event stream over a real socket of the real server."""

import http.client
import json
import socket
import threading
from contextlib import ExitStack, contextmanager

import pytest

from tests.patience import PATIENCE_S
from tests.patience import until as wait_until
from web.serve import CannotListenError, serve

MACHINE = "practice-mill"
STREAM = f"/api/machines/{MACHINE}/stream"


@pytest.fixture
def server(app):
    with serve(app, "127.0.0.1", 0, threads=2) as running:
        yield running


@contextmanager
def following(server):
    """A client that follows the machine; yields the connection and an iterator of events."""
    connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=PATIENCE_S)
    connection.request("GET", STREAM)
    response = connection.getresponse()
    try:
        yield response, events(response)
    finally:
        response.close()
        connection.close()


def events(response):
    event = {}
    while line := response.readline():
        name, _, value = line.decode().strip().partition(": ")
        if name:
            event[name] = value
        elif "event" in event:
            yield event["event"], event.get("id"), json.loads(event["data"])
            event = {}
        else:
            event = {}


def first(stream, name, test=lambda data: True):
    for event, number, data in stream:
        if event == name and test(data):
            return number, data
    raise AssertionError(f"the stream ended without {name}")


def test_a_screen_is_told_everything_at_once_and_then_every_change(server, hub, scenes, reading):
    with following(server) as (response, stream):
        assert response.status == 200
        assert response.headers["Content-Type"].startswith("text/event-stream")
        number, data = first(stream, "snapshot")
        assert (number, data["pages"]["wall"]["step"]) == ("41", "idle")
        assert first(stream, "live")[1]["fresh"] is False
        assert first(stream, "settling")[1] == {"settling": False}
        hub.publish(live=reading)
        assert first(stream, "live", lambda live: live["fresh"])[1]["text"] == "1.204"
        hub.publish(snapshot=scenes["move"])
        assert first(stream, "snapshot")[1]["pages"]["wall"]["step"] == "move"


def test_streams_that_fail_end_the_server(app, hub, monkeypatch, capfd):
    streams = app.extensions["headsweep"].streams
    monkeypatch.setattr(threading, "excepthook", lambda args: None)
    monkeypatch.setattr(streams, "turn", lambda: 1 / 0)
    server = serve(app, "127.0.0.1", 0)
    server.run()
    assert server.failed


def test_a_command_that_waits_is_told_and_untold(server, app):
    settling = app.extensions["headsweep"].settling
    with following(server) as (_, stream):
        first(stream, "settling")
        with settling.during(MACHINE):
            assert first(stream, "settling")[1] == {"settling": True}
        assert first(stream, "settling")[1] == {"settling": False}


def test_beyond_the_cap_a_page_says_so_and_other_pages_still_come(server, app):
    gate = app.extensions["headsweep"].gate
    with following(server), following(server), following(server):
        with following(server) as (response, _):
            assert response.status == 503
            assert response.headers["Content-Type"].startswith("text/html")
            assert "All 3 places for screens are taken" in response.read().decode()
        connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=PATIENCE_S)
        connection.request("GET", "/healthz")
        health = json.loads(connection.getresponse().read())
        connection.close()
        assert (health["streams"], health["most_streams"], health["crowded"]) == (3, 3, True)
    wait_until(lambda: gate.open == 0)


def test_more_streams_than_threads_leave_the_threads_to_the_pages(app):
    gate = app.extensions["headsweep"].gate
    with serve(app, "127.0.0.1", 0, threads=1) as server, ExitStack() as opened:
        for _ in range(3):
            opened.enter_context(following(server))
        assert gate.open == 3
        wait_until(lambda: server._server.task_dispatcher.active_count == 0)
        for _ in range(3):
            connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=PATIENCE_S)
            connection.request("GET", "/healthz")
            assert connection.getresponse().status == 200
            connection.close()


@pytest.mark.parametrize("method", ["HEAD", "GET"])
def test_a_stream_that_is_only_asked_about_takes_no_place(server, app, method):
    """By HEAD it has no events; one that is asked for in HTTP/1.0 comes without chunks."""
    with socket.create_connection(("127.0.0.1", server.port), PATIENCE_S) as sock:
        sock.sendall(f"{method} {STREAM} HTTP/1.0\r\nHost: localhost\r\n\r\n".encode())
        got = b""
        while b"\r\n\r\n" not in got or (method == "GET" and b"event: beat" not in got):
            got += sock.recv(65536)
        head, _, body = got.partition(b"\r\n\r\n")
        assert b"Transfer-Encoding" not in head
        assert body.startswith(b"retry: 1000\n\n" if method == "GET" else b"")
        if method == "HEAD":
            assert (sock.recv(1), body) == (b"", b"")
    wait_until(lambda: app.extensions["headsweep"].gate.open == 0)


def test_a_vanished_screen_is_freed_within_two_beats(server, app, hub):
    gate = app.extensions["headsweep"].gate
    with following(server) as (_, stream):
        first(stream, "beat")
        assert gate.open == 1
    turns = hub.turns
    wait_until(lambda: gate.open == 0)
    # The beat waited for, and one more that finds the line cut.
    assert hub.turns - turns <= 2


def test_a_screen_that_stops_reading_is_let_go(server, app, hub, reading, scenes):
    gate = app.extensions["headsweep"].gate
    with socket.create_connection(("127.0.0.1", server.port)) as sock:
        sock.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
        sock.sendall(f"GET {STREAM} HTTP/1.1\r\nHost: localhost\r\n\r\n".encode())
        wait_until(lambda: gate.open == 1)

        def stalled():
            hub.publish(live=reading, snapshot=scenes["prepare"])
            return gate.open == 0

        wait_until(stalled)


def test_closing_ends_every_stream_and_thread(app, hub):
    with serve(app, "127.0.0.1", 0, threads=2) as server, following(server) as (_, stream):
        first(stream, "beat")
        server.close()
        assert [event for event, _, _ in stream if event == "snapshot"] == []
    assert app.extensions["headsweep"].gate.open == 0
    server.close()


def test_a_port_in_use_is_named(server, app):
    with pytest.raises(CannotListenError, match=f"127.0.0.1:{server.port}: .*in use"):
        serve(app, "127.0.0.1", server.port)


def test_a_port_is_free_again_at_once(app):
    with serve(app, "127.0.0.1", 0) as server, following(server) as (_, stream):
        first(stream, "snapshot")
    with serve(app, "127.0.0.1", server.port) as again:
        assert again.port == server.port


def test_an_address_of_another_machine_is_named(app):
    # 192.0.2.0/24 is kept for examples (RFC 5737, from memory).
    with pytest.raises(CannotListenError, match=r"192\.0\.2\.1:8642"):
        serve(app, "192.0.2.1", 8642)
