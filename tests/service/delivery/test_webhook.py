"""The note that goes to an address: what it says, how it is signed, and an address that fails."""

import hashlib
import hmac
import json
import threading
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from socket import SHUT_RDWR

import jsonschema
import pytest

from daq.ledger.view import LedgerView
from daq.service.committed import Committed
from daq.service.delivery import courier as couriers
from daq.service.delivery import webhook
from daq.service.delivery.config import OnSigning
from daq.service.delivery.courier import NotDelivered
from daq.service.delivery.deliveries import Deliveries
from daq.service.delivery.note import Note
from daq.settings.schema import Schemas
from tests.patience import until
from tests.service.delivery.rig import following, settled

SECRET = "a secret of the shop's own"


class Receiver(ThreadingHTTPServer):
    """A server that answers as it is told, and keeps what it was told."""

    daemon_threads = True

    def __init__(self):
        super().__init__(("127.0.0.1", 0), Answers)
        self.how = "ok"
        self.got = []
        self.let_go = threading.Event()
        self.hung = threading.Event()

    @property
    def url(self):
        return f"http://127.0.0.1:{self.server_port}/audits?key=k"


class Answers(BaseHTTPRequestHandler):
    def do_POST(self):
        how, size = self.server.how, int(self.headers["Content-Length"])
        body = self.rfile.read(size)
        self.server.got.append((how, self.path, dict(self.headers), body))
        if how == "hangs":
            self.server.hung.set()
            self.server.let_go.wait()
        if how == "drips":
            self.server.hung.set()
            while not self.server.let_go.wait(0.01):
                self.wfile.write(b"H")
        if how in ("hangs", "cuts", "drips"):
            self.close_connection = True
            self.connection.shutdown(SHUT_RDWR)
            return
        self.send_response({"ok": 204, "moves": 302, "refuses": 422, "fails": 503}[how])
        if how == "moves":
            self.send_header("Location", "/elsewhere")
        self.send_header("Content-Length", "0")
        self.end_headers()

    def log_message(self, *_):
        pass


@contextmanager
def receiving():
    server = Receiver()
    thread = threading.Thread(target=server.serve_forever, args=(0.02,))
    thread.start()
    try:
        yield server
    finally:
        server.let_go.set()
        server.shutdown()
        server.server_close()
        thread.join()


@pytest.fixture
def receiver():
    with receiving() as server:
        yield server


def test_a_note_says_what_was_signed_and_is_signed_with_the_secret(
    data,
    tmp_path,
    rows,
    going,
    receiver,
):
    found = following(data, tmp_path, url=receiver.url, secret=SECRET)
    found.start()
    settled(found)
    assert [path for _, path, _, _ in receiver.got] == ["/audits?key=k"] * 4
    schemas = Schemas("#/$defs/")
    form = {**schemas.of(Note), "$defs": schemas.named}
    with LedgerView.open(data) as view:
        hashes = {row: view.hash_of(row) for row in rows}
    for (_, _, told, body), row in zip(receiver.got, going, strict=True):
        note = json.loads(body)
        jsonschema.validate(note, form)
        assert (note["row"], note["hash"]) == (row, hashes[row])
        assert note["anchor"] == f"headsweep-anchor:{note['ledger']}:{row}:{hashes[row]}"
        assert told["X-Headsweep-Delivery"] == f"{note['ledger']}:{row}"
        # RFC 2104, by the standard library's own over the bytes as they came.
        expected = hmac.new(SECRET.encode(), body, hashlib.sha256).hexdigest()
        assert told["X-Headsweep-Signature"] == f"sha256={expected}"
    first, added, anew, _ = (json.loads(body) for *_, body in receiver.got)
    assert (first["verdict"], first["added"], first["files"]) == ("conforms", None, [])
    assert first["as_left"]["nod"]["word"] == "in"
    assert (anew["report"], anew["replaces"]) == (f"{anew['short']}-3", f"{anew['short']}-2")
    assert (anew["because"], anew["added"]) == ("It stands in bay 4.", None)
    assert added["added"]["text"] == "A chip." and added["audit"] == first["audit"]


def test_an_hmac_is_that_of_a_published_case():
    """RFC 4231, test case 2: key "Jefe", data "what do ya want for nothing?"."""
    told = webhook.headers(b"what do ya want for nothing?", "x:1", "Jefe")
    digest = "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    assert told[webhook.SIGNATURE] == f"sha256={digest}"
    assert webhook.SIGNATURE not in webhook.headers(b"", "x:1", "")


@pytest.mark.parametrize(
    ("how", "code", "alone"),
    [
        ("fails", "address-refused", False),
        ("refuses", "address-refused", True),
        ("moves", "address-refused", False),
        ("cuts", "address-not-reached", False),
        ("hangs", "address-not-reached", False),
        ("drips", "address-not-reached", False),
    ],
)
def test_an_address_that_does_not_take_it_is_told_by_its_kind(
    receiver, monkeypatch, how, code, alone
):
    monkeypatch.setattr(webhook, "WITHIN_S", 0.05)
    receiver.how = how
    with pytest.raises(NotDelivered) as error:
        webhook.post(receiver.url, b"{}", webhook.headers(b"{}", "x:1", ""))
    assert (error.value.said.code, error.value.alone) == (code, alone)
    assert len(receiver.got) == 1  # no redirect is followed


def test_nobody_there(receiver):
    receiver.server_close()
    with pytest.raises(NotDelivered) as error:
        webhook.post(receiver.url, b"{}", {})
    assert error.value.said.code == "address-not-reached"


def test_each_note_comes_once_it_is_taken_over_outages_and_a_restart(
    data,
    tmp_path,
    going,
    receiver,
    monkeypatch,
):
    monkeypatch.setattr(couriers, "FIRST_WAITS", 1)
    receiver.how = "fails"
    found = following(data, tmp_path, url=receiver.url)
    found.start()
    until(lambda: len(receiver.got) >= 2)
    assert {json.loads(body)["row"] for *_, body in receiver.got} == {going[0]}
    assert found.ways["address"].owed == 5
    assert found.ways["address"].to == receiver.url.partition("/audits")[0]
    found.stop()
    receiver.how = "ok"
    again = Deliveries(OnSigning(url=receiver.url), data, None)
    again.start()
    settled(again)
    taken = [json.loads(body)["row"] for how, *_, body in receiver.got if how == "ok"]
    assert taken == going


def test_who_records_waits_for_no_address(
    data,
    tmp_path,
    rows,
    receiver,
    monkeypatch,
):
    """While the address holds the first note, the next commit is told and goes on."""
    receiver.how = "hangs"
    found = following(data, tmp_path, at=rows[3], url=receiver.url)
    found.start()
    receiver.hung.wait()
    with LedgerView.open(data) as view:
        events = tuple(view.events(after=rows[3]))
    found.committed(Committed(events, None, None, ""))
    assert not receiver.let_go.is_set() and len(receiver.got) == 1  # it still holds it
    found.stop()
