"""Live values: what is sent while it is live, and what takes it away."""

import json
from dataclasses import replace

import jsonschema
import pytest

from daq.service.messages.live import NONE, LiveValues
from daq.service.messages.published import message_schema
from daq.words import Stamp
from tests.service.messages.rig import LIVE, Shown

SECOND_NS = 1_000_000_000


class Ticking:
    def __init__(self):
        self.now_ns = 5 * SECOND_NS

    def mono_ns(self):
        return self.now_ns

    def stamp(self):
        return Stamp(self.now_ns, 1_700_000_000_250_000, "boot", utc_trusted=False)


class Told:
    """Live values at 2 Hz, and what was sent of them."""

    def __init__(self):
        self.clock, self.shown, self.practice, self.sent = Ticking(), Shown(), False, []
        self.values = LiveValues(
            self.shown, self.shown.readers, self.clock, "h", 2.0, lambda _: self.practice
        )

    def turn(self, after_s=0.5):
        """What the next turn sends, so much later."""
        self.clock.now_ns += round(after_s * SECOND_NS)
        self.sent.clear()
        self.values.turn(lambda topic, body: self.sent.append((topic, json.loads(body))))
        for _, message in self.sent:
            jsonschema.validate(message, message_schema())
        return [message for _, message in self.sent]


@pytest.fixture
def told():
    return Told()


def test_a_number_is_told_with_how_old_it_is_and_how_long_it_may_be_shown(told):
    (message,) = told.turn()
    assert told.sent[0][0] == "h/mill/live"
    assert message == {
        "v": 1, "kind": "live", "machine": "mill", "utc": "2023-11-14T22:13:20.250Z",
        "clock_set": False, "gauge": "arm", "state": "ok", "text": "0.012", "unit": "mm",
        "value_mm": 0.012, "age_ms": 40, "fresh": True, "fresh_for_ms": 960, "keyed": False,
    }  # fmt: skip


def test_no_oftener_than_was_asked_for_and_only_what_is_new(told):
    assert told.turn() and not told.turn()  # the same sample
    told.shown.now = replace(LIVE, n=8)
    assert told.turn(0.5) and not told.turn(0.4)
    told.shown.now = replace(LIVE, n=9)
    assert not told.turn(0.05) and told.turn(0.06)


def test_a_gauge_that_went_silent_takes_its_number_away_once(told):
    told.turn()
    told.shown.now = replace(LIVE, text="", unit="", value_mm=None, age_ms=4000, fresh=False)
    told.shown.say("silent")
    (gone,) = told.turn()
    assert (gone["value_mm"], gone["text"], gone["fresh"]) == (None, "", False)
    assert (gone["fresh_for_ms"], gone["state"]) == (0, "silent")
    assert told.turn() == []


def test_a_number_sent_by_a_key_is_never_live(told):
    told.shown.now = replace(LIVE, fresh=False, keyed=True, fresh_for_ms=None)
    (message,) = told.turn()
    assert message["keyed"] and not message["fresh"] and message["fresh_for_ms"] == 0
    assert (message["value_mm"], message["age_ms"]) == (0.012, 40)


def test_in_practice_the_number_goes_and_comes_back_with_the_next_audit(told):
    told.turn()
    told.practice = True
    (gone,) = told.turn()
    assert (gone["gauge"], gone["value_mm"], gone["fresh"]) == (NONE.gauge, None, False)
    told.shown.now = replace(LIVE, n=8)
    assert told.turn() == []
    told.practice = False
    assert [each["value_mm"] for each in told.turn()] == [0.012]


def test_whoever_comes_anew_is_told_all(told):
    told.turn()
    told.values.anew()
    assert told.turn()


def test_none_is_told_where_none_is_asked_for():
    told = Told()
    told.values = LiveValues(told.shown, {}, told.clock, "h", 0.0, lambda _: False)
    assert told.turn() == []
