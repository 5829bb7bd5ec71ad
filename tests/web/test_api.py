"""The other routes: machines, snapshot, live, health, practice."""

import pytest

from tests.words import told
from web.hands import arranged

MACHINE = "practice-mill"
FRONT_LOWER = "Turn the nod adjuster: front lower, a touch"
NO_ADJUSTER = "axis: found 'up'; allowed: side, nod"
PRACTICE = f"/api/machines/{MACHINE}/practice"


def test_the_machines_are_listed(client):
    assert client.get("/api/machines").json == [{"key": MACHINE, "say": "Practice mill"}]


def test_a_snapshot_is_given_whole(client, hub, scenes):
    hub.current = scenes["move"]
    got = client.get(f"/api/machines/{MACHINE}/snapshot").json
    assert (got["seq"], got["recording"], got["faults"]) == (41, {"ok": True, "say": ""}, [])
    assert got["pages"] == hub.current.pages
    assert "actions" not in got["pages"]["wall"]


def test_the_live_number_is_given_with_its_age(client, hub, reading):
    assert client.get(f"/api/machines/{MACHINE}/live").json["fresh"] is False
    hub.number = reading
    got = client.get(f"/api/machines/{MACHINE}/live").json
    assert (got["text"], got["unit"], got["age_ms"], got["fresh"]) == ("1.204", "mm", 12, True)


@pytest.mark.parametrize(("ok", "status"), [(True, 200), (False, 503)])
def test_health_follows_the_service(client, hub, ok, status):
    hub.ok = ok
    answer = client.get("/healthz")
    assert (answer.status_code, answer.json["ok"]) == (status, ok)
    assert (answer.json["streams"], answer.json["most_streams"]) == (0, 3)
    assert answer.json["crowded"] is False
    assert answer.json["service"]["gauges"] == {"bench": "ok"}


def test_an_operation_reaches_the_practice_mill(client, practice):
    answer = client.post(PRACTICE, json={"verb": "swing", "args": {"position": "left"}})
    assert answer.status_code == 200
    assert practice.did == [(MACHINE, "swing", {"position": "left"})]


def test_an_operation_that_cannot_be_done_says_why(client, practice):
    answer = client.post(PRACTICE, json={"verb": "turn", "args": {"axis": "up"}})
    assert (answer.status_code, answer.json["reason"]) == (422, NO_ADJUSTER)
    assert practice.did == []


def test_a_real_machine_cannot_be_worked_from_here(client, hub, practice):
    hub.names = (*hub.names, type(hub.names[0])("big-mill", "Big mill"))
    for answer in (
        client.get("/api/machines/big-mill/practice"),
        client.post("/api/machines/big-mill/practice", json={"verb": "push"}),
    ):
        assert answer.status_code == 404
        assert "real machine" in answer.json["reason"]
    assert practice.did == []


def test_the_panel_is_arranged_by_where_hands_go(client):
    got = client.get(PRACTICE).json
    where = {each["say"]: (each["place"], each["group"]) for each in got["operations"]}
    assert where["Left"][0] == "left"
    assert where["Front"][0] == "front"
    assert where[FRONT_LOWER] == ("", "Nod")
    assert where["Push the contact"] == ("", "Gauge and head")
    assert where["Pull the cable"] == ("", "Trouble to practise on")
    assert [each["say"] for each in got["operations"] if each["hold"]] == [FRONT_LOWER]
    assert [each["say"] for each in got["operations"] if each["on"]] == ["Front"]
    assert got["say"] == "The gauge stands at the front, contact on the surface. Loose: nod."


def test_the_sentence_tells_what_is_amiss():
    state = {
        "position": "swinging",
        "set_up": "ring",
        "contact": "free",
        "bolts": {"side": "tight", "nod": "tight"},
        "plugged": False,
        "fault": "stuck",
        "operations": [],
    }
    got = told(arranged(state, {}))
    assert got["say"] == (
        "The gauge is swinging, contact in the air. All bolts are tight. "
        "The cable is out. Trouble on the wire: stuck."
    )
    assert got["operations"] == []
