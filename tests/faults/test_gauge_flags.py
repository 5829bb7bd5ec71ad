"""What a gauge says of itself in its frames: some of it takes the number away, some does not."""

import pytest

from tests.progress import besides
from tests.system.client import codes, faults
from tests.system.daemon import headsweep

PATTERN = r"'(?P<sign>[+-])(?P<value>\d{3}\.\d{3}) (?P<unit>mm)(?P<status>[A-Z]?)'"
FLAGS = '[frame.flags]\nB = "weak-battery"\nO = "over-travel"\nE = "error"\n'
NO_VALUE = (
    ("O", "over-travel", "its contact is beyond its travel: bring the gauge closer"),
    ("E", "gauge-error", "the gauge itself reports an error: look at its face"),
)


@pytest.fixture
def shop(shop):
    """The practice gauge says how it is in a letter behind its unit; as a rule there is none."""
    shop.set("shop.toml", "timeout_s", "2.0")
    shop.set("gauges/practice.toml", "pattern", PATTERN)
    path = shop.config / "gauges" / "practice.toml"
    path.write_text(path.read_text(encoding="utf-8") + FLAGS, encoding="utf-8")
    return shop


@pytest.fixture
def begun(person):
    person.start()
    person.take("front", 1.200)
    return person


def test_a_weak_battery_is_told_and_leaves_the_number(begun, gauge, client, daemon):
    gauge.garble(b"+001.160 mmB\r\n")
    (said,) = faults(client.until(codes))
    assert said["kind"] == "warning"
    assert "its battery is weak: change it before the next job" in said["say"]
    client.do("take", {"position": "right"})
    live = client.until_live(lambda live: live.text == "1.160")
    assert live.fresh
    assert daemon.events("GaugeFault") == []
    done = headsweep("ledger", "recheck", "--data", daemon.shop.data)
    assert (done.returncode, besides(done.stderr)) == (0, "")


def test_a_number_that_means_nothing_is_none(begun, gauge, client, daemon):
    for letter, code, say in NO_VALUE:
        gauge.garble(f"+012.700 mm{letter}\r\n".encode())
        (said,) = faults(client.until(codes))
        assert said["code"] == code
        assert say in said["say"]
        assert client.live().text == "", "of before the fault nothing is shown as live"
        refused = client.post("take", {"position": "right"})
        assert refused.status == 422
        gauge.garble(b"")
        client.until(lambda snapshot: not codes(snapshot))
    begun.take("right", 1.160)
    assert [e.data["code"] for e in daemon.events("GaugeFault")] == [each[1] for each in NO_VALUE]
    assert len(daemon.events("GaugeBack")) == len(NO_VALUE)
