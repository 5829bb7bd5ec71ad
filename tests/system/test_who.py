"""Who may, asked of the installed service: nobody, the own wall, and what a row keeps of it."""

import http.client
import json
import uuid
from contextlib import closing

from daq.service.rights import wall
from daq.service.rights.store import NAME
from tests.entry import PIN
from tests.system.shop import MACHINE


def as_nobody(client, method, path, body=None):
    with closing(http.client.HTTPConnection("127.0.0.1", client.port, timeout=60)) as line:
        line.request(method, path, body, {"Content-Type": "application/json"})
        with line.getresponse() as answer:
            return answer.status, answer.read().decode()


def test_nobody_may_and_a_row_keeps_who_did(daemon, client, shop):
    command = json.dumps({"id": str(uuid.uuid4()), "kind": "open", "payload": {"reason": "x"}})
    assert as_nobody(client, "POST", f"/api/machines/{MACHINE}/commands", command)[0] == 403
    assert as_nobody(client, "GET", f"/machines/{MACHINE}/wall")[0] == 303
    assert as_nobody(client, "GET", "/api/pairing")[0] == 403
    assert daemon.events() == []
    client.do("open", {"reason": "scheduled"})
    (event,) = daemon.events()
    assert event.cause["asker"] == {
        "role": "work",
        "person": "",
        "screen": "own wall",
        "address": "127.0.0.1",
    }
    assert client.post("sign", {"done_by": "T"}, pins={"done_by": "0000"}).status == 403


def test_the_own_wall_stays_one_through_restarts_and_nothing_secret_is_told(daemon, client, shop):
    client.do("open", {"reason": "scheduled"})
    client.post("sign", {"done_by": "T"})
    cookie = client.headers["Cookie"]
    daemon.kill()
    daemon.start()
    client.headers["Cookie"] = cookie
    assert client.ask("GET", "/api/screen").body["right"] == "own"
    told = [daemon.stderr, *map(str, (client.snapshot(), client.ask("GET", "/healthz").body))]
    told += [path.read_bytes().decode("latin-1") for path in shop.data.glob("ledger*")]
    secrets = [PIN, wall.key(shop.data), cookie.partition("=")[2]]
    secrets += [each["pin"] for each in json.loads((shop.data / NAME).read_text())["people"]]
    assert [each for each in secrets if any(each in text for text in told)] == []
