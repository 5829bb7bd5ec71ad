"""A slow turn on the practice mill: its gauge on a real tty, its collar on pins of a chip."""

import shutil

import pytest

from daq.app import service
from daq.audit.codec import decode
from daq.audit.events import SweepDone
from daq.audit.recompute import differences
from daq.demo import _hands, _hurried
from daq.ledger import LedgerView
from daq.service.files import load, shipped
from daq.virtual import MillSpec, VirtualMill
from daq.virtual.panel import PRACTICE_MACHINE
from tests import pinchip

PINS = {"front": 5, "right": 6, "back": 13, "left": 19}
TAKES = f"""
[[takes]]
machine = "{PRACTICE_MACHINE}"
source = "pins"
passed = true
""" + "".join(f"{place} = {pin}\n" for place, pin in PINS.items())
QUICK = 1000.0
STEPS = 40


@pytest.fixture
def config(tmp_path):
    folder = shutil.copytree(shipped(), tmp_path / "config")
    machine = folder / "machines" / f"{PRACTICE_MACHINE}.toml"
    machine.write_text(f'slow_turn = "four"\n{machine.read_text("utf-8")}', "utf-8")
    with (folder / "shop.toml").open("a", encoding="utf-8") as shop:
        shop.write(TAKES)
    return folder


@pytest.mark.parametrize("seed", [pytest.param(1, marks=pytest.mark.long)])
def test_an_as_found_sweep_by_one_slow_turn_over_tty_and_pins(config, tmp_path, seed):
    data = tmp_path / "data"
    mill = VirtualMill(MillSpec(), tty_link=data / "ttys" / "practice", speed=QUICK, seed=seed)
    mill.start()
    try:
        with pinchip.kernel(tmp_path) as kernel:
            chip = kernel.chip()
            with service(_hurried(load(config), QUICK), data) as running:
                hands = _hands(running, mill)
                mill.collar = lambda place, closed: chip.drive(PINS[place], 0 if closed else None)
                chip.until_held(PINS["front"])
                for _ in range(STEPS):  # a gauge held up on the way is refused: turned again
                    if hands._at.look()["step"] == "park":
                        break
                    hands.step()
        true = mill.truth()
    finally:
        mill.stop()
    with LedgerView.open(data) as view:
        (done,) = [decode(event) for event in view.events() if event.type == "SweepDone"]
        assert list(differences(view.events(), view.chunk)) == []
    assert isinstance(done, SweepDone) and done.slow is not None and done.usable
    for axis, result in done.results.items():
        off = result.d_mm - true[axis] * 2.0 * done.slow.radius_mm
        assert abs(off) <= done.budgets[axis].expanded_mm
