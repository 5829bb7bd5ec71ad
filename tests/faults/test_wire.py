"""What happens on the gauge's cable, while an audit waits for it."""

import pytest

from tests.system.client import codes, faults

NOISE = bytes(range(0x80, 0x9B))


@pytest.fixture
def shop(shop):
    """A take gives up soon here."""
    shop.set("shop.toml", "timeout_s", "2.0")
    return shop


@pytest.fixture
def half_swept(person):
    person.start()
    person.take("front", 1.200)
    person.take("right", 1.160)
    return person


def finish_sweep(person):
    person.take("back", 1.120)
    person.take("left", 1.160)
    person.take("front", 1.200)


def test_a_cable_pulled_in_mid_sweep_is_said_recorded_and_survived(
    half_swept, gauge, client, daemon
):
    before = client.console()
    gauge.unplug()
    snapshot = client.until(codes)
    assert codes(snapshot) == ["unplugged"]
    assert "is the cable plugged in?" in faults(snapshot)[0]["say"]
    assert snapshot["pages"]["console"] == before
    client.until_live(lambda live: not live.fresh)
    refused = client.post("take", {"position": "back"})
    assert (refused.status, refused.body["code"]) == (422, "refused")
    assert "no samples since the reading was taken" in refused.body["reason"]
    gauge.plug()
    client.until(lambda snapshot: not codes(snapshot))
    # The fault goes from the screen before it is on record that the gauge is back.
    client.until(lambda _: daemon.events("GaugeBack"))
    (back,) = daemon.events("GaugeBack")
    after = client.until(lambda snapshot: snapshot["seq"] >= back.seq)["pages"]["console"]
    differs = {key for key in before if after[key] != before[key]}
    assert differs == {"actions", "circle"}
    old = [{**spot, "age": "was"} if spot["value"] else spot for spot in before["circle"]]
    assert after["circle"] == old
    # Its zero may be another now: what was read before cannot be taken back step by step.
    kinds = [action["kind"] for action in before["actions"] if action["kind"] != "undo"]
    assert [action["kind"] for action in after["actions"]] == kinds
    finish_sweep(half_swept)
    assert client.console()["step"] == "park"
    told = [e for e in daemon.events() if e.type.startswith("Gauge")]
    assert [e.type for e in told] == ["GaugeFault", "GaugeBack"]
    assert told[0].data["code"] == "unplugged"
    readings = [e.data["reading"] for e in daemon.events("ReadingTaken")]
    swept = [reading["position"] for reading in readings]
    assert swept == ["front", "right", "back", "left", "front"]
    assert len({reading["run"] for reading in readings}) == 2


def test_a_take_that_waits_while_the_cable_is_put_back_is_taken_from_the_new_opening(
    half_swept, gauge, client, daemon
):
    gauge.move_to(1.120)
    gauge.replug()
    client.until_live(lambda live: live.fresh and live.n < 50)
    client.do("take", {"position": "back"})
    runs = [e.data["reading"]["run"] for e in daemon.events("ReadingTaken")]
    assert runs[0] == runs[1] != runs[2]


def test_garbage_on_the_wire_is_said_and_makes_no_sample(half_swept, gauge, client, daemon):
    gauge.garble(NOISE)
    last = client.until_live(lambda live: not live.fresh)
    snapshot = client.until(codes)
    assert codes(snapshot) == ["garbled"]
    assert "wrong speed or framing?" in faults(snapshot)[0]["say"]
    assert client.post("take", {"position": "back"}).status == 422
    live = client.live()
    assert (live.n, live.text, live.fresh) == (last.n, "", False)
    assert daemon.alive
    gauge.garble(b"")
    client.until(lambda snapshot: not codes(snapshot))
    finish_sweep(half_swept)
    assert client.console()["step"] == "park"
    assert [e.data["code"] for e in daemon.events("GaugeFault")] == ["garbled"]
    assert len(daemon.events("GaugeBack")) == 1


def test_a_gauge_fallen_silent_takes_the_number_away(half_swept, gauge, client):
    gauge.mute(True)
    client.until_live(lambda live: not live.fresh)
    assert codes(client.until(codes)) == ["silent"]
    gauge.mute(False)
    client.until(lambda snapshot: not codes(snapshot))
    assert client.until_live(lambda live: live.fresh).text == "1.160"
