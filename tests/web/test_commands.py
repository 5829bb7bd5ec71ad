"""What reaches the inbox, and how its answer goes back."""

import threading
import uuid
from concurrent.futures import Future

import pytest

from daq.words import Ack
from tests.patience import PATIENCE_S

MACHINE = "practice-mill"
ADDRESS = f"/api/machines/{MACHINE}/commands"
ID = "6f1c0f3e-5d0b-4f0a-8f65-0d0a5f6f9c11"


def test_a_command_reaches_the_inbox_as_sent(client, inbox):
    body = {"id": ID, "kind": "take", "payload": {"position": "front"}, "expects_seq": 41}
    answer = client.post(ADDRESS, json={**body, "actor": "console", "audit": "a"})
    assert answer.status_code == 200
    assert answer.json == {
        "command": ID,
        "accepted": True,
        "seqs": [42],
        "code": "ok",
        "reason": "",
        "changed": [],
    }
    (got,) = inbox.got
    assert (got.id, got.machine, got.kind) == (ID, MACHINE, "take")
    assert got.payload == {"position": "front"}
    assert (got.actor, got.audit, got.expects_seq) == ("console", "a", 41)


@pytest.mark.parametrize(
    ("code", "status"),
    [("ok", 200), ("stale", 409), ("refused", 422), ("not-recorded", 503), ("not-known", 503)],
)
def test_each_answer_of_the_inbox_has_its_status(client, inbox, code, status):
    inbox.code, inbox.reason, inbox.changed = code, "The gauge is still moving.", ("a reading",)
    answer = client.post(ADDRESS, json={"id": ID, "kind": "take"})
    assert answer.status_code == status
    assert answer.json["code"] == code
    assert answer.json["reason"] == "The gauge is still moving."
    assert answer.json["changed"] == ["a reading"]


@pytest.mark.parametrize(
    ("body", "named"),
    [
        ({"kind": "take"}, "id: missing"),
        ({"id": ID}, "kind: missing"),
        ({"id": "7", "kind": "take"}, "found '7'; allowed: a UUID"),
        ({"id": ID, "kind": 3}, "kind: found 3"),
        ({"id": ID, "kind": "take", "payload": []}, "payload"),
        ({"id": ID, "kind": "take", "expects_seq": "41"}, "expects_seq"),
        ({"id": ID, "kind": "take", "expects_seq": True}, "expects_seq"),
        ({"id": ID, "kind": "take", "expects_seq": 10**400}, "a number of more than 100 digits"),
        ({"id": "7" * 5000, "kind": "take"}, f"found '{'7' * 79} … {'7' * 29}'; allowed: a UUID"),
        ({"id": ID, "kind": "take", "expects_sec": 41}, "expects_seq"),
        ({"id": ID, "kind": "take", "actor": "Anna"}, 'actor: found "Anna"; allowed: one of'),
        ({"id": ID, "kind": "take", "expects_seq": -1}, "found -1; allowed: 0 to 92233720368"),
        ({"id": ID, "kind": "take", "expects_seq": -(2**70)}, "expects_seq: found -118059"),
        ({"id": ID, "kind": "take", "expects_seq": 2**63}, "expects_seq: found 92233720368"),
        ([], "allowed: a JSON object"),
    ],
)
def test_a_malformed_body_is_explained_and_goes_no_further(client, inbox, body, named):
    answer = client.post(ADDRESS, json=body)
    assert answer.status_code == 400
    assert any(named in problem for problem in answer.json["problems"])
    assert inbox.got == []


def test_every_problem_of_a_body_is_listed(client):
    answer = client.post(ADDRESS, json={"kind": 3, "audit": 4})
    assert len(answer.json["problems"]) == 3


@pytest.mark.parametrize("body", [b"", b"{", b"\xff\xfe", b'{"id": NaN}'])
def test_what_is_no_json_is_explained(client, inbox, body):
    answer = client.post(ADDRESS, data=body, content_type="application/json")
    assert answer.status_code == 400
    assert inbox.got == []


def test_a_body_has_a_limit(client, inbox):
    answer = client.post(ADDRESS, json={"id": ID, "kind": "sign", "payload": {"note": "x" * 20000}})
    assert answer.status_code == 413
    assert inbox.got == []


def test_an_unknown_machine_is_named(client, inbox):
    answer = client.post("/api/machines/lathe/commands", json={"id": ID, "kind": "take"})
    assert answer.status_code == 404
    assert "lathe" in answer.json["reason"]
    assert MACHINE in answer.json["reason"]
    assert inbox.got == []


def test_a_command_that_waits_is_told_to_the_screens(app, inbox):
    settling = app.extensions["headsweep"].settling
    settling.LONG_S = 0.0
    entered, answer = threading.Event(), Future()

    def slow(command):
        entered.set()
        return answer

    inbox.hand_in = slow
    body = {"id": str(uuid.uuid4()), "kind": "take"}
    post = threading.Thread(target=lambda: app.test_client().post(ADDRESS, json=body))
    post.start()
    assert entered.wait(PATIENCE_S)
    assert settling.now(MACHINE)
    assert not settling.now("another")
    answer.set_result(Ack(body["id"], True, (42,), "ok"))
    post.join()
    assert not settling.now(MACHINE)


def test_a_quick_command_tells_nobody_to_hold_still(app):
    settling = app.extensions["headsweep"].settling
    now = [0.0]
    settling._clock = lambda: now[0]
    with settling.during(MACHINE):
        now[0] = settling.LONG_S / 2
        assert not settling.now(MACHINE)


@pytest.mark.parametrize("code", ["refused", "stale", "not-recorded", "not-known"])
def test_a_press_that_did_nothing_is_said_on_every_screen(client, hub, inbox, code):
    inbox.code, inbox.reason = code, "Not yet. Wait."
    client.post(ADDRESS, json={"id": ID, "kind": "take"})
    assert hub.refused == [(MACHINE, "take", "Not yet. Wait.", ID)]


def test_a_press_that_was_carried_out_is_no_refusal(client, hub):
    client.post(ADDRESS, json={"id": ID, "kind": "take"})
    assert hub.refused == []


@pytest.mark.parametrize("seq", [0, 2**63 - 1])
def test_every_number_a_row_can_have_reaches_the_inbox(client, inbox, seq):
    client.post(ADDRESS, json={"id": ID, "kind": "take", "expects_seq": seq})
    assert inbox.got[0].expects_seq == seq
