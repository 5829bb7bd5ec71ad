"""What goes out of the shop: as its file asks, and nothing is forgotten while that is amiss."""

import json
from dataclasses import replace

import pytest

from daq.audit.state import Shop
from daq.ledger.store import Ledger
from daq.service.clock import SystemClock
from daq.service.files import load
from daq.service.messages.config import Mqtt
from daq.service.outs import outs, ways


@pytest.fixture
def data(tmp_path):
    """A ledger, of which a row is owed each way."""
    ledger = Ledger.open(tmp_path, stamp=SystemClock().stamp())
    owed = {"ledger": ledger.uuid, "seen": 1, "rows": [1]}
    ledger.close()
    for way in ("folder", "broker"):
        (tmp_path / f"owed-{way}.json").write_text(json.dumps(owed), "utf-8")
    return tmp_path


def going(files, data):
    return outs(files, data, None, "0", None, {}, Shop(), SystemClock())


def asked(config, **more):
    files = load(config)
    return replace(files, shop=replace(files.shop, **more))


def test_only_what_the_file_asks_for_goes_and_what_it_asks_no_more_is_owed_no_more(config, data):
    found = going(asked(config), data)
    assert [each.name for each in found] == ["deliveries"] and ways(found) == {}
    assert not [*data.glob("owed-*")]


def test_a_broker_that_is_asked_for_is_a_way_out_like_any_other(config, data):
    found = going(asked(config, mqtt=Mqtt("broker.local")), data)
    assert [each.name for each in found] == ["deliveries", "messages"]
    assert (ways(found)["broker"].to, ways(found)["broker"].owed) == ("broker.local:1883", 1)
    assert {name for each in found for name in each.turns} == {"mqtt", "to-broker"}


def test_while_the_shops_file_is_amiss_nothing_goes_and_all_stays_owed(config, data):
    assert going(replace(asked(config), unsure=True), data) == ()
    assert len([*data.glob("owed-*")]) == 2
