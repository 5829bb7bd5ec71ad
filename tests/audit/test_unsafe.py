"""What is left loose or in the spindle is said until somebody puts it right."""

import pytest

from daq.audit.apply import fold
from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.shapes import machine
from tests.cards import READY

ARM = "arm in the spindle"


def at(step, setup=None) -> Machinist:
    m = Machinist(Bench(setup or machine()), RigidHead(mill(), 0.2, -0.3))
    m.bench.do("open", {"reason": "scheduled"})
    return m.work(step)


@pytest.mark.parametrize(
    ("step", "left"),
    [
        ("touch-free", [ARM]),
        ("as-found", [ARM]),
        ("park", [ARM]),
        ("loosen", ["nod bolts loose", ARM]),
        ("move", ["nod bolts loose", ARM]),
        ("check", ["nod bolts loose", ARM]),
        ("tighten", ["nod bolts loose", ARM]),
        ("final", [ARM]),
        ("clear", [ARM]),
    ],
)
def test_an_audit_given_up_leaves_a_tag_until_it_is_put_right(step, left):
    b = at(step).bench
    (giving_up,) = [a for a in b.console["actions"] if a["kind"] == "abandon"]
    assert "Before power comes back" in giving_up["confirm"]
    b.do("abandon", {"why": "a hot job"})
    console = fold_again(b)
    assert console["title"] == f"NOT SAFE TO RUN: {', '.join(left)}."
    assert "arm out, wrench off the drawbar." in console["detail"]
    assert ("tighten the nod bolts" in console["detail"]) == (len(left) == 2)
    (only,) = console["actions"]
    assert only["kind"] == "made-safe" and not only["primary"] and only["confirm"]
    assert b.refused("open", {"reason": "scheduled"}).code == "machine-unsafe"
    b.do("made-safe")
    assert fold_again(b)["title"] == "Ready for an audit."
    b.do("open", {"reason": "scheduled"})


def fold_again(b):
    """What the console shows after a restart."""
    b.shop = fold(b.events)
    return b.console


@pytest.mark.parametrize("step", ["prepare", "sign"])
def test_without_arm_and_with_all_tight_there_is_nothing_to_say(step):
    b = at(step).bench
    b.do("abandon", {"why": "enough"})
    assert b.console["title"] == "Ready for an audit."
    assert b.refused("made-safe").code == "nothing-unsafe"


def ways(b) -> dict[str, str]:
    """How the machine may be said to be left, as the card of giving up asks it."""
    (giving_up,) = [a for a in b.console["actions"] if a["kind"] == "abandon"]
    fields = [field for field in giving_up["fields"] if field["name"] == "left"]
    return {each["key"]: each["say"] for field in fields for each in field["choices"]}


@pytest.mark.parametrize("step", ["prepare", "touch-free", "park", "move", "clear"])
def test_giving_up_asks_how_the_machine_is_left(step):
    b = at(step).bench
    loose = "nod bolts loose, " * (step == "move")
    assert ways(b) == {
        "safe": "Nod bolts tight, arm out, wrench off the drawbar"
        if loose
        else "Arm out, wrench off the drawbar",
        "as-is": f"As it is. NOT SAFE TO RUN: {loose}arm in the spindle.",
    }
    kept = b.shop
    b.do("abandon", {"why": "a hot job", "left": "safe"})
    assert b.console["title"] == "Ready for an audit."
    assert b.events[-1].data["put_right"] is not None
    b.shop = kept
    b.do("abandon", {"why": "a hot job", "left": "as-is"})
    assert b.console["title"] == f"NOT SAFE TO RUN: {loose}arm in the spindle."


def test_with_the_arm_out_and_all_tight_giving_up_asks_nothing():
    assert ways(at("sign").bench) == {}


def test_taking_a_press_back_takes_no_arm_out():
    b = at("touch-free").bench
    b.do("undo")
    assert b.job.step == "prepare"
    b.do("abandon", {"why": "no time"})
    assert b.console["title"] == f"NOT SAFE TO RUN: {ARM}."


def zeroed(m):
    m.bench.do("zeroed", {}, [m.face(m.place)] * 12 + [0.0] * 6)
    m.plus_mm = -m.face(m.place)
    m.work("park")


def away(m):
    m.bench.do("gauge-fault", {"code": "unplugged"})
    m.bench.do("gauge-back", {"run": "run-2", "gauge": m.bench.setup.gauge.key})


@pytest.mark.parametrize("back", [zeroed, away, lambda m: m.bench.do("undo")])
def test_bolts_that_were_to_be_cracked_are_in_doubt_until_they_are_said_to_be_tight(back):
    m = at("loosen")
    b = m.bench
    back(m)
    assert b.job.step == "park" and not b.job.loose
    kept = b.shop
    b.do("abandon", {"why": "no time"})
    assert b.console["title"] == f"NOT SAFE TO RUN: nod bolts loose, {ARM}."
    b.shop = kept
    b.do("stop-here", {"why": "no time"})
    assert b.console["step"] == "as-found"


