"""An audit that rests with its arm out lets its gauge go; taken up it asks for it again."""

import pytest

from daq.audit.anytime.gauge import condition
from tests.audit.conftest import Bench, setup_of
from tests.audit.test_aside import EVERY
from tests.audit.test_restart import begun
from tests.words import en


def elsewhere(b: Bench) -> Bench:
    """Another machine of the same shop, whose file names the same gauge."""
    other = Bench(setup_of())
    other.machine, other.shop = "lathe", b.shop
    return other


def refused_there(b: Bench) -> str:
    return elsewhere(b).refused("open", {"reason": "scheduled"}).code


def in_use_elsewhere(b: Bench) -> Bench:
    """An audit is open there with this gauge, which both machines know of."""
    other = elsewhere(b)
    other.do("open", {"reason": "scheduled"})
    b.shop = other.shop
    return other


def resting(step: str, left: str = "safe") -> Bench:
    b = begun(step).bench
    b.do("put-aside", {"why": "a hot job"})
    if b.job.step == "put-aside":
        assert refused_there(b) == "gauge-in-use"
        b.do("rest", {"left": left})
    return b


@pytest.mark.parametrize("step", EVERY)
def test_put_aside_at_every_step_its_gauge_may_be_used_elsewhere(step):
    b = resting(step)
    other = in_use_elsewhere(b)
    assert b.shop.bound("arm").machine == "lathe"
    before = b.console
    said = b.refused("take-up")
    assert (said.code, said.of["audit"]) == ("gauge-in-use", other.job.short)
    assert "Mill" in en(said) and b.console == before
    other.do("abandon", {"why": "done"})
    b.shop = other.shop
    b.do("take-up")
    assert refused_there(b) == "gauge-in-use"
    b.powered()
    assert b.job.step == "prepare"
    asked = next(a for a in b.console["actions"] if a["kind"] == "prepared")
    assert asked["fields"][0]["name"] == "serial_number"
    assert b.refused("prepared", {"serial_number": "P-2"}).code == "other-gauge"
    b.do("prepared", {"serial_number": "P-1"})
    assert b.job.step == "touch-free"


def test_left_with_the_arm_in_the_spindle_it_keeps_its_gauge():
    b = resting("move", "as-is")
    assert b.job.step == "unsafe" and refused_there(b) == "gauge-in-use"
    b.do("rest", {"left": "safe"})
    other = in_use_elsewhere(b)
    assert b.refused("take-up").of["audit"] == other.job.short


def test_left_with_bolts_loose_and_the_arm_out_it_lets_it_go():
    b = begun("as-found").bench
    b.do("off-scale", {"position": "back"}, [0.0] * 10)
    b.do("arm-out")
    b.do("put-aside", {"why": "a hot job"})
    b.do("rest", {"left": "as-is"})
    assert b.job.loose or b.console["title"].startswith("NOT SAFE")
    in_use_elsewhere(b)
    assert b.refused("take-up").code == "gauge-in-use"
    b.do("rest", {"left": "safe"})
    assert b.job.step == "aside"


def test_two_may_rest_and_the_first_taken_up_has_it():
    b = resting("park")
    other = in_use_elsewhere(b)
    other.do("put-aside", {"why": "a hot job there too"})
    assert other.job.step == "aside" and other.shop.bound("arm") is None
    b.shop = other.shop
    b.do("take-up")
    other.shop = b.shop
    assert other.refused("take-up").of["audit"] == b.job.short


def test_what_befalls_it_elsewhere_is_nothing_to_a_resting_audit():
    b = resting("park")
    in_use_elsewhere(b)
    b.unit = "in"
    assert condition(b.job, b.samples([1.0] * 20)) is None
    b.unit = "mm"
    for mm in (0.0, 50.0):
        assert condition(b.job, b.samples([mm] * 200)) is None
