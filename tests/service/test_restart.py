"""A service that starts with an audit open records that it was away, and shows it at once."""

import pytest

from daq.audit.apply import fold
from daq.gauges.ring import Ring
from daq.ledger.errors import NotRecorded
from daq.service.files import load
from daq.service.hub import Hub, Served
from daq.service.shopfloor import Shopfloor
from daq.service.wired import wired
from daq.words import said
from tests.cards import READY
from tests.service.rig import MILL, Rig
from tests.words import told

SPOTS = (("front", 1.2), ("right", 1.16), ("back", 1.12), ("left", 1.16), ("front", 1.2))


@pytest.fixture
def rig(tmp_path, config, clock, sample):
    """A practice audit, parked and told where to stop."""
    made = Rig(tmp_path / "data", config, clock, sample)
    made.post("open", {"reason": "practice"}, "open")
    made.post("readied", READY, "readied")
    made.post("warmed", {"warm": True}, "warmed")
    made.post("prepared", {"serial_number": "P-0417"}, "prepared")
    taken(made, {}, 0.1, "free")
    assert made.push(0.1).accepted
    for n, (place, value) in enumerate((*SPOTS, SPOTS[0])):
        taken(made, {"position": place}, value, f"take-{n}")
    assert told(made.hub.snapshot(MILL).pages["wall"])["stop_at"] is not None
    yield made
    made.ledger.close()


def taken(rig, payload, value, command_id):
    rig.stream([value] * 3)
    reply = rig.post("take", payload, command_id)
    rig.stream([value] * 60)
    assert reply.result(0).accepted, reply.result(0).reason


def started_again(rig, config):
    """Another service on the same ledger, as after a power cut."""
    hub = Hub((Served(MILL, "Mill", "practice", 1000),), rig.clock.mono_ns)
    state = fold(rig.ledger.events())
    shop = load(config)
    floor = Shopfloor(shop.audit_setup, {"practice": Ring()})
    return hub, wired(rig.ledger, state, hub, rig.clock, "test", shop.used_gauges, floor, {})


def test_the_first_screen_after_a_restart_has_no_stop_at(rig, config):
    hub, _ = started_again(rig, config)
    wall = told(hub.snapshot(MILL).pages["wall"])
    assert wall["stop_at"] is None and "is the lock still on" in wall["title"]
    assert list(rig.ledger.events())[-1].type == "Restarted"


def test_neither_has_it_while_the_disk_is_full_and_no_press_goes_by_it(rig, config, monkeypatch):
    def full(*_):
        raise NotRecorded(said("disk-is-full"))

    append, rows = rig.ledger.append, rig.ledger.seq
    monkeypatch.setattr(rig.ledger, "append", full)
    hub, decider = started_again(rig, config)
    wall = told(hub.snapshot(MILL).pages["wall"])
    assert wall["stop_at"] is None and "is the lock still on" in wall["title"]
    rig.hub, rig.decider = hub, decider
    assert rig.post("loosened", {}, "late").result(0).code == "not-recorded"
    assert rig.ledger.seq == rows
    monkeypatch.setattr(rig.ledger, "append", append)
    decider.tick()
    assert list(rig.ledger.events())[-1].type == "Restarted"
    assert "is the lock still on" in told(hub.snapshot(MILL).pages["wall"])["title"]
