"""Who gets in, and that nobody else's request reaches the inbox or the practice mill."""

import uuid

import pytest

from web.guard import host_allowed, origin_allowed

MACHINE = "practice-mill"
COMMANDS = f"/api/machines/{MACHINE}/commands"
PRACTICE = f"/api/machines/{MACHINE}/practice"
NAMES = frozenset({"localhost", "mill-pi.local"})


@pytest.mark.parametrize(
    "host",
    [
        "localhost",
        "LOCALHOST:8642",
        "127.0.0.1",
        "192.168.7.20:80",
        "[::1]:8642",
        "[fe80::1]",
        "mill-pi.local",
        "Mill-Pi.Local.:80",
    ],
)
def test_the_pi_answers_to_its_addresses_and_names(host):
    assert host_allowed(host, NAMES)


@pytest.mark.parametrize(
    "host",
    [
        "",
        "example.org",
        "localhost.example.org",
        "127.0.0.1.example.org",
        "a@localhost",
        "localhost:x",
        "localhost/x",
        "[::1",
        "mill-pi",
        "2130706433x",
        " localhost",
        "local\thost",
    ],
)
def test_any_other_host_is_refused(host):
    assert not host_allowed(host, NAMES)


@pytest.mark.parametrize(
    ("origin", "same"),
    [
        ("http://192.168.7.20:8642", True),
        ("https://192.168.7.20:8642", True),
        ("http://192.168.7.20", False),
        ("http://example.org", False),
        ("null", False),
        ("ftp://192.168.7.20:8642", False),
        ("", False),
    ],
)
def test_only_the_pages_own_origin_counts(origin, same):
    assert origin_allowed(origin, "192.168.7.20:8642") is same


def everything(app):
    """Every route, with its methods, its parts filled in."""
    for rule in app.url_map.iter_rules():
        path = rule.rule.replace("<machine>", MACHINE).replace("<path:filename>", "css/base.css")
        for method in sorted((rule.methods or set()) - {"OPTIONS", "HEAD"}):
            yield method, path


def good_body(path):
    if path == PRACTICE:
        return {"verb": "push", "args": {}}
    return {"id": str(uuid.uuid4()), "kind": "take", "payload": {"position": "front"}}


@pytest.mark.parametrize(
    "headers",
    [
        {"Host": "example.org"},
        {"Host": "localhost", "Origin": "http://example.org"},
        {"Host": "localhost", "Origin": "null"},
    ],
    ids=["foreign host", "foreign origin", "no origin to name"],
)
def test_no_route_serves_a_stranger(app, client, inbox, practice, headers):
    for method, path in everything(app):
        answer = client.open(path, method=method, headers=headers, json=good_body(path))
        assert answer.status_code == 403, (method, path)
        answer.close()
    assert inbox.got == []
    assert practice.did == []


def test_getting_changes_nothing(app, client, inbox, practice):
    asked = [path for method, path in everything(app) if method == "GET" and "stream" not in path]
    for path in [*asked, COMMANDS]:
        client.get(path, query_string=good_body(COMMANDS)).close()
    assert len(asked) > 8
    assert inbox.got == []
    assert practice.did == []


@pytest.mark.parametrize(
    "kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""]
)
def test_a_form_of_another_site_cannot_post(client, inbox, kind):
    body = b'{"id": "11111111-1111-4111-8111-111111111111", "kind": "take"}'
    answer = client.post(COMMANDS, data=body, content_type=kind)
    assert answer.status_code == 415
    assert inbox.got == []


def test_its_own_page_may_post(client, inbox):
    headers = {"Host": "192.168.7.20:8642", "Origin": "http://192.168.7.20:8642"}
    assert client.post(COMMANDS, json=good_body(COMMANDS), headers=headers).status_code == 200
    assert [command.kind for command in inbox.got] == ["take"]


def test_every_answer_is_sealed(app, client):
    for path in ("/", f"/machines/{MACHINE}/wall", "/healthz", "/static/css/base.css", "/nothing"):
        with client.get(path) as answer:
            policy = answer.headers["Content-Security-Policy"]
            assert "default-src 'none'" in policy
            assert "unsafe" not in policy
            assert "*" not in policy
            assert answer.headers["X-Content-Type-Options"] == "nosniff"
            assert answer.headers["X-Frame-Options"] == "DENY"
            assert "Access-Control-Allow-Origin" not in answer.headers
