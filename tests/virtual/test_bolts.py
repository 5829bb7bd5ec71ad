"""Bolts pulled up one by one, and an adjuster that the hand lets go of."""

import dataclasses
from pathlib import Path

import pytest

from daq.virtual import GaugeSpec, JointSpec, MillSpec, VirtualMill
from daq.virtual.panel import perform
from daq.words import SaidTrouble
from tests.words import troubled

ACROSS_MM = 200.0
NEAR_MM = 1e-6
"""A lean is a tangent, a shift an angle: at 2.5 mrad they differ by six parts in a million."""

STIFF = JointSpec(
    backlash_mm=0.0, drop_mm=0.0, shift_mm=0.006, shift_sd_mm=0.0, lift_sd_mm=0.0, coupling=0.0
)


def quick(folder: Path, **nod: object) -> VirtualMill:
    spec = MillSpec(
        side=STIFF,
        nod=dataclasses.replace(STIFF, **nod),  # type: ignore[arg-type]
        gauge=GaugeSpec(noise_sd_mm=0.0, visit_sd_mm=0.0),
        wedge_mm=0.0,
    )
    return VirtualMill(spec, tty_link=folder / "gauge", speed=1000.0, seed=1)


def nod_mm(mill: VirtualMill) -> float:
    return mill.truth()["nod"] * ACROSS_MM


def test_the_parts_of_a_tightening_add_up_to_the_whole(tmp_path: Path) -> None:
    mill = quick(tmp_path)
    mill.loosen("nod")
    before = nod_mm(mill)
    seen = []
    for turn in range(12):
        mill.tighten_bolt("nod", str(turn % 4 + 1), 1.0 / 12.0)
        seen.append(nod_mm(mill) - before)
    assert seen == pytest.approx([0.0005 * (n + 1) for n in range(12)], abs=NEAR_MM)
    assert mill.tighten("nod") is False
    mill.tighten_bolt("nod", "1", 0.5)
    assert nod_mm(mill) - before == pytest.approx(0.006, abs=NEAR_MM)


def test_all_at_once_brings_what_single_bolts_left(tmp_path: Path) -> None:
    mill = quick(tmp_path)
    mill.loosen("nod")
    before = nod_mm(mill)
    mill.tighten_bolt("nod", "1")
    assert nod_mm(mill) - before == pytest.approx(0.003, abs=NEAR_MM)
    mill.tighten_bolt("nod", "3")
    assert nod_mm(mill) - before == pytest.approx(0.0045, abs=NEAR_MM)
    assert mill.tighten("nod") is True
    assert nod_mm(mill) - before == pytest.approx(0.006, abs=NEAR_MM)


def test_one_bolt_holds_the_adjuster_and_cracking_frees_it_for_another_tightening(
    tmp_path: Path,
) -> None:
    mill = quick(tmp_path)
    mill.loosen("nod")
    mill.tighten_bolt("nod", "2", 0.25)
    assert mill.state()["bolts"]["nod"] == "tight"
    assert mill.turn("nod", 0.1) is False
    verbs = {(each["verb"], each["args"].get("axis")) for each in mill.state()["operations"]}
    assert {("loosen", "nod"), ("tighten", "nod"), ("bolt", "nod")} <= verbs
    assert not {("turn", "nod"), ("bolt", "side")} & verbs
    mill.loosen("nod")
    before = nod_mm(mill)
    mill.tighten("nod")
    assert nod_mm(mill) - before == pytest.approx(0.006, abs=NEAR_MM)


def test_a_bolt_that_pulls_aside_does_so_once_each_time_they_are_tightened(
    tmp_path: Path,
) -> None:
    mill = quick(tmp_path, shift_mm=0.0, bolts_mm=(("3", 0.012),))
    for _ in range(2):
        mill.loosen("nod")
        moved = []
        for bolt in ("1", "3", "2", "4", "1", "3"):
            before = nod_mm(mill)
            mill.tighten_bolt("nod", bolt, 1.0 / 6.0)
            moved.append(nod_mm(mill) - before)
        assert moved == pytest.approx([0.0, 0.012, 0.0, 0.0, 0.0, 0.0], abs=NEAR_MM)


def test_the_panel_pulls_up_the_bolts_there_are(tmp_path: Path) -> None:
    mill = quick(tmp_path, bolts=("upper", "lower"))
    mill.loosen("nod")
    offered = [
        each["args"]["bolt"] for each in mill.state()["operations"] if each["verb"] == "bolt"
    ]
    assert offered == ["upper", "lower"]
    perform(mill, "bolt", {"axis": "nod", "bolt": "upper"})
    assert mill._head.joint("nod").bolts == ["upper"]
    with troubled(SaidTrouble, match="bolt: found '3'; allowed: upper, lower"):
        perform(mill, "bolt", {"axis": "nod", "bolt": "3"})


@pytest.mark.parametrize("share", [-0.1, 1.1, float("nan")])
def test_a_part_that_is_none_is_refused(tmp_path: Path, share: float) -> None:
    mill = quick(tmp_path)
    mill.loosen("nod")
    with pytest.raises(ValueError, match=r"share: found .*; allowed: from 0 to 1"):
        mill.tighten_bolt("nod", "1", share)
    assert mill.state()["bolts"]["nod"] == "loose"


def test_the_head_goes_back_when_the_hand_leaves_the_adjuster(tmp_path: Path) -> None:
    mill = quick(tmp_path, rest_mm=0.005)
    mill.loosen("nod")
    before = nod_mm(mill)
    mill.turn("nod", 0.1, hold=True)
    held = nod_mm(mill) - before
    assert held == pytest.approx(0.1, rel=0.1)
    mill.let_go("nod")
    assert nod_mm(mill) - before == pytest.approx(held - 0.005, abs=NEAR_MM)
    mill.let_go("nod")
    assert nod_mm(mill) - before == pytest.approx(held - 0.005, abs=NEAR_MM)


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_many_short_turns_are_let_go_of_like_one_long_one(tmp_path: Path, way: float) -> None:
    mill = quick(tmp_path, rest_mm=0.005)
    mill.loosen("nod")
    before = nod_mm(mill)
    mill.turn("nod", -way * 0.002, hold=True)
    for _ in range(6):
        mill.turn("nod", way * 0.004, hold=True)
    held = nod_mm(mill) - before
    mill.let_go("nod")
    assert nod_mm(mill) - before == pytest.approx(held - way * 0.005, abs=NEAR_MM)


def test_a_turn_from_the_panel_is_let_go_of_at_once(tmp_path: Path) -> None:
    mill = quick(tmp_path, rest_mm=0.005)
    mill.loosen("nod")
    before = nod_mm(mill)
    perform(mill, "turn", {"axis": "nod", "amount_mm": 0.004})
    assert nod_mm(mill) == pytest.approx(before, abs=NEAR_MM)
