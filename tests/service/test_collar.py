"""Switches of a collar that the arm passes by itself: kept, shown, and on record with the sweep."""

import pytest

from daq.audit.recompute import rechecked
from daq.service.collars import MOST, Collars
from daq.service.files import load
from daq.service.sources.pins import SOURCE, PinOptions
from daq.words import Passed
from tests import pinchip
from tests.audit.slowly import THERE_AND_BACK, edges, shown
from tests.patience import until
from tests.service.console import MILL, Console, action, gauge
from tests.service.rig import Rig, prepared
from tests.service.test_files import problems

FOUR = PinOptions(front=5, right=6, back=13, left=19, passed=True)
S = 10**9


@pytest.fixture
def chip(tmp_path):
    with pinchip.kernel(tmp_path) as kernel:
        yield kernel.chip()


def test_what_the_arm_passes_takes_nothing_is_kept_and_shown(clock, chip):
    with Console(clock) as console:
        console.show([action("slow-turn", primary=True), action("take", {"position": "front"})])
        running = SOURCE.start(FOUR, console.switchboard)
        try:
            chip.until_held(5)
            for n, pin in enumerate((5, 6, 13)):
                chip.drive(pin, 0, at_ns=(3 * n + 1) * S)
                chip.drive(pin, None, at_ns=(3 * n + 2) * S)
            collars = console.switchboard._collars
            until(lambda: len(collars.since(MILL, 0)) == 6)
            until(lambda: console.said == {"outcome": "wait", "say": "At back: 2 of 8"})
            assert collars.since(MILL, 7 * S) == (
                Passed("back", True, 7 * S),
                Passed("back", False, 8 * S),
            )
            chip.drive(19, 0, at_ns=8 * S + S // 5)
            until(lambda: console.said["say"] == "Slower")
        finally:
            running.stop()
        assert console.inbox.got == []


def test_only_so_many_edges_are_kept():
    collars = Collars()
    for n in range(MOST + 5):
        collars.note("mill", Passed("front", True, n))
    assert [each.at_ns for each in collars.since("mill", 0)] == list(range(5, MOST + 5))
    assert collars.since("another", 0) == ()


@pytest.mark.parametrize(
    ("options", "problem"),
    [
        ({"press": 1, "passed": True}, "found passed without front, right, back, left"),
        ({"mark": 1, "front": 2, "right": 3, "back": 4, "left": 5}, "found mark beside front"),
    ],
)
def test_switches_that_make_no_collar_are_refused(options, problem):
    with pytest.raises(ValueError, match=problem):
        PinOptions(**options)


def test_a_gauge_that_does_not_stream_is_refused():
    keyed = gauge(mode="key")
    with pytest.raises(ValueError, match="allowed: one that streams"):
        SOURCE.check(PinOptions(mark=4), keyed)
    SOURCE.check(PinOptions(press=4), keyed)
    SOURCE.check(PinOptions(mark=4), gauge())


PINS = """
[[takes]]
machine = "practice-mill"
source = "pins"
"""
COLLAR = PINS + "front = 5\nright = 6\nback = 13\nleft = 19\npassed = true\n"


@pytest.fixture
def slow(config):
    """The shop's files with a slow turn in the machine's, and these switches in shop.toml."""
    machine = config / "machines" / "practice-mill.toml"
    machine.write_text(f'slow_turn = "four"\n{machine.read_text("utf-8")}', "utf-8")

    def make(takes):
        shop = config / "shop.toml"
        shop.write_text(shop.read_text("utf-8") + takes, "utf-8")
        return config

    return make


@pytest.mark.parametrize("takes", ["", PINS + "press = 4\n", PINS + "mark = 4\n"])
def test_a_slow_turn_without_its_switches_is_refused_by_file_and_key(slow, takes):
    (said,) = problems(slow(takes))
    assert "practice-mill.toml: slow_turn: found 'four' and no switches for it" in said


def test_with_its_switches_it_loads(slow):
    assert load(slow(COLLAR)).audit_setup(Rig.machine).machine.slow_turn == "four"


def test_the_service_brings_what_was_passed_and_the_record_keeps_it(slow, tmp_path, clock, sample):
    rig = Rig(tmp_path / "data", slow(COLLAR), clock, sample)
    assert prepared(rig).accepted
    rig.stream([0.0] * 10)
    rig.post("take", {}, "free")
    rig.stream([0.0] * 60)
    assert rig.push(0.0).accepted
    refused = rig.post("slow-turn", {}, "s1").result(0)
    assert (refused.reason.code, refused.reason.of["why"].code) == (
        "slow-turn-not",
        "round-no-switch",
    )
    for edge in edges(clock.ns, THERE_AND_BACK):
        rig.collars.note(rig.machine, edge)
    rig.stream(shown(0.06, -0.04))
    assert rig.post("slow-turn", {}, "s2").result(0).accepted
    events = list(rig.ledger.events())
    done = events[-1]
    assert done.type == "SweepDone" and done.data["usable"]
    assert done.cause["passed"][0] == ["front", True, done.cause["passed"][0][2]]
    assert len(done.cause["passed"]) == 18
    assert all(each is None for each in rechecked(events, rig.ledger.chunk))
    rig.decider.close(None)
