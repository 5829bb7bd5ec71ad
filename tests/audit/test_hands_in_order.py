"""On every kind of machine, from opening to signature, hands are told what is safe in its order.

`pytest -s` prints each walk as a table.
"""

from dataclasses import replace
from functools import cache
from itertools import cycle, islice, product
from typing import Literal

import pytest

from daq.audit.setup import AxisSetup, CheckSetup, MachineSetup
from daq.squaring.adjuster import Adjust
from tests.audit import hand_rows
from tests.audit import hand_rules as rules
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill

MOST = 120
KINDS = hand_rows.KINDS
KEYS = ("z", "drawbar", "brake", "people", "air", "loosen", "side", "nod", "off", "reason")
REASONS = ("scheduled", "after-angled-work", "crash", "moved", "maintenance")
ADJUSTERS = sorted(KINDS["kind"])


def machines():
    """Each adjuster on either axis; each way of z, drawbar and brake; all other values in turn."""
    kinds = product(sorted(KINDS["z"]), sorted(KINDS["drawbar"]), sorted(KINDS["brake"]))
    people, air, loosen = cycle([1, 2]), cycle([False, True, True]), cycle(["one", "one", "both"])
    side, nod = cycle(ADJUSTERS), cycle([*ADJUSTERS[2:], *ADJUSTERS[:2]])
    off, reason = cycle([False, False, False, True]), cycle(REASONS)
    others = zip(people, air, loosen, side, nod, off, reason, strict=False)
    return [(*kind, *other) for kind, other in zip(kinds, islice(others, 18), strict=True)]


def named(of) -> str:
    return " ".join(f"{key}={value}" for key, value in zip(KEYS, of, strict=True))


def made(of):
    z, drawbar, brake, people, air, loosen, side, nod, *_ = of
    machine = {"z": z, "drawbar": drawbar, "brake": brake, "people": people, "air": air}

    def adjusted(kind):
        return {"adjust": Adjust(kind, bolt_spacing=200.0 if kind == "shim" else None)}

    setup = setup_of(limit=0.025, nod_pivot=150.0, height=400.0)
    machine["loosen"] = loosen
    return changed(setup, machine=machine, side=adjusted(side), nod=adjusted(nod))


@cache
def walk(of) -> tuple[hand_rows.Screen, ...]:
    """Every screen of a whole audit of a head that is out both ways, worked as it says."""
    m = Machinist(Bench(made(of)), RigidHead(mill(), 0.12, -0.2))
    m.bench.do("open", {"reason": of[-1]})
    seen, off = [], of[-2]
    while m.bench.job is not None:
        seen.append(hand_rows.screen(m.bench.state))
        assert len(seen) < MOST, [each.step for each in seen[-12:]]
        if off and m.bench.job.step == "as-found":
            m.bench.do("off-scale", {"position": "front"}, [0.0] * 10)
            off = False
        else:
            m.step()
    return tuple(seen)


@pytest.mark.parametrize("of", machines(), ids=named)
def test_hands_are_told_what_is_safe_in_its_order(of):
    walked = walk(of)
    print(f"\n{named(of)}", *hand_rows.rows(walked), sep="\n")
    assert rules.broken(walked, made(of).machine) == []


@cache
def look(of) -> tuple[hand_rows.Screen, ...]:
    """Every screen of a morning's look at a head that was swept, worked as it says."""
    setup = made(of)
    checks = {"morning": CheckSetup({"spots": "best"}, 1)}
    setup = replace(setup, machine=replace(setup.machine, checks=checks))
    m = Machinist(Bench(setup), RigidHead(mill(), 0.004, -0.004))
    m.bench.do("open", {"reason": "scheduled"})
    m.work("signed")
    m.bench.do("open", {"reason": "scheduled", "check": "morning"})
    seen = []
    while m.bench.job is not None:
        seen.append(hand_rows.screen(m.bench.state))
        m.step()
    return tuple(seen)


@pytest.mark.parametrize("of", machines(), ids=named)
def test_a_morning_s_look_touches_no_bolt_and_locks_out_before_hands_are_in_it(of):
    walked = look(of)
    print(f"\n{named(of)}", *hand_rows.rows(walked), sep="\n")
    assert rules.broken(walked, made(of).machine) == []
    assert {row.hands for row in hand_rows.rows(walked)}.isdisjoint({"bolts", "joint", "adjuster"})
    assert not any(each.says(*hand_rows.BY_POWER) for each in walked if each.step == "power")


def test_every_value_of_every_kind_is_walked():
    table = dict(zip(KEYS, zip(*machines(), strict=True), strict=True))
    for key in ("z", "drawbar", "brake", "people", "air", "loosen"):
        assert {*table[key]} == KINDS[key], key
    assert {*table["side"]} == {*table["nod"]} == KINDS["kind"]
    assert any(table["off"])
    walked = {each.held_by for of in machines() for each in made(of).machine.axes.values()}
    assert walked == KINDS["held_by"]


