"""A spindle that moves along itself, a bar with two gauges, and a swung ram."""

import dataclasses
import math
from pathlib import Path

import pytest
import serial

from daq.virtual import GaugeSpec, MillSpec, VirtualMill
from daq.virtual.geometry import leans, pose
from daq.virtual.standing import UNWOUND, HeadState
from daq.words import FOUR_POSITIONS, POSITIONS, Position
from tests.patience import PATIENCE_S

QUIET = GaugeSpec(noise_sd_mm=0.0, visit_sd_mm=0.0, zero_mm=0.0)
MICRON = 0.00051
"""Half a count of the gauge, and what a lean of 2.5 mrad adds to a plane."""

AXIAL = MillSpec(gauge=QUIET, wedge_mm=0.0, axial_mm=0.02, axial_azimuth_deg=30.0)
BAR = MillSpec(gauge=QUIET, wedge_mm=0.0, bar_radius_mm=120.0)


def quick(folder: Path, spec: MillSpec) -> VirtualMill:
    far = folder / "far" if spec.bar_radius_mm is not None else None
    return VirtualMill(spec, tty_link=folder / "gauge", far_link=far, speed=1000.0, seed=1)


def near_mm(mill: VirtualMill) -> float:
    return float(mill.state()["number"].split()[0])


def far_mm(mill: VirtualMill) -> float:
    assert mill.far is not None
    return float(mill.far.face().split()[0])


def swept(mill: VirtualMill) -> dict[Position, float]:
    mill.set_on()
    found = {}
    for position in FOUR_POSITIONS:
        mill.swing_to(position)
        found[position] = near_mm(mill)
    mill.free()
    return found


def differences(mill: VirtualMill) -> tuple[float, float]:
    found = swept(mill)
    return found["right"] - found["left"], found["front"] - found["back"]


def test_a_swing_reaches_all_eight_and_never_winds_up_the_cable(tmp_path: Path) -> None:
    mill = quick(tmp_path, dataclasses.replace(BAR, bar_radius_mm=None))
    mill.set_on()
    a, b = mill.truth()["side"], -mill.truth()["nod"]
    read = {}
    for position in POSITIONS:
        mill.swing_to(position)
        read[position] = near_mm(mill)
    middle = sum(read.values()) / 8.0
    for position, degrees in POSITIONS.items():
        phi = math.radians(degrees)
        plane = 100.0 * (a * math.cos(phi) + b * math.sin(phi))
        assert read[position] - middle == pytest.approx(plane, abs=2 * MICRON)
    turned = list(UNWOUND.values())
    assert turned == sorted(turned)
    assert turned[-1] - turned[0] == 315.0


def test_once_a_turn_reads_like_lean_until_the_arm_is_clamped_the_other_way(
    tmp_path: Path,
) -> None:
    mill = quick(tmp_path, AXIAL)
    lean = [200.0 * mill.truth()[axis] for axis in ("side", "nod")]
    first = differences(mill)
    assert mill.turn_arm() is True
    second = differences(mill)
    # 2 A cos 30° towards the right, 2 A cos 60° towards the back.
    own = (0.04 * math.cos(math.radians(30.0)), -0.04 * math.sin(math.radians(30.0)))
    for one, other, true, turns in zip(first, second, lean, own, strict=True):
        assert (one + other) / 2.0 == pytest.approx(true, abs=3 * MICRON)
        assert (one - other) / 2.0 == pytest.approx(turns, abs=3 * MICRON)


def test_turning_the_ring_leaves_what_the_spindle_does(tmp_path: Path) -> None:
    mill = quick(tmp_path, AXIAL)
    first = differences(mill)
    mill.turn_ring()
    assert differences(mill) == pytest.approx(first, abs=2 * MICRON)


def test_the_arm_is_not_clamped_anew_with_the_contact_down(tmp_path: Path) -> None:
    mill = quick(tmp_path, AXIAL)
    mill.set_on()
    before = near_mm(mill)
    assert mill.turn_arm() is False
    assert near_mm(mill) == before


