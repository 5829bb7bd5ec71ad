"""The talk table: its three modes, and what does not belong together."""

import pytest

from daq import settings
from daq.gauges.talk import Talk
from daq.settings import SettingsError
from tests.words import faults


def built(**table):
    return settings.build(Talk, table, "dial.toml", under="talk")


@pytest.mark.parametrize(("interval", "stale"), [(0.02, 1.0), (0.3, 1.0), (2.0, 6.0)])
def test_a_streaming_gauge_is_stale_after_three_intervals_or_a_second(interval, stale):
    assert Talk(interval).stale_s == pytest.approx(stale)


def test_asks():
    made = built(mode="asks", interval="200 ms", request=r"R\r", timeout="0.3 s", unanswered=5)
    assert (made.asked, made.timeout_s, made.most_missing) == (b"R\r", 0.3, 5)
    assert made.stale_s == 1.0


def test_asks_by_default():
    made = built(mode="asks", interval="2 s", request_hex="02 52 0D")
    assert (made.asked, made.timeout_s, made.most_missing) == (b"\x02R\r", 0.5, 3)
    assert made.stale_s == pytest.approx(6.0)


def test_key_is_never_stale():
    made = built(mode="key")
    assert made.stale_s is None
    assert made.asked == b""


@pytest.mark.parametrize(
    ("text", "sent"),
    [
        ("?", b"?"),
        ("\r", b"\r"),  # TOML's own escapes, in "double quotes"
        (r"\x02R\x0D", b"\x02R\r"),
        (r"\r\n\t\0\\", b"\r\n\t\0\\"),
        (r"\\r", b"\\r"),
        ("\u00ff", b"\xff"),
    ],
)
def test_a_request_in_text(text, sent):
    assert built(mode="asks", interval="1 s", request=text).asked == sent


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ({}, 'found no interval with mode = "streams"; allowed: the time from one frame to'),
        ({"mode": "asks", "request": "R"}, 'found no interval with mode = "asks"'),
        (
            {"mode": "key", "interval": "1 s"},
            'found interval with mode = "key"; allowed: with mode = "streams" or "asks"',
        ),
        (
            {"interval": "1 s", "request": "R"},
            'found request with mode = "streams"; allowed: with mode = "asks"',
        ),
        ({"mode": "key", "timeout": "1 s"}, 'found timeout with mode = "key"'),
        ({"mode": "key", "unanswered": 2}, 'found unanswered with mode = "key"'),
        ({"mode": "asks", "interval": "1 s"}, "found no request; allowed: either request"),
        (
            {"mode": "asks", "interval": "1 s", "request": "R", "request_hex": "52"},
            "found request and request_hex; allowed: either request",
        ),
        ({"mode": "asks", "interval": "1 s", "request": ""}, "found a request of 0 bytes"),
        ({"mode": "asks", "interval": "1 s", "request": "R" * 65}, "found a request of 65 bytes"),
        (
            {"mode": "asks", "interval": "1 s", "request": r"R\q"},
            r"found '\\q' in request; allowed: \r, \n, \t, \0, \\ and \xHH with two",
        ),
        ({"mode": "asks", "interval": "1 s", "request": "R\\"}, r"found '\\' in request"),
        ({"mode": "asks", "interval": "1 s", "request": r"\x2"}, r"found '\\x' in request"),
        ({"mode": "asks", "interval": "1 s", "request": "€"}, "found '€' in request"),
        (
            {"mode": "asks", "interval": "1 s", "request_hex": "5"},
            "found request_hex '5'; allowed: pairs of hexadecimal digits",
        ),
        (
            {"mode": "asks", "interval": "0.1 s", "request": "R", "timeout": "2 s"},
            "found timeout 2 s; allowed: at most 1 s",
        ),
    ],
)
def test_what_does_not_belong_together_is_told(table, words):
    with pytest.raises(SettingsError) as caught:
        built(**table)
    (problem,) = faults(caught.value)
    assert problem.startswith(f"dial.toml: talk: {words}")


def test_a_talk_can_be_put_into_an_event_and_taken_out():
    made = built(mode="asks", interval="200 ms", request=r"\x02R")
    back = settings.build(Talk, settings.plain(made), "event", quantities="plain")
    assert back == made