def test_a_kind_of_machine_without_a_rule_is_refused():
    class Gantry(MachineSetup):
        z: Literal["knee", "quill", "powered", "gantry"]

    class Propped(AxisSetup):
        @property
        def held_by(self) -> Literal["adjuster", "block", "sling", "prop"]:
            return "prop"

    assert hand_rows.unknown() == []
    assert hand_rows.unknown(Gantry) == ["z"]
    assert hand_rows.unknown(MachineSetup, Propped) == ["held_by"]


PLAIN = ("knee", "hand", "none", 1, False, "one", "worm", "worm", False, "scheduled")
POWERED = ("powered", "power", "spring", 2, True, "one", "worm", "worm", False, "scheduled")
RACKS = ("quill", "hand", "none", 1, False, "one", "rack", "rack", False, "scheduled")
SHIMS = ("knee", "hand", "none", 1, False, "one", "shim", "shim", False, "scheduled")


def at(step, change):
    """The walk with the first screen of a step changed."""

    def altered(walked):
        i = next(i for i, each in enumerate(walked) if each.step == step)
        return [*walked[:i], change(walked[i]), *walked[i + 1 :]]

    return altered


def moved(step, to):
    """The walk with the first screen of a step come to before another one."""

    def altered(walked):
        one = next(each for each in walked if each.step == step)
        rest = [each for each in walked if each is not one]
        i = next(i for i, each in enumerate(rest) if each.step == to)
        return [*rest[:i], one, *rest[i:]]

    return altered


def left_out(step):
    return lambda walked: [each for each in walked if each.step != step]


@pytest.mark.parametrize(
    ("rule", "of", "alter"),
    [
        ("nothing_turns_by_power_with_the_arm_in", POWERED, moved("power-arm", "power")),
        (
            "nothing_turns_by_power_with_the_arm_in",
            POWERED,
            at("power-height", lambda s: s.without("start-nothing")),
        ),
        ("power_is_there_where_it_is_needed", POWERED, moved("prepare", "power-height")),
        (
            "power_is_there_where_it_is_needed",
            PLAIN,
            at("power", lambda s: s.without("manual-first")),
        ),
        ("hands_are_in_it_only_without_power", PLAIN, moved("touch-free", "prepare")),
        (
            "supported_before_it_is_cracked",
            SHIMS,
            at("shim-open", lambda s: s.without("held-by-bolts")),
        ),
        (
            "supported_before_it_is_cracked",
            SHIMS,
            lambda walked: [s.without("held-by-bolts", "support-head") for s in walked],
        ),
        ("a_rack_runs_back", RACKS, at("loosen", lambda s: s.without("rack-runs-back"))),
        ("no_hands_in_an_open_joint", SHIMS, at("shim", lambda s: s.without("push-with-a-strip"))),
        ("no_hands_in_an_open_joint", SHIMS, at("shim", lambda s: s.also("hands-clear"))),
        ("no_hands_in_an_open_joint", SHIMS, left_out("arm-out-shim")),
        (
            "nothing_is_forced_that_is_not_there",
            SHIMS,
            at("shim", lambda s: s.also("do-not-force")),
        ),
        ("the_gauge_is_under_what_it_reads", SHIMS, left_out("arm-back")),
        ("tight_is_read_tight", PLAIN, left_out("tighten")),
        ("the_base_stays", PLAIN, at("loosen", lambda s: s.also("big-nod"))),
        (
            "power_comes_back_to_an_empty_spindle",
            PLAIN,
            at("clear", lambda s: s.without("arm-out")),
        ),
        (
            "power_comes_back_to_an_empty_spindle",
            POWERED,
            at("clear", lambda s: s.without("power-for-drawbar")),
        ),
        (
            "it_is_told_in_the_machines_words",
            POWERED,
            at("prepare", lambda s: s.without("lock-out: air=vented")),
        ),
        (
            "it_is_told_in_the_machines_words",
            POWERED,
            at("prepare", lambda s: s.without("brake-holds")),
        ),
    ],
)
def test_a_walk_that_breaks_a_rule_is_found(rule, of, alter):
    machine = made(of).machine
    assert rules.broken(walk(of), machine) == []
    assert rule in {each.split(":")[0] for each in rules.broken(alter(walk(of)), machine)}


def test_every_rule_is_broken_once():
    (marks,) = (
        m for m in test_a_walk_that_breaks_a_rule_is_found.pytestmark if m.name == "parametrize"
    )
    assert {case[0] for case in marks.args[1]} == {rule.__name__ for rule in rules.RULES}
