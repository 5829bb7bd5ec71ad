"""Deny by default: every route, by whoever comes, however they come."""

import json
import re
import uuid

import pytest

from daq.service.clock import SystemClock
from daq.service.rights.access import Access
from daq.service.rights.store import NAME
from tests.entry import PIN, enrolled, paired, ticket, token_of
from tests.web.conftest import FakeHub, FakeInbox, shop_set_up
from tests.web.scenes import MACHINE
from web.app import create_app
from web.problems import PROGRAMS
from web.rights import COOKIE, HEADER, NEEDS

COMMANDS = f"/api/machines/{MACHINE}/commands"
FOREIGN = {
    "foreign host": {"Host": "example.org"},
    "foreign origin": {"Host": "localhost", "Origin": "http://example.org"},
    "no origin to name": {"Host": "localhost", "Origin": "null"},
}
ANN, FAR_TOO_MANY = "Anna Kelln", 5000
PAIRS = {"pair.pair", "own.own", "api_pairing.ask_code", "api_pairing.pair"}
OPEN = {"static", "api_health.healthz", *PAIRS}  # it pairs, or says no more than that all is well


@pytest.fixture
def access(tmp_path):
    return Access(tmp_path, SystemClock())


@pytest.fixture
def app(hub, inbox, access, tmp_path):
    set_up = shop_set_up(tmp_path / "config")
    return create_app(hub, inbox, hosts=("mill-pi.local",), access=access, set_up=set_up)


def routes(app):
    """Every route and method, its parts filled in; the stream has no end."""
    for rule in app.url_map.iter_rules():
        path = rule.rule.replace("<machine>", MACHINE).replace("<path:filename>", "css/base.css")
        for method in sorted((rule.methods or set()) - {"OPTIONS", "HEAD"}):
            yield rule.endpoint, method, path


def body(path, kind="take"):
    if path.endswith("/commands"):
        return {"id": str(uuid.uuid4()), "kind": kind, "payload": {}}
    if path.endswith("/unpair"):
        return {"screen": "x", "person": ANN, "pin": "0000"}
    if path.endswith("/pairing"):
        return {"code": "0"}
    if path.endswith("/who"):
        return {"person": ANN, "pin": PIN}
    return {"bore": {"depth": "25 mm", "zone": "0.02 mm"}} if path.endswith("/enough") else {}


def opened(client, method, path, token="", **more):
    sent = {**more.pop("headers", {}), **({HEADER: token} if token else {})}
    answer = client.open(path, method=method, headers=sent, json=body(path), **more)
    answer.close()
    return answer


def test_each_route_says_which_right_it_needs(app):
    said = {
        rule.endpoint: getattr(app.view_functions[rule.endpoint], NEEDS, None)
        for rule in app.url_map.iter_rules()
    }
    assert None not in said.values()
    assert {endpoint for endpoint, right in said.items() if right == "open"} == OPEN
    changing = {endpoint for endpoint, method, _ in routes(app) if method != "GET"}
    looked_at = {"api_enough.enough"}  # it answers a question and records nothing
    assert {e for e in changing if said[e] == "own"} == {"api_own_wall.drawn"}
    assert {said[e] for e in changing - OPEN - looked_at} == {"work", "own"}


@pytest.mark.parametrize("practice", [False, True])
def test_a_route_that_says_nothing_is_refused(hub, inbox, access, practice):
    app = create_app(hub, inbox, access=None if practice else access)
    app.add_url_rule("/api/forgotten", "forgotten", lambda: "secret", methods=["GET", "POST"])
    client, token = (app.test_client(), "") if practice else paired(app)
    for who in (client, app.test_client()):
        for method in ("GET", "POST"):
            assert opened(who, method, "/api/forgotten", token).status_code == 403


def test_until_the_first_pairing_strangers_get_the_pairing_page_and_nothing_else(app, inbox):
    stranger = app.test_client()
    for endpoint, method, path in routes(app):
        answer = opened(stranger, method, path)
        if endpoint in OPEN:
            continue
        page = method == "GET" and not path.startswith(PROGRAMS)
        assert answer.status_code == (303 if page else 403), (method, path)
        assert not page or answer.headers["Location"] == "/pair"
    assert opened(stranger, "GET", "/nothing").status_code == 303
    assert opened(stranger, "GET", "/api/nothing").status_code == 403
    assert inbox.got == []


CASES = ("no token", "replayed token", "another's token", "looker", *FOREIGN)


