"""Behind a proxy: every connection is its own, and what it says of the others is weighed."""

import http.client
import json
import threading
from contextlib import closing
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

import pytest

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from tests.entry import headers, ticket
from tests.patience import PATIENCE_S
from tests.web.conftest import FakeHub, FakeInbox
from tests.web.test_rights import COMMANDS, body
from web.app import create_app
from web.serve import serve

NAME = "mill.example.net"
HERE = "127.0.0.1"


class Passing(BaseHTTPRequestHandler):
    """Passes requests on as README says a proxy should; it would speak https to the outside."""

    protocol_version = "HTTP/1.1"
    there = 0
    hops = frozenset({"connection", "transfer-encoding", "content-length", "server", "date"})

    def do_GET(self) -> None:
        self._pass()

    def do_POST(self) -> None:
        self._pass()

    def _pass(self) -> None:
        sent = {k: v for k, v in self.headers.items() if k.lower() not in self.hops}
        before = sent.get("X-Forwarded-For")
        heard = self.client_address[0]
        sent["X-Forwarded-For"] = f"{before}, {heard}" if before else heard
        sent["X-Forwarded-Proto"] = "https"
        given = self.rfile.read(int(self.headers.get("Content-Length") or 0))
        with closing(http.client.HTTPConnection(HERE, self.there, timeout=PATIENCE_S)) as line:
            line.request(self.command, self.path, given or None, sent)
            with line.getresponse() as answer:
                told = answer.read()
                self.send_response(answer.status)
                for name, value in answer.getheaders():
                    if name.lower() not in self.hops:
                        self.send_header(name, value)
                self.send_header("Content-Length", str(len(told)))
                self.end_headers()
                self.wfile.write(told)

    def log_message(self, *_: object) -> None:
        pass


@pytest.fixture
def access(tmp_path):
    return Access(tmp_path, SystemClock())


@pytest.fixture
def inbox():
    return FakeInbox()


@pytest.fixture(params=[True, False], ids=["named", "not named"])
def named(request):
    return request.param


@pytest.fixture
def through(access, inbox, named):
    """The proxy's port, in front of a service that was told of it or not."""
    app = create_app(
        FakeHub(), inbox, access=access, hosts=(NAME,), proxies=(HERE,) if named else ()
    )
    with serve(app, HERE, 0) as server:
        handler = type("Handler", (Passing,), {"there": server.port})
        with ThreadingHTTPServer((HERE, 0), handler) as proxy:
            threading.Thread(target=proxy.serve_forever, daemon=True).start()
            yield proxy.server_address[1]
            proxy.shutdown()


def asked(port, method, path, sent=None, more=None, peer=HERE):
    line = http.client.HTTPConnection(HERE, port, timeout=PATIENCE_S, source_address=(peer, 0))
    with closing(line):
        json_ = {"Content-Type": "application/json"} if method == "POST" else {}
        line.request(method, path, sent, {"Host": NAME, **json_, **(more or {})})
        with line.getresponse() as answer:
            answer.read()
            return answer.status, answer.getheader("Set-Cookie") or ""


def test_a_screen_is_paired_and_works_through_it(through, access, inbox, named):
    access.ask_code()
    typed = json.dumps({"code": access.shown.code, "name": "Phone"})
    status, kept = asked(through, "POST", "/api/pairing", typed)
    assert status == 200
    assert ("Secure" in kept) is named
    ours = headers(kept.partition(";")[0])
    page = {**ours, "Origin": f"https://{NAME}"}
    assert asked(through, "POST", COMMANDS, json.dumps(body(COMMANDS)), page)[0] == 200
    assert inbox.got[0].asker.address == HERE


def test_everybody_is_loopback_there_and_nobody_may_work_for_it(through, access, inbox):
    access.ask_code()
    access.pair(access.shown.code, "Phone")
    for more in ({}, {"X-Forwarded-For": HERE}, {"X-Forwarded-For": "::1", "Forwarded": "for=::1"}):
        sent = json.dumps(body(COMMANDS))
        assert asked(through, "POST", COMMANDS, sent, more)[0] == 403
    assert inbox.got == []


def test_tries_are_counted_by_who_made_them_where_the_proxy_is_named(through, named):
    def tried(peer, more=None):
        return asked(through, "POST", "/api/pairing", '{"code": "1"}', more, peer)[0]

    assert [tried("127.0.0.2") for _ in range(6)] == [403] * 5 + [429]
    assert tried("127.0.0.3") == (403 if named else 429)
    assert tried("127.0.0.2", {"X-Forwarded-For": "10.0.0.1"}) == 429, "whatever it claims"


def test_another_sites_page_gets_nothing_through_it(through, access, tmp_path, inbox):
    access.ask_code()
    kept = access.pair(access.shown.code, "Phone")
    foreign = {**headers(f"headsweep={kept}"), "Origin": "https://example.org"}
    assert asked(through, "POST", COMMANDS, "{}", foreign)[0] == 403
    assert asked(through, "GET", f"/own?ticket={ticket(tmp_path)}", None, foreign)[0] == 403
    assert inbox.got == []
