"""Who a request is counted under: the connection's own address, unless a named proxy speaks."""

import pytest
from flask import g

from tests.web.conftest import FakeHub, FakeInbox
from web.app import create_app
from web.client import SCREEN, address, behind, by_https, who

NAMED = frozenset({"127.0.0.1", "192.168.7.2"})


@pytest.mark.parametrize(
    ("peer", "forwarded", "found"),
    [
        ("192.168.7.30", "", "192.168.7.30"),
        ("192.168.7.30", "10.0.0.1", "192.168.7.30"),
        ("127.0.0.1", "", "127.0.0.1"),
        ("127.0.0.1", "192.168.7.30", "192.168.7.30"),
        ("127.0.0.1", "10.0.0.1, 192.168.7.30", "192.168.7.30"),
        ("127.0.0.1", "192.168.7.30, 192.168.7.2", "192.168.7.30"),
        ("127.0.0.1", "10.0.0.1,192.168.7.30 ,192.168.7.2", "192.168.7.30"),
        ("127.0.0.1", "somebody, 192.168.7.2", "192.168.7.2"),
        ("127.0.0.1", "192.168.7.30, ", "127.0.0.1"),
        ("127.0.0.1", "FE80:0::1", "fe80::1"),
    ],
)
def test_only_a_named_proxy_is_believed(peer, forwarded, found):
    assert behind(peer, forwarded, NAMED) == found


@pytest.fixture
def proxied():
    return create_app(FakeHub(), FakeInbox(), proxies=("127.0.0.1",))


def test_a_request_is_counted_under_whom_it_comes_from(proxied):
    said = {"X-Forwarded-For": "192.168.7.30", "X-Forwarded-Proto": "https"}
    with proxied.test_request_context(headers=said, environ_base={"REMOTE_ADDR": "127.0.0.1"}):
        assert (address(), who(), by_https()) == ("192.168.7.30", "192.168.7.30", True)
        setattr(g, SCREEN, "3f2a")
        assert who() == "screen 3f2a"
    with proxied.test_request_context(headers=said, environ_base={"REMOTE_ADDR": "192.168.7.9"}):
        assert (address(), by_https()) == ("192.168.7.9", False)


def test_without_a_named_proxy_nobody_is_believed(app):
    said = {"X-Forwarded-For": "192.168.7.30", "X-Forwarded-Proto": "https"}
    with app.test_request_context(headers=said, environ_base={"REMOTE_ADDR": "127.0.0.1"}):
        assert (who(), by_https()) == ("127.0.0.1", False)
