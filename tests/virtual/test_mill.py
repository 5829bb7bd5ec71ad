"""The whole mill: operations, panel, port and memory."""

import re
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import serial

from daq.virtual import GaugeSpec, MillSpec, StateFileError, VirtualMill, bench
from daq.virtual.panel import perform
from daq.words import OPPOSITE, PARKED, POSITIONS, Axis, Position
from tests.patience import PATIENCE_S, until

QUICK = 1000.0
QUIET = GaugeSpec(noise_sd_mm=0.0, visit_sd_mm=0.0)
LINE = re.compile(rb"[+-]\d{3}\.\d{3} mm\r\n")


def quick(folder: Path, spec: MillSpec | None = None, **more: Any) -> VirtualMill:
    spec = spec or MillSpec(gauge=QUIET, wedge_mm=0.0)
    return VirtualMill(spec, tty_link=folder / "gauge", speed=QUICK, seed=1, **more)


class Ticking:
    """A clock that goes on only by what the mill's hands wait; `look` is called at each wait."""

    def __init__(
        self,
        mill: VirtualMill,
        monkeypatch: pytest.MonkeyPatch,
        look: Callable[[], object] = lambda: None,
    ) -> None:
        self.now_s = 0.0
        self._look = look
        monkeypatch.setattr(bench, "time", SimpleNamespace(monotonic=lambda: self.now_s))
        monkeypatch.setattr(mill._stopping, "wait", self.wait)

    def wait(self, timeout_s: float) -> bool:
        self.now_s += timeout_s
        self._look()
        return False


def shown(mill: VirtualMill) -> float:
    return float(mill.state()["number"].split()[0])


def at(mill: VirtualMill, position: Position) -> float:
    mill.swing_to(position)
    return shown(mill)


def test_the_port_streams_the_face_no_more_than_fifty_times_a_second(
    mill: VirtualMill, tmp_path: Path
) -> None:
    began = time.monotonic()  # before the first frame: none can have come before it
    with serial.serial_for_url(str(tmp_path / "gauge"), 9600, timeout=PATIENCE_S) as port:
        first = port.readline()
        rows = [port.readline() for _ in range(50)]
        took = time.monotonic() - began
    assert LINE.fullmatch(first)
    assert set(rows) == {b"-000.350 mm\r\n"}
    assert took > 0.9


def test_a_sweep_shows_the_true_lean(tmp_path: Path) -> None:
    mill = quick(tmp_path)
    mill.set_on()
    readings = {p: at(mill, p) for p in ("front", "right", "back", "left")}
    truth = mill.truth()
    for axis, near in PARKED.items():
        difference = readings[near] - readings[OPPOSITE[near]]
        assert difference == pytest.approx(2.0 * 100.0 * truth[axis], abs=0.0011)
    spare = readings["front"] + readings["back"] - readings["left"] - readings["right"]
    assert abs(spare) / 4.0 < 0.0011


def test_one_full_move_by_hand_squares_an_axis_and_tightening_shifts_it(tmp_path: Path) -> None:
    mill = quick(tmp_path)
    mill.set_on()
    start = mill.truth()["nod"] * 200.0
    assert mill.turn("nod", -start) is False
    assert mill.truth()["nod"] * 200.0 == start
    mill.loosen("nod")
    dropped = mill.truth()["nod"] * 200.0 - start
    assert 0.015 < dropped < 0.045
    assert mill.state()["bolts"] == {"side": "tight", "nod": "loose"}
    mill.turn("nod", -start - dropped)
    assert abs(mill.truth()["nod"] * 200.0) < 0.06
    before = mill.truth()["nod"] * 200.0
    mill.tighten("nod")
    shift = mill.truth()["nod"] * 200.0 - before
    assert 0.0 < abs(shift) < 0.02
    assert mill.state()["bolts"]["nod"] == "tight"


def test_operations_done_already_say_so_and_change_nothing(tmp_path: Path) -> None:
    mill = quick(tmp_path)
    mill.set_on()
    mill.loosen("side")
    before = (mill.truth(), shown(mill))
    assert mill.loosen("side") is False
    assert mill.set_on() is False
    assert mill.swing_to("front") is False
    assert mill.tighten("nod") is False
    assert (mill.truth(), shown(mill)) == before
    assert mill.turn_ring() is False
    assert mill.free() is True
    assert mill.free() is False


def test_reversal_of_the_ring_shows_its_wedge(tmp_path: Path) -> None:
    mill = quick(tmp_path, MillSpec(gauge=QUIET, wedge_mm=0.02, wedge_azimuth_deg=0.0))

    def slant() -> float:
        mill.set_on()
        found = at(mill, "right") - at(mill, "left")
        mill.free()
        return found

    first = slant()
    mill.turn_ring()
    assert first - slant() == pytest.approx(2.0 * 0.02, abs=0.003)


def test_the_number_goes_through_the_air_and_a_push_comes_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mill = VirtualMill(MillSpec(gauge=QUIET), tty_link=tmp_path / "gauge", speed=4.0)
    mill.set_on()
    rest, seen = shown(mill), []
    Ticking(mill, monkeypatch, lambda: seen.append(shown(mill)))
    mill.push_contact()
    assert max(seen) - rest > 0.3
    assert shown(mill) == rest