def test_a_bar_turned_half_round_shows_the_lean_free_of_zeros_and_of_the_spindle(
    tmp_path: Path,
) -> None:
    mill = quick(tmp_path, dataclasses.replace(BAR, axial_mm=0.02, axial_azimuth_deg=10.0))
    assert mill.far is not None
    mill.set_on()
    mill.zero()
    mill.far.press_preset(1.234)
    apart = {}
    for position in FOUR_POSITIONS:
        mill.swing_to(position)
        apart[position] = near_mm(mill) - far_mm(mill)
    # Either gauge sees its own radius times the slope, the far one with the other sign.
    side = (apart["right"] - apart["left"]) / (2.0 * (100.0 + 120.0))
    nod = (apart["front"] - apart["back"]) / (2.0 * (100.0 + 120.0))
    assert side == pytest.approx(mill.truth()["side"], abs=4 * MICRON / 440.0)
    assert nod == pytest.approx(mill.truth()["nod"], abs=4 * MICRON / 440.0)


def test_both_gauges_of_a_bar_talk_and_are_in_the_air_together(tmp_path: Path) -> None:
    mill = quick(tmp_path, BAR)
    mill.start()
    try:
        for link in ("gauge", "far"):
            with serial.serial_for_url(str(tmp_path / link), 9600, timeout=PATIENCE_S) as port:
                assert port.readline() == b"+000.000 mm\r\n"
        mill.set_on()
        assert near_mm(mill) > 1.0
        assert far_mm(mill) > 1.0
        mill.free()
        assert (near_mm(mill), far_mm(mill)) == (0.0, 0.0)
    finally:
        mill.stop()
    assert not (tmp_path / "far").is_symlink()


@pytest.mark.parametrize("spec", [BAR, dataclasses.replace(BAR, bar_radius_mm=None)])
def test_a_bar_and_its_second_link_belong_together(tmp_path: Path, spec: MillSpec) -> None:
    far = None if spec.bar_radius_mm is not None else tmp_path / "far"
    with pytest.raises(ValueError, match=r"far_link: found .*; allowed: both or none"):
        VirtualMill(spec, tty_link=tmp_path / "gauge", far_link=far)


def test_a_restarted_bar_is_the_same_bar(tmp_path: Path) -> None:
    links = {"tty_link": tmp_path / "gauge", "far_link": tmp_path / "far"}
    mills = []
    for _ in range(2):
        mills.append(VirtualMill(BAR, **links, state_file=tmp_path / "state.json", speed=1000.0))
        if len(mills) == 1:
            assert mills[0].far is not None
            mills[0].far.press_preset(-0.5)
            mills[0].set_on()
            mills[0].swing_to("back-left")
    assert mills[1].state() == mills[0].state()
    assert far_mm(mills[1]) == far_mm(mills[0])


def test_the_state_of_a_mill_from_before_the_arm_could_be_turned_is_taken_over() -> None:
    now = HeadState(position="left", quill_mm=-1.0)
    before = now.plain()
    del before["arm_deg"], before["far_visit_mm"]
    before["side"] = {name: before["side"][name] for name in ("angle_rad", "tight", "slack_rad")}
    assert HeadState.restored(before) == now


@pytest.mark.parametrize("degrees", [15.0, -30.0])
def test_a_swung_ram_turns_the_whole_head_and_leaves_the_table(degrees: float) -> None:
    """The same joint angles lean the spindle the same way as seen from the ram."""
    straight = MillSpec()
    swung = straight.swung(degrees)
    turn = math.radians(degrees)
    for side, nod in ((1e-3, 0.0), (0.0, 1e-3), (2e-3, -3e-3)):
        right, toward = leans(pose(straight, side, nod))
        x, y = right, -toward
        expected = (
            x * math.cos(turn) - y * math.sin(turn),
            -(x * math.sin(turn) + y * math.cos(turn)),
        )
        assert leans(pose(swung, side, nod)) == pytest.approx(expected, abs=1e-12)
        before, after = pose(straight, side, nod).origin, pose(swung, side, nod).origin
        assert math.hypot(after[0], after[1]) == pytest.approx(math.hypot(before[0], before[1]))
        assert after[2] == pytest.approx(before[2], abs=1e-12)


def test_a_ram_swung_15_degrees_leans_the_side_by_the_tangent_of_what_nod_is_moved() -> None:
    """0.200 mm on nod goes with 0.0536 mm on side: 0.200 tan 15°, geometry."""
    joint = dataclasses.replace(MillSpec().nod, coupling=0.0)
    swung = MillSpec(side=joint, nod=joint).swung(15.0)
    side, nod = leans(pose(swung, 0.0, 1e-6))
    assert side / nod * 0.200 == pytest.approx(0.0536, abs=5e-5)
