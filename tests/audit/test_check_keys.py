"""What only squaring a head asks for is refused in another check, and the other way round."""

import pytest

from tests.audit.conftest import Bench
from tests.audit.stations import BAD, FREE_MM, GOOD, TABLES, offering, opened, press, read
from tests.words import en

NAMES = {"runout": "Spindle run-out", "travel": "Table along its travel"}


def told(refused, key, check):
    assert refused.code == "only-squaring"
    say = en(refused)
    assert say.startswith(f"{key}: ") and NAMES[check] in say and "squar" in say


@pytest.mark.parametrize("check", TABLES)
@pytest.mark.parametrize(
    ("key", "value"), [("ram_moved", True), ("ram_angle", "10 deg"), ("cracked", True)]
)
def test_the_card_of_a_check_asks_nothing_of_the_head(check, key, value):
    b = Bench(offering())
    b.do("open", {"reason": "scheduled", "check": check})
    told(b.refused("prepared", {"serial_number": "P-1", key: value}), key, check)
    b.prepare(free=FREE_MM)
    read(b, GOOD[check][:2])
    b.do("restarted")
    told(b.refused("prepared", {"serial_number": "P-1", key: value}), key, check)
    assert not b.job.head.ram_moved and not b.job.loose


@pytest.mark.parametrize("check", TABLES)
@pytest.mark.parametrize("key", ["as_found", "as_found_why", "as_left", "as_left_why"])
def test_a_signature_chooses_no_sweep(check, key):
    b = opened(Bench(offering()), check)
    read(b, GOOD[check])
    b.do("cleared")
    told(b.refused("sign", {"done_by": "T", key: "2"}), key, check)
    assert b.do("sign", {"done_by": "T"})[-1].verdict == "conforms"


@pytest.mark.parametrize("check", TABLES)
def test_nothing_is_turned_half_round_for_another_sweep(check):
    b = opened(Bench(offering()), check)
    read(b, BAD[check])
    for what in ("ring", "arm"):
        told(b.refused("again", {"turned": what}), "turned", check)
    assert all(not a["payload"].get("turned") for a in b.console["actions"])


@pytest.mark.parametrize("check", TABLES)
def test_a_station_is_no_place_of_the_circle(check):
    b = opened(Bench(offering()), check)
    told(b.refused("take", {"position": "front"}, [1.0] * 10), "position", check)
    both = {"position": "front", **press(b)["payload"]}
    told(b.refused("take", both, [1.0] * 10), "position", check)
    unsaid = b.refused("take", {}, [1.0] * 10)
    assert unsaid.code == "other-station" and b.console["stations"][0]["say"] in en(unsaid)


def test_a_place_of_the_circle_is_no_station():
    b = Bench(offering()).start()
    for payload in ({"station": "0"}, {"station": "0", "position": "front"}):
        say = en(b.refused("take", payload, [1.0] * 10))
        assert say.startswith("station: found '0'") and "squared" in say


@pytest.mark.parametrize("check", TABLES)
@pytest.mark.parametrize(
    "kind", ["off-scale", "closer", "stop-here", "loosened", "stopped", "tightened", "bolt"]
)
def test_no_command_of_the_head_is_taken(check, kind):
    b = Bench(offering())
    for step in (
        lambda: b.do("open", {"reason": "scheduled", "check": check}),
        lambda: b.do("prepared", {"serial_number": "P-1"}),
        lambda: b.do("take", {}, [FREE_MM] * 10),
        lambda: b.do("pushed", {}, [FREE_MM, FREE_MM + 0.8, FREE_MM + 1.1, FREE_MM]),
        lambda: read(b, GOOD[check]),
        lambda: b.do("cleared"),
    ):
        step()
        assert b.refused(kind, {}, [1.0] * 10).code == "not-this-step"