def test_a_head_being_brought_closer_may_be_loose_on_both_axes():
    b = at("as-found").bench
    b.do("off-scale", {"position": "front"}, [0.0] * 10)
    b.do("arm-out")
    b.do("abandon", {"why": "no time"})
    assert b.console["title"] == "NOT SAFE TO RUN: side bolts loose, nod bolts loose."


def test_another_sweep_after_clearing_away_prepares_and_touches_first():
    m = at("sign")
    b = m.bench
    b.do("again", {"why": "a chip"})
    b.do("readied", READY)
    assert "still power" in b.console["title"]
    steps = []
    while b.job.step != "final":
        steps.append(b.job.step)
        m.step()
    assert steps == ["power", "prepare", "touch-free", "touch-push"]
    assert m.finish().verdict == "conforms"


def test_at_clear_away_another_sweep_asks_whether_the_arm_was_out_already():
    m = at("clear")
    b = m.bench
    (plain,) = [a for a in b.console["actions"] if a["kind"] == "again" and a["fields"]]
    (arm,) = [field for field in plain["fields"] if field["name"] == "arm"]
    assert [each["key"] for each in arm["choices"]] == ["in", "out"] and arm["required"]
    assert b.refused("again", {"turned": "arm", "arm": "out"}).code == "arm-was-out"
    kept = b.shop
    b.do("again", {"why": "a chip", "arm": "in"})
    assert b.job.step == "final"
    b.shop = kept
    b.do("again", {"why": "a chip", "arm": "out"})
    assert b.job.step == "table" and not b.job.arm_in
    b.do("readied", READY)
    steps = []
    while b.job.step != "final":
        steps.append(b.job.step)
        m.step()
    assert steps == ["power", "prepare", "touch-free", "touch-push"]
    assert m.finish().verdict == "conforms"


@pytest.mark.parametrize("step", ["clear", "sign"])
def test_an_arm_taken_out_is_no_zero_and_leads_to_no_touch_test(step):
    """A gauge that reads zero in the air reads so once its arm is out."""
    b = at(step).bench
    assert b.refused("zeroed", {}, [1.5] * 12 + [0.0] * 6).code == "not-this-step"
    assert b.job.step == step


def test_at_clear_away_the_title_is_what_hands_must_do():
    console = at("clear").bench.console
    assert console["title"] == "Arm out. Wrench off the drawbar."
    assert console["detail"] == "Square, in tolerance."


def kinds(nod, side="worm"):
    return changed(
        machine(),
        nod={"adjust": Adjust(nod, bolt_spacing=200.0)},
        side={"adjust": Adjust(side, bolt_spacing=200.0)},
    )


HELD = {
    "hand": "Only the bolts hold this head. Block or sling it first.",
    "shim": "Only the bolts hold this head. Sling or jack it first.",
    "none": "Only the bolts hold this head. Block or sling it first.",
}


@pytest.mark.parametrize("kind", ["hand", "shim"])
def test_a_head_that_only_its_bolts_hold_is_supported_before_any_is_cracked(kind):
    m = at("prepare", kinds(kind))
    assert HELD[kind] in m.bench.console["cautions"]
    m.work("park")
    assert m.bench.job.axis == "nod" and m.bench.console["cautions"][0] == HELD[kind]
    m.work("move", "shim")
    cautions = m.bench.console["cautions"]
    assert "force the adjuster" not in " ".join(cautions)
    own = {"hand": "Tap with brass", "shim": "never with fingers"}[kind]
    assert any(own in caution for caution in cautions)


def test_a_fixed_head_is_supported_should_its_bolts_be_cracked():
    assert HELD["none"] in at("prepare", kinds("none")).bench.console["cautions"]


@pytest.mark.parametrize("kind", ["worm", "rack"])
def test_a_head_with_a_screw_is_held_by_it(kind):
    m = at("prepare", kinds(kind, side=kind))
    for step in ("prepare", "park", "move"):
        m.work(step)
        assert not any("Only the bolts" in each for each in m.bench.console["cautions"])


@pytest.mark.parametrize(
    ("nod_mm", "axis", "big"), [(1.5, "nod", True), (0.3, "nod", False), (0.0, "side", False)]
)
def test_the_quill_is_raised_before_the_base_is_read_and_only_for_a_big_nod(nod_mm, axis, big):
    m = Machinist(Bench(machine()), RigidHead(mill(), 0.2, nod_mm)).start().work("park")
    b = m.bench
    assert b.job.axis == axis
    assert any("lower the knee" in c for c in b.console["cautions"]) == big
    while b.job.step != "move":
        m.step()
        assert not any("knee" in c for c in b.console["cautions"])


def test_a_contact_set_anew_for_a_big_nod_is_said_and_the_audit_goes_on():
    m = Machinist(Bench(machine()), RigidHead(mill(), 0.0, 1.5)).start().work("park")
    b = m.bench
    free = b.job.gauge.free_pushed_mm
    m.head.lift_mm += 0.4
    m.step()
    assert b.job.step == "question"
    b.do("answer", {"key": "set-anew"})
    assert b.job.step == "loosen" and b.job.gauge.free_pushed_mm == free
    assert m.finish().verdict == "conforms"