@pytest.mark.parametrize("case", CASES)
def test_no_route_changes_anything_for_whom_it_must_not(app, inbox, access, case, tmp_path):
    """Every route there is, whoever must not: nothing is handed in and nobody is unpaired."""
    client, token = paired(app)
    _, others_token = paired(app, "Tablet")
    headers = FOREIGN.get(case, {})
    if case == "no token":
        token = ""
    elif case == "another's token":
        token = others_token
    elif case == "looker":
        client = app.test_client()
    elif case == "replayed token":
        kept = client.get_cookie(COOKIE).value
        assert client.post("/api/screen/leave", json={}, headers={HEADER: token}).status_code == 200
        client.set_cookie(COOKIE, kept)
    kept = access.store.kept()
    looks_only = case in ("looker", "replayed token")
    for endpoint, method, path in routes(app):
        if method == "GET" and not headers and "stream" in path:
            continue
        answer = opened(client, method, path, token, headers=headers)
        needed = getattr(app.view_functions[endpoint], NEEDS)
        if headers:
            assert answer.status_code == 403, (method, path)
        elif method == "GET":
            own = needed == "own" or (looks_only and needed == "work")
            refused = answer.status_code == 403
            assert refused == (own or endpoint == "own.own"), (method, path)
        elif needed == "work" or not looks_only:
            assert answer.status_code == 403, (method, path)
        assert answer.status_code < 500
    assert inbox.got == []
    assert access.store.kept() == kept
    assert not (tmp_path / "config").exists()


def test_a_paired_screen_works_and_the_row_is_told_who_it_was(app, inbox, access):
    client, token = paired(app)
    assert opened(client, "POST", COMMANDS, token).status_code == 200
    (got,) = inbox.got
    screen = access.store.kept().screens[0].id
    assert (got.asker.role, got.asker.screen, got.asker.address) == ("work", screen, "127.0.0.1")
    assert got.asker.person == ""


def test_lookers_leave_places_to_follow_from_for_those_who_work(hub, inbox, access):
    app = create_app(hub, inbox, access=access, max_streams=6)
    client, _ = paired(app)
    stream = f"/api/machines/{MACHINE}/stream"
    looker = app.test_client()
    looking = [looker.get(stream, buffered=False) for _ in range(6)]
    assert [each.status_code for each in looking] == [200] * 5 + [503]
    assert "All 5 places" in looking[-1].get_data(as_text=True)
    working = client.get(stream, buffered=False)
    assert working.status_code == 200
    for each in (*looking, working):
        each.close()
    assert app.extensions["headsweep"].gate.open == 0


def test_a_looker_is_told_how_to_pair(app):
    paired(app)
    answer = app.test_client().post(COMMANDS, json=body(COMMANDS))
    assert "Pair it" in answer.json["reason"]


def signed(client, token, pins, **payload):
    sent = {"id": str(uuid.uuid4()), "kind": "sign", "payload": payload, "pins": pins}
    return client.post(COMMANDS, json=sent, headers={HEADER: token})


def test_a_signature_wants_the_pin_of_each_person_it_names(app, inbox, tmp_path):
    enrolled(tmp_path, ANN)
    enrolled(tmp_path, "Bo Harm")
    client, token = paired(app)
    both = {"done_by": ANN, "reviewed_by": "bo harm"}
    for pins in ({}, {"done_by": "0000"}, {"done_by": PIN}, {"done_by": PIN, "reviewed_by": "1"}):
        assert signed(client, token, pins, **both).status_code == 403
    assert signed(client, token, {"done_by": PIN}, done_by="Somebody").status_code == 403
    assert inbox.got == []
    pins = {"done_by": PIN, "reviewed_by": PIN}
    assert signed(client, token, pins, **both).status_code == 200
    (got,) = inbox.got
    assert got.asker.role == "sign"
    assert {key: who.name for key, who in got.proved.items()} == {
        "done_by": ANN,
        "reviewed_by": "Bo Harm",
    }
    assert PIN not in repr(got)


def test_guessing_at_a_pin_locks_out_and_says_for_how_long(app, inbox, tmp_path):
    enrolled(tmp_path, ANN)
    client, token = paired(app)
    for _ in range(5):
        assert signed(client, token, {"done_by": "0000"}, done_by=ANN).status_code == 403
    answer = signed(client, token, {"done_by": PIN}, done_by=ANN)
    assert (answer.status_code, answer.headers["Retry-After"]) == (429, "60")
    assert "one minute" in answer.json["reason"]
    assert inbox.got == []


