"""While there is still power, then locked out, by the kind of machine: practice, no source."""

from dataclasses import replace

import pytest

from daq.audit.apply import fold
from daq.audit.codec import decode
from daq.audit.reasons import REASONS
from daq.audit.recompute import differences
from daq.audit.stages import STAGES
from daq.checks.sweep.doubts import Doubts
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.stations import GOOD, offering, opened, read
from tests.cards import READY


def at_work(**kind) -> Machinist:
    return Machinist(Bench(changed(setup_of(), machine=kind)), RigidHead(mill(), 0.0, 0.0))


def walked(m, until="touch-free"):
    """The console at each step up to this one, by step."""
    m.bench.do("open", {"reason": "scheduled"})
    seen = {}
    while m.bench.job.step != until:
        seen[m.bench.job.step] = m.bench.console
        m.step()
    return seen


@pytest.mark.parametrize("z", ["knee", "quill", "powered"])
@pytest.mark.parametrize("drawbar", ["hand", "power"])
def test_what_needs_power_is_done_in_its_order_before_it_is_locked_out(z, drawbar):
    m = at_work(z=z, drawbar=drawbar)
    arm, height = ["power-arm"] * (drawbar == "power"), ["power-height"] * (z == "powered")
    assert list(walked(m)) == ["table", "power", *arm, *height, "prepare"]
    assert fold(m.bench.events) == m.bench.shop
    assert not list(differences(m.bench.events, m.bench.chunks.__getitem__))


def test_the_arm_is_known_to_be_in_from_the_power_drawbar_on():
    m = at_work(drawbar="power")
    m.bench.do("open", {"reason": "scheduled"})
    m.work("prepare")
    m.bench.do("abandon", {"why": "a hot job"})
    assert m.bench.console["title"] == "NOT SAFE TO RUN: arm in the spindle."


@pytest.mark.parametrize(
    ("kind", "says"),
    [
        ({}, "Isolate the machine, lock it out, try to start it, then switch back to off."),
        (
            {"air": True, "people": 2},
            "Isolate the machine, vent its air, lock it out with a lock each, "
            "try to start it, then switch back to off.",
        ),
        ({"brake": "spring"}, "Brake holds with power off? Use its hand release as the manual"),
        ({"brake": "hand"}, "Hand brake off"),
    ],
    ids=["plain", "air, two people", "spring brake", "hand brake"],
)
def test_locking_out_is_told_in_the_machines_words(kind, says):
    cautions = walked(at_work(**kind))["prepare"]["cautions"]
    assert any(says in caution for caution in cautions)
    assert cautions[-1].startswith("The machine's manual")


@pytest.mark.parametrize(
    ("z", "down", "again"),
    [
        ("knee", "Quill up and locked. Raise the knee until about 1 mm", "Raise the knee to where"),
        ("quill", "Bring the quill down until about 1 mm", "Quill down to where"),
        ("powered", "Z stays clamped. Let the gauge down in its holder", "Z stays clamped: gauge"),
    ],
)
def test_the_contact_comes_down_as_the_machine_brings_it(z, down, again):
    m = at_work(z=z).start()
    assert m.bench.console["detail"].startswith(down)
    m.step()
    m.bench.do("touch")
    m.bench.do("take", {}, [0.0] * 10)
    assert m.bench.console["detail"].startswith(again)


def test_how_long_it_was_run_warm_is_kept_and_cold_is_no_time():
    b = at_work().bench
    b.do("open", {"reason": "scheduled"})
    for minutes in ("0", "-3", "241", "half an hour", "1.5"):
        assert b.refused("warmed", {"warm": True, "minutes": minutes}).code == "no-such-minutes"
    assert b.refused("warmed", {"warm": False, "minutes": "5"}).code == "no-such-minutes"
    b.do("warmed", {"warm": True, "minutes": "20"})
    assert decode(b.events[-1]).minutes == 20
    b.do("undo")
    assert b.job.step == "power"
    b.do("warmed", {"warm": False})
    assert (decode(b.events[-1]).warm, decode(b.events[-1]).minutes) == (False, None)


@pytest.mark.parametrize("reason", REASONS)
def test_nothing_is_run_by_enter_or_pedal_where_it_is_to_be_looked_at_first(reason):
    m = at_work()
    m.bench.open(reason)
    page = m.work("power").bench.console
    first = page["actions"][0]
    told = f"{page['title']} {first['say']}"
    looked_at = any("run nothing" in caution for caution in page["cautions"])
    assert looked_at == (reason == "crash")
    assert first["primary"] and first["payload"]["warm"] != looked_at
    assert ("cold" in told, "un it warm" in told) == (looked_at, not looked_at)
    assert {a["payload"]["warm"] for a in page["actions"] if a["kind"] == "warmed"} == {True, False}


@pytest.mark.parametrize("stated", ["", "knee locked, quill in"])
@pytest.mark.parametrize(
    ("given", "shown"),
    [
        ({"warm": True, "minutes": "20"}, "spindle run warm for 20 minutes"),
        ({"warm": True, "minutes": "1"}, "spindle run warm for 1 minute"),
        ({"warm": True}, "spindle run warm"),
        ({"warm": False}, "spindle left cold"),
    ],
)
def test_how_the_spindle_was_run_stands_under_the_condition(given, shown, stated):
    m = at_work(uncertainty=Doubts(condition=stated))
    m.bench.do("open", {"reason": "scheduled"})
    m.work("power")
    m.bench.do("warmed", given)
    m.work("park", "clear")
    condition = m.bench.console["numbers"]["condition"]
    assert condition == (f"{stated}, {shown}" if stated else f"{shown.capitalize()}.")


def test_it_stands_there_of_another_check_too():
    b = opened(Bench(offering()), "runout")
    read(b, GOOD["runout"])
    assert b.console["numbers"]["condition"] == "Spindle run warm."


@pytest.mark.parametrize("step", ["table", "power", "power-arm", "power-height", "prepare"])
def test_a_start_of_the_service_finds_a_card_that_is_still_to_be_read(step):
    b = at_work(z="powered", drawbar="power").bench
    b.do("open", {"reason": "scheduled"})
    said = {"readied": READY, "warmed": {"warm": True}}
    for kind in ("readied", "warmed", "arm-fitted", "height-set"):
        if b.job.step == step:
            break
        b.do(kind, said.get(kind, {}))
    assert b.job.step == step
    assert b.refused("restarted").code == "card-unread"


def test_after_a_restart_it_is_asked_for_the_lock_and_not_for_power():
    b = at_work(z="powered", drawbar="power").start().bench
    b.do("restarted")
    assert b.job.step == "prepare" and "is the lock still on" in b.console["title"]


def test_stages_in_front_of_one_another_make_a_row(monkeypatch):
    """Two in front of the same one, and one in front of these: each is come to once, in order."""
    plain = STAGES["power"]
    for key, before in (("first", "power"), ("second", "prepare")):
        made = {"warmed": replace(plain.commands["warmed"])}
        monkeypatch.setitem(STAGES, key, replace(plain, key=key, before=before, commands=made))
    b = at_work().bench
    b.do("open", {"reason": "scheduled"})
    b.do("readied", READY)
    steps = []
    while b.job.step != "prepare":
        steps.append(b.job.step)
        b.do("warmed", {"warm": True})
    assert steps == ["first", "power", "second"]
