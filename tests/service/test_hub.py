import dataclasses
import threading

import pytest

from daq.audit.views import Aim
from daq.service.hub import Hub, Served
from daq.words import Snapshot
from tests.patience import PATIENCE_S

MILL = Served("mill", "Mill", "practice", 1000)


@pytest.fixture
def hub(clock):
    made = Hub((MILL, Served("other", "Other", "elsewhere", 1000)), clock.mono_ns)
    for key in ("mill", "other"):
        made.publish(snapshot(key), None, {"mill": "practice", "other": "elsewhere"}[key])
    return made


def snapshot(machine, seq=1):
    return Snapshot(machine, seq, "", {}, (), {"ok": True, "say": ""})


def test_before_the_first_sample_nothing_is_live(hub):
    live = hub.live("mill")
    assert (live.fresh, live.text, live.to_go) == (False, "", None)


def test_a_sample_is_live_until_it_is_old(hub, clock, sample):
    hub.on_sample(sample(1, clock.ns))
    clock.ns += 1_000_000_000
    assert (hub.live("mill").fresh, hub.live("mill").age_ms) == (True, 1000)
    clock.ns += 1_000_000
    assert not hub.live("mill").fresh


def test_the_distance_to_the_stop_at_is_never_shown_for_an_old_sample(hub, clock, sample):
    hub.publish(snapshot("mill"), Aim("practice", 0.9, "mm", 3), "practice")
    hub.on_sample(sample(1, clock.ns, value=1.0))
    assert hub.live("mill").to_go == "-0.100"
    assert hub.live("mill").to_go_mm == pytest.approx(-0.1)
    clock.ns += 2_000_000_000
    assert hub.live("mill").to_go is None


def test_the_live_number_is_the_gauges_face_without_the_wires_padding(hub, clock, sample):
    hub.on_sample(dataclasses.replace(sample(1, clock.ns, value=-1.5), text="-001.500"))
    assert (hub.live("mill").text, hub.live("mill").unit) == ("-1.500", "mm")
    inch = dataclasses.replace(sample(2, clock.ns, value=2.54), text="+00.10000", unit="in")
    hub.on_sample(inch)
    assert (hub.live("mill").text, hub.live("mill").unit) == ("0.10000", "in")


def test_no_distance_is_shown_for_another_unit_or_another_gauge(hub, clock, sample):
    hub.publish(snapshot("mill"), Aim("practice", 0.9, "mm", 3), "practice")
    hub.on_sample(dataclasses.replace(sample(1, clock.ns), unit="in"))
    assert hub.live("mill").to_go is None
    hub.publish(snapshot("mill"), Aim("practice", 0.9, "mm", 3), "elsewhere")
    hub.on_sample(sample(1, clock.ns, gauge="elsewhere"))
    assert (hub.live("mill").fresh, hub.live("mill").to_go) == (True, None)


def test_a_slot_holds_the_latest_and_no_queue(hub, clock, sample):
    with hub.subscribe("mill") as slot:
        live, first = slot.wait(0.1)
        assert live is None and first.seq == 1
        for n in range(1, 6):
            hub.on_sample(sample(n, clock.ns))
        hub.publish(snapshot("mill", seq=2), None, "practice")
        live, changed = slot.wait(0.1)
        assert (live.n, changed.seq) == (5, 2)
        assert slot.wait(0.01) == (None, None)


def test_only_the_machines_own_gauge_wakes_its_screens(hub, clock, sample):
    with hub.subscribe("other") as slot:
        slot.wait(0.1)
        hub.on_sample(sample(1, clock.ns))
        assert slot.wait(0.01) == (None, None)


def test_a_waiting_screen_is_woken(hub, clock, sample):
    found = []
    with hub.subscribe("mill") as slot:
        slot.wait(0.1)
        waiting = threading.Thread(target=lambda: found.append(slot.wait(PATIENCE_S)))
        waiting.start()
        hub.on_sample(sample(7, clock.ns))
        waiting.join(PATIENCE_S)
    assert found[0][0].n == 7


def test_health_notices_a_desk_that_stands_still(hub, clock):
    hub.beat()
    assert hub.health()["ok"]
    clock.ns += 6_000_000_000
    assert not hub.health()["ok"]


def test_what_a_key_sent_is_never_live_and_keeps_its_distance(clock, sample):
    hub = Hub((dataclasses.replace(MILL, fresh_ms=None),), clock.mono_ns)
    hub.publish(snapshot("mill"), Aim("practice", 0.9, "mm", 3), "practice")
    assert (hub.live("mill").keyed, hub.live("mill").text) == (True, "")
    hub.on_sample(sample(1, clock.ns, value=1.0))
    live = hub.live("mill")
    assert (live.fresh, live.keyed, live.text, live.to_go) == (False, True, "1.000", "-0.100")


def test_what_is_said_of_a_press_elsewhere_wakes_the_screens_and_goes(hub):
    with hub.subscribe("mill") as slot:
        slot.wait(0.1)
        hub.tell("mill", "refused", "Not yet.")
        assert slot.wait(0.1)[1].said == {"outcome": "refused", "say": "Not yet."}
        hub.tell("mill", "ok", "")
        assert slot.wait(0.1)[1].said is None
        hub.tell("mill", "ok", "")
        assert slot.wait(0.01) == (None, None)


def test_a_listener_hears_its_own_machines_gauge(hub, clock, sample):
    heard = []
    hub.listen("mill", heard.append)
    for gauge in ("practice", "elsewhere"):
        hub.on_sample(sample(1, clock.ns, gauge=gauge))
    assert [one.gauge for one in heard] == ["practice"]