def test_a_screen_that_guesses_locks_nobody_out_on_the_wall_or_another_screen(app, inbox, tmp_path):
    enrolled(tmp_path, ANN)
    guessing, honest = paired(app), paired(app)
    for _ in range(6):
        answer = signed(*guessing, {"done_by": "0000"}, done_by=ANN)
    assert answer.status_code == 429
    assert signed(*honest, {"done_by": PIN}, done_by=ANN).status_code == 200
    assert signed(*guessing, {"done_by": PIN}, done_by=ANN).status_code == 429
    assert len(inbox.got) == 1


@pytest.mark.parametrize("damage", ["torn", "a folder"])
def test_a_damaged_store_lets_nobody_work_and_says_what_to_do(app, inbox, tmp_path, damage):
    screen, token = paired(app)
    own = app.test_client()
    own.get(f"/own?ticket={ticket(tmp_path)}")
    path = tmp_path / NAME
    kept = path.read_bytes()
    path.unlink()
    path.mkdir() if damage == "a folder" else path.write_bytes(kept[:40])
    for client in (screen, app.test_client()):
        for answer in (
            client.get("/"),
            client.get("/api/screen"),
            client.post("/api/pairing", json={"code": "1"}),
            client.post(COMMANDS, json=body(COMMANDS), headers={HEADER: token}),
        ):
            assert answer.status_code == 503
            assert "give PINs anew" in answer.text
        assert opened(client, "GET", "/static/css/base.css").status_code == 200
    assert inbox.got == []
    assert own.get("/").status_code == 200, "an audit under way goes on"
    kept_token = token_of(f"{COOKIE}={own.get_cookie(COOKIE).value}")
    assert opened(own, "POST", COMMANDS, kept_token).status_code == 200
    refused = signed(own, kept_token, {"done_by": PIN}, done_by=ANN)
    assert refused.status_code == 503 and "give PINs anew" in refused.json["reason"]


def test_what_is_worked_out_for_lookers_is_limited_a_client(app):
    path = f"/api/machines/{MACHINE}/enough"
    paired(app)
    client = app.test_client()
    asked = (client.post(path, json={}).status_code for _ in range(FAR_TOO_MANY))
    assert 429 in asked


def test_what_was_typed_as_a_pin_comes_back_in_no_answer(app, tmp_path):
    enrolled(tmp_path, ANN)
    client, token = paired(app)
    for pins in (
        {"done_by": "98765"},
        {"done_by": 98765},
        {"done_by": {"98765": 1}},
        {"x": "98765"},
    ):
        assert "98765" not in signed(client, token, pins, done_by=ANN).text


def test_presses_are_limited_a_screen(app, inbox):
    client, token = paired(app)
    presses = (opened(client, "POST", COMMANDS, token) for _ in range(FAR_TOO_MANY))
    answer = next(answer for answer in presses if answer.status_code == 429)
    assert int(answer.headers["Retry-After"]) > 0
    other, others = paired(app, "Tablet")
    assert opened(other, "POST", COMMANDS, others).status_code == 200


def test_rights_do_not_follow_from_an_address(app, inbox):
    """Behind a proxy everybody is loopback."""
    paired(app)
    for said in ({}, {"X-Forwarded-For": "127.0.0.1"}, {"X-Forwarded-For": "::1"}):
        assert opened(app.test_client(), "POST", COMMANDS, headers=said).status_code == 403
    assert inbox.got == []


def test_pages_carry_the_token_of_their_screen_and_lookers_none(app):
    client, token = paired(app)
    (told,) = re.findall(r"name=\"rights\" content='(.*?)'", client.get("/").text)
    assert json.loads(told) == {"right": "work", "signers": [], "token": token}
    (told,) = re.findall(r"name=\"rights\" content='(.*?)'", app.test_client().get("/").text)
    assert json.loads(told) == {"right": "look"}


def test_practice_needs_no_pairing_and_has_no_page_for_it(practice):
    inbox = FakeInbox()
    client = create_app(FakeHub(), inbox, practice).test_client()
    assert client.post(COMMANDS, json=body(COMMANDS)).status_code == 200
    assert inbox.got[0].asker.role == "practice"
    assert client.get("/pair").status_code == 404
    assert client.get("/api/screen").status_code == 404
