"""What is left loose or in the spindle is said until somebody puts it right."""

import pytest

from daq.audit.apply import fold
from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench
from tests.audit.rigid import Machinist, RigidHead, changed, mill
from tests.audit.shapes import machine

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
    assert "still power" in b.console["title"]
    steps = []
    while b.job.step != "final":
        steps.append(b.job.step)
        m.step()
    assert steps == ["power", "prepare", "touch-free", "touch-push"]
    assert m.finish().verdict == "conforms"


def test_at_clear_away_the_title_is_what_hands_must_do():
    console = at("clear").bench.console
    assert console["title"] == "Arm out. Wrench off the drawbar."
    assert console["detail"] == "The head is inside."


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
