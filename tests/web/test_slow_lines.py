"""Whoever sends a request bit by bit, or does not take its answer: no thread waits for that."""

import socket
from contextlib import ExitStack, suppress

import pytest

from tests.patience import PATIENCE_S, until
from tests.web.test_crowd import ME, SlowInbox, asked, connected, healthy
from web import channels
from web.app import create_app
from web.rights import needs
from web.serve import serve

THREADS = 2
LARGE = 400_000
GET = b"GET /large HTTP/1.1\r\nHost: localhost\r\n\r\n"
POST = b"POST /large HTTP/1.1\r\nHost: localhost\r\nContent-Length: 9000\r\n\r\n"


@pytest.fixture
def app(hub):
    app = create_app(hub, SlowInbox())
    app.add_url_rule("/large", view_func=needs("open")(lambda: LARGE * "#"))
    return app


@pytest.fixture
def server(app):
    with serve(app, ME, 0, threads=THREADS) as running:
        yield running


def there(server):
    return list(server._server.active_channels.values())


def sent(server, data, peer=ME):
    """A connection that sends this and takes next to nothing of what comes."""
    line = socket.socket()
    line.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
    line.settimeout(PATIENCE_S)
    line.bind((peer, 0))
    line.connect((ME, server.port))
    line.sendall(data)
    return line


@pytest.mark.parametrize(
    ("begins", "goes_on"),
    [(b"GET / HTTP/1.1\r\nX-Slow: ", b"x"), (POST, b"x"), (b"\r\n\r\n", b"\r\n\r\n")],
    ids=["head", "body", "blank lines"],
)
def test_a_request_that_comes_bit_by_bit_is_given_up(server, monkeypatch, begins, goes_on):
    monkeypatch.setattr(channels, "WHOLE_S", 0.3)
    with connected(server) as line:
        line.sendall(begins)
        until(lambda: there(server))

        def ended():
            with suppress(OSError):
                line.sendall(goes_on)
            return not there(server)

        until(ended)


def test_a_line_that_brought_its_request_is_kept_for_the_next(server, monkeypatch):
    with connected(server) as line:
        line.sendall(GET)
        assert line.recv(9) == b"HTTP/1.1 "
        until(lambda: not there(server)[0].requests)
        monkeypatch.setattr(channels, "WHOLE_S", 0.0)
        for _ in range(3):
            assert healthy(server)
        assert len(there(server)) >= 1


def test_an_answer_that_is_taken_bit_by_bit_is_given_up(server, monkeypatch):
    """TCP ends by itself only a connection whose other end takes nothing at all."""
    monkeypatch.setattr(channels, "TAKEN_S", 0.3)
    with sent(server, GET) as line:
        until(lambda: any(each.total_outbufs_len for each in there(server)))

        def ended():
            with suppress(OSError):
                line.recv(64)
            return not there(server)

        until(ended)


def test_no_thread_waits_for_lines_that_take_nothing(server):
    with ExitStack() as opened:
        lines = [opened.enter_context(sent(server, 3 * GET)) for _ in range(4 * THREADS)]
        until(lambda: sum(each._parked for each in there(server)) == len(lines))
        assert healthy(server)
        until(lambda: server._server.task_dispatcher.active_count == 0)
        whole = 0
        while whole < 3 * LARGE:
            whole += lines[0].recv(65536).count(b"#")
        assert whole == 3 * LARGE, "each of its requests is answered once it takes the answers"


def test_lines_that_take_nothing_make_room_for_others(server, monkeypatch):
    monkeypatch.setattr(channels, "MOST", 20)
    monkeypatch.setattr(channels, "SLOW_S", 0.0)
    with ExitStack() as opened:
        for n in range(1, 31):
            opened.enter_context(sent(server, 3 * GET, f"127.0.1.{n}"))
            until(lambda: all(each._sends_s for each in there(server)))
        with asked(server, "GET", "/large") as answer:
            assert len(answer.read()) == LARGE


def test_a_line_that_made_room_is_closed_at_once(server, monkeypatch, caplog):
    """It need not take anything for that: else no new one could come in for the old ones."""
    monkeypatch.setattr(channels, "MOST", 20)
    monkeypatch.setattr(channels, "SLOW_S", 0.0)
    with ExitStack() as opened:
        for n in range(40):
            opened.enter_context(sent(server, 3 * GET, f"127.0.1.{1 + n}"))
            until(lambda: all(each._sends_s for each in there(server)))
        held = (channels.MOST, channels.MOST + 2)  # with the door and what wakes the loop
        until(lambda: (len(there(server)), len(server._server._map)) == held)
    assert "no longer accepting" not in caplog.text


def test_the_end_closes_the_file_of_an_answer_that_nobody_took(app):
    with ExitStack() as opened:
        with serve(app, ME, 0, threads=THREADS) as server:
            server._server.adj.outbuf_overflow = 1
            opened.enter_context(sent(server, GET))
            until(lambda: any(each.total_outbufs_len for each in there(server)))
            files = [each.getfile() for each in there(server)[0].outbufs if each.overflowed]
        assert [each.closed for each in files] == [True]
