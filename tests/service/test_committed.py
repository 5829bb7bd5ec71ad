"""Whoever follows the ledger is told after the commit; one that fails or hangs stops nobody."""

import sys
import threading
from dataclasses import fields

import pytest

from daq.screens import Console, WallView
from daq.service.hub import SCREENS
from daq.words import GaugeStatus
from tests.patience import PATIENCE_S, until
from tests.service.rig import MILL, Rig
from tests.words import en, told


class Follower:
    """Keeps what it was told; does `then` each time."""

    def __init__(self, then=lambda what: None):
        self.told = []
        self.then = then

    def __call__(self, what):
        self.told.append(what)
        self.then(what)


@pytest.fixture
def make(tmp_path, config, clock, sample):
    made = []

    def rig(**followers):
        made.append(Rig(tmp_path / "data", config, clock, sample, followers=followers))
        return made[-1]

    yield rig
    for each in made:
        if not each.closed:
            each.decider.close("over")


def opened(rig, command_id="c1"):
    return rig.post("open", {"reason": "practice"}, command_id).result(0)


def abandoned(rig, command_id="c2"):
    return rig.post("abandon", {"why": "x"}, command_id).result(0)


def test_it_is_told_the_events_as_read_back_and_the_state_before_and_after(make):
    follower = Follower()
    rig = make(other=follower)
    assert opened(rig).seqs == (2,)
    (what,) = follower.told
    (recorded,) = [event for event in rig.ledger.events() if event.machine]
    assert what.events == (recorded,)
    assert (what.before.machine(MILL).job, what.after.machine(MILL).job.id) == (
        None,
        recorded.audit,
    )
    assert (what.machines, what.head) == ({MILL}, rig.ledger.head)


def test_each_is_told_on_one_thread_of_its_own_which_ends_with_the_service(make):
    threads = []
    follower = Follower(lambda what: threads.append(threading.current_thread()))
    rig = make(other=follower)
    assert opened(rig).accepted and abandoned(rig).accepted
    assert threads[0] is threads[1] is not threading.current_thread()
    rig.decider.close("over")
    rig.closed = True
    threads[0].join(PATIENCE_S)
    assert not threads[0].is_alive()


def test_what_is_refused_is_told_to_nobody(make):
    follower = Follower()
    assert abandoned(make(other=follower)).code == "refused"
    assert follower.told == []


def test_one_that_fails_is_told_no_more_and_named(make, caplog):
    def fail(what):
        raise RuntimeError("a mistake")

    failing, other = Follower(fail), Follower()
    rig = make(failing=failing, other=other)
    assert opened(rig).accepted and abandoned(rig).accepted
    assert (len(failing.told), len(other.told)) == (1, 2)
    assert rig.hub.snapshot(MILL).seq == 3, "the screens go on"
    health = rig.hub.health()
    assert (health["ok"], health["dropped"]) == (False, ["failing"])
    assert "RuntimeError: a mistake" in caplog.text


def test_one_that_hangs_holds_up_one_press_and_no_other(make):
    held = threading.Event()
    hanging, other = Follower(lambda what: held.wait()), Follower()
    rig = make(hanging=hanging, other=other)
    assert opened(rig).accepted and abandoned(rig).accepted
    assert (len(hanging.told), len(other.told)) == (1, 2)
    assert rig.hub.health()["dropped"] == ["hanging"]
    held.set()
    until(lambda: "told-hanging" not in {each.name for each in threading.enumerate()})
    assert len(hanging.told) == 1


def test_screens_that_do_not_follow_say_so_and_show_no_number(make, monkeypatch):
    rig = make()
    rig.stream([1.0])
    rig.hub.on_sample(rig.sample(1, rig.clock.ns))
    assert rig.hub.live(MILL).fresh
    monkeypatch.setattr(rig.decider._screens, "_show", lambda machine: 1 / 0)
    assert opened(rig).accepted, "what is pressed is recorded all the same"
    assert en(rig.hub.snapshot(MILL).recording["say"]).startswith("SCREENS STAND STILL")
    assert not rig.hub.live(MILL).fresh
    assert rig.hub.health()["dropped"] == [SCREENS]


def counted(rig, monkeypatch):
    """The machines drawn from now on."""
    drawn, publish = [], rig.hub.publish
    monkeypatch.setattr(
        rig.hub,
        "publish",
        lambda shown, *more: (drawn.append(shown.machine), publish(shown, *more)),
    )
    return drawn


def test_what_both_pages_show_is_made_once(make, monkeypatch):
    """A page more than the other shows the rest."""
    rig, module, drawn = make(), sys.modules["daq.screens.wall"], []
    instruction = module.instruction
    monkeypatch.setattr(module, "instruction", lambda job: drawn.append(job) or instruction(job))
    assert opened(rig).accepted
    assert len(drawn) == 1
    wall, console = (told(rig.hub.snapshot(MILL).pages[page]) for page in ("wall", "console"))
    assert wall == {name: console[name] for name in wall}
    assert set(wall) == {each.name for each in fields(WallView)}
    assert set(console) == {each.name for each in fields(Console)}


@pytest.fixture
def two(config, make):
    """Two machines, each with a gauge of its own."""
    near = (config / "gauges" / "practice.toml").read_text(encoding="utf-8")
    far = near.replace("P-0417", "P-0418").replace("ttys/practice", "ttys/far")
    (config / "gauges" / "far.toml").write_text(far, encoding="utf-8")
    mill = (config / "machines" / "practice-mill.toml").read_text(encoding="utf-8")
    other = mill.replace('gauge = "practice"', 'gauge = "far"')
    (config / "machines" / "other-mill.toml").write_text(other, encoding="utf-8")
    return make()


def test_only_the_machine_that_was_touched_is_drawn_anew(two, monkeypatch):
    drawn = counted(two, monkeypatch)
    assert opened(two).accepted
    assert drawn == [MILL]
    two.decider.gauge_status(GaugeStatus("far", "silent", "It is silent.", "r", 0, 0, 0))
    assert drawn == [MILL, "other-mill"]
    assert two.hub.snapshot(MILL).faults == ()
    two.hub.record(False, "NOT RECORDED: x")
    assert drawn == [MILL, "other-mill"]
    for machine in (MILL, "other-mill"):
        assert two.hub.snapshot(machine).recording == {"ok": False, "say": "NOT RECORDED: x"}