def test_a_panel_sees_the_swing_and_who_comes_second_waits(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=5.0)
    seen: set[tuple[str, bool]] = set()
    done: list[tuple[str, bool]] = []
    places: tuple[Position, ...] = ("left", "right")

    def swing(to: Position) -> None:
        done.append((to, mill.swing_to(to)))

    workers = [threading.Thread(target=swing, args=(p,)) for p in places]

    def look() -> None:
        state = mill.state()
        seen.add((state["position"], state["busy"]))

    Ticking(mill, monkeypatch, look)
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert seen == {("swinging", True)}
    assert sorted(done) == [("left", True), ("right", True)]
    assert mill.state()["position"] == done[-1][0]
    assert mill.state()["busy"] is False


def test_stopping_finishes_what_the_hands_are_doing(tmp_path: Path) -> None:
    mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=0.01)
    mill.start()
    worker = threading.Thread(target=mill.tighten, args=("nod",))
    mill._head.state.nod.tight = False
    worker.start()
    until(lambda: mill.state()["busy"])
    mill.stop()  # else the bolts would take some minutes
    worker.join()
    assert not (tmp_path / "gauge").is_symlink()
    mill.start()
    assert (tmp_path / "gauge").is_symlink()
    mill.stop()


def test_unplugged_and_put_back_the_gauge_talks_on(mill: VirtualMill, tmp_path: Path) -> None:
    link = tmp_path / "gauge"
    port = serial.serial_for_url(str(link), 9600, timeout=PATIENCE_S)
    assert LINE.search(port.read(40))
    mill.unplug()
    assert mill.state()["plugged"] is False
    with pytest.raises(serial.SerialException):
        port.read(2000)
    port.close()
    assert not link.exists()
    mill.replug()
    with serial.serial_for_url(str(link), 9600, timeout=PATIENCE_S) as again:
        assert LINE.search(again.read(40))


def test_wire_faults_reach_the_port(mill: VirtualMill, tmp_path: Path) -> None:
    perform(mill, "fault", {"name": "garbage"})
    with serial.serial_for_url(str(tmp_path / "gauge"), 9600, timeout=PATIENCE_S) as port:
        port.read(20)  # a sound frame may have been under way
        assert all(byte >= 0x80 for byte in port.read(60))
        perform(mill, "fault", {"name": "silent"})
        port.timeout = 0.2
        while port.read(100):
            pass
        perform(mill, "fault", {"name": "none"})
        port.timeout = 2.0
        assert LINE.fullmatch(port.readline())


def test_zero_button_and_unit_button(tmp_path: Path) -> None:
    mill = quick(tmp_path)
    mill.set_on()
    mill.zero()
    assert mill.state()["number"] == "+000.000 mm"
    mill.unit()
    assert mill.state()["number"] == "+000.00000 in"


def test_a_restarted_mill_is_the_same_mill(tmp_path: Path) -> None:
    file = tmp_path / "practice.json"
    mill = quick(tmp_path, state_file=file)
    mill.set_on()
    mill.zero()
    mill.swing_to("left")
    mill.loosen("nod")
    mill.turn("nod", 0.07)
    again = quick(tmp_path, state_file=file)
    assert again.truth() == mill.truth()
    assert again.state() == mill.state()
    again.reset()
    assert quick(tmp_path, state_file=file).truth() == again.truth() != mill.truth()
    assert [f.name for f in tmp_path.iterdir()] == ["practice.json"]


def test_a_mill_that_cannot_be_saved_goes_on(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (tmp_path / "file").write_text("in the way")
    mill = quick(tmp_path, state_file=tmp_path / "folder" / "practice.json")
    (tmp_path / "folder").symlink_to(tmp_path / "file")
    assert mill.loosen("side") is True
    assert "could not be saved" in caplog.text


@pytest.mark.parametrize("seed", range(4))
def test_squaring_a_fresh_head_never_lets_the_contact_off_the_surface(
    tmp_path: Path, seed: int
) -> None:
    mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=QUICK, seed=seed)
    mill.set_on()
    seen = []
    for axis in ("nod", "side"):
        mill.loosen(axis)
        mill.turn(axis, -mill.truth()[axis] * 200.0)
        mill.tighten(axis)
        seen += [at(mill, position) for position in ("right", "back", "left", "front")]
    mill.free()
    assert min(seen) - shown(mill) > 0.2
    assert max(seen) - shown(mill) < 10.0


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"head": {}, "zero_mm": 1}', "\xff"])
def test_a_file_that_is_not_the_mills_is_refused_and_left(tmp_path: Path, text: str) -> None:
    file = tmp_path / "practice.json"
    file.write_bytes(text.encode("latin-1"))
    with pytest.raises(StateFileError, match=re.escape(str(file))):
        quick(tmp_path, state_file=file)
    assert file.read_bytes() == text.encode("latin-1")


def test_a_speed_of_nothing_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="speed: found 0"):
        VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=0.0)


def test_speed_shortens_what_a_person_takes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken = {}
    for speed in (1.0, 10.0):
        mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=speed)
        clock = Ticking(mill, monkeypatch)
        mill.loosen("side")
        taken[speed] = clock.now_s
    assert taken[10.0] == pytest.approx(taken[1.0] / 10.0, abs=0.05)
    assert taken[10.0] > 0.1


def test_positions_and_axes_are_the_houses_own(mill: VirtualMill) -> None:
    truth: dict[Axis, float] = mill.truth()
    assert set(truth) == {"side", "nod"}
    swings = [o["args"]["position"] for o in mill.state()["operations"] if o["verb"] == "swing"]
    assert {*swings, mill.state()["position"]} == set(POSITIONS)
