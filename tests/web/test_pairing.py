"""Pairing and unpairing a screen, and how the Pi's own wall comes in."""

import pytest

from tests.entry import PIN, enrolled, paired, ticket
from tests.web.scenes import MACHINE
from tests.web.test_rights import access, app, routes
from web.app import create_app
from web.rights import HEADER

ANN = "Anna Kelln"

__all__ = ["access", "app"]


@pytest.fixture
def wall(app, tmp_path):
    """The own wall."""
    client = app.test_client()
    answer = client.get(f"/own?ticket={ticket(tmp_path)}")
    assert (answer.status_code, answer.headers["Location"]) == (303, f"/machines/{MACHINE}/wall")
    return client


def test_the_code_stands_on_no_page_of_an_unpaired_or_paired_screen(app, access, wall):
    screen, _ = paired(app)
    access.ask_code()
    code = access.shown.code
    for client in (app.test_client(), screen):
        for _, method, path in routes(app):
            if method == "GET" and "stream" not in path:
                with client.get(path) as answer:
                    assert code not in answer.text and code not in str(answer.headers)
        assert client.get("/api/pairing").status_code == 403
    assert wall.get("/api/pairing").json["code"] == code


def test_a_screen_leaves_and_may_only_look(app, access):
    client, token = paired(app)
    paired(app, "Tablet")
    answer = client.post("/api/screen/leave", json={}, headers={HEADER: token})
    assert answer.status_code == 200
    assert "Max-Age=0" in answer.headers["Set-Cookie"]
    assert client.get("/api/screen").json["right"] == "look"
    assert [each.name for each in access.store.kept().screens] == ["Tablet"]


def test_a_screen_is_unpaired_by_somebody_who_may_set_up(app, access, tmp_path):
    enrolled(tmp_path, ANN)
    enrolled(tmp_path, "Bo Harm", "set-up")
    client, token = paired(app)
    paired(app, "Tablet")
    tablet = access.store.kept().screens[1].id

    def asked(person, pin, screen=tablet):
        sent = {"screen": screen, "person": person, "pin": pin}
        return client.post("/api/screens/unpair", json=sent, headers={HEADER: token}).status_code

    assert [asked(ANN, PIN), asked("Bo Harm", "0000"), asked("Nobody", PIN)] == [403, 403, 403]
    assert len(access.store.kept().screens) == 2
    assert [asked("Bo Harm", PIN), asked("Bo Harm", PIN)] == [200, 404]
    assert [each.name for each in access.store.kept().screens] == ["Phone"]


def test_pairing_is_limited_a_client_and_says_when_again(app):
    client = app.test_client()
    answers = [client.post("/api/pairing", json={"code": "1"}) for _ in range(6)]
    assert [answer.status_code for answer in answers] == [403] * 5 + [429]
    assert int(answers[-1].headers["Retry-After"]) > 0
    other = {"REMOTE_ADDR": "192.168.7.9"}
    assert client.post("/api/pairing", json={"code": "1"}, environ_base=other).status_code == 403


def test_guessing_from_many_addresses_ends_the_codes_and_says_when_again(app, wall):
    client, answers = app.test_client(), []
    for n in range(250):
        there = {"REMOTE_ADDR": f"10.0.{n}.1"}
        answers.append(client.post("/api/pairing/ask", json={}, environ_base=there))
        for _ in range(5):
            client.post("/api/pairing", json={"code": "1"}, environ_base=there)
        if answers[-1].status_code != 200:
            break
    assert answers[-1].status_code == 429
    assert len(answers) < 50
    assert int(answers[-1].headers["Retry-After"]) > 0
    assert wall.get("/api/pairing").json["code"] == ""


def test_the_cookie_is_kept_from_scripts_and_other_sites(app, tmp_path):
    said = {"X-Forwarded-Proto": "https"}
    kept = app.test_client().get(f"/own?ticket={ticket(tmp_path)}", headers=said)
    text = kept.headers["Set-Cookie"]
    assert all(part in text for part in ("HttpOnly", "SameSite=Strict", "Path=/", "Max-Age="))
    assert "Secure" not in text, "nobody named says that it came by https"


def test_behind_a_named_proxy_the_cookie_goes_by_https_alone(hub, inbox, access, tmp_path):
    app = create_app(hub, inbox, access=access, proxies=("127.0.0.1",))
    secure = app.test_client().get(
        f"/own?ticket={ticket(tmp_path)}", headers={"X-Forwarded-Proto": "https"}
    )
    assert "Secure" in secure.headers["Set-Cookie"]


def test_the_own_walls_address_is_good_once_and_leads_to_its_machine(app, tmp_path):
    once = ticket(tmp_path)
    answer = app.test_client().get(f"/own?ticket={once}&machine={MACHINE}")
    assert answer.headers["Location"] == f"/machines/{MACHINE}/wall"
    again = app.test_client().get(f"/own?ticket={once}")
    assert again.status_code == 403
    elsewhere = app.test_client().get(f"/own?ticket={ticket(tmp_path)}&machine=//example.org")
    assert elsewhere.headers["Location"] == "/"
