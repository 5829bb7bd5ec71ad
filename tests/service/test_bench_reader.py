"""One gauge at the bench, where its line is a canned one."""

import dataclasses
import threading
from contextlib import closing

import pytest

from daq.gauges.config import SerialLine
from daq.gauges.talk import Talk
from daq.metrology.settle import SettleRules
from daq.service.bench_reader import BenchReader
from daq.service.bench_ring import Unread
from daq.service.clock import SystemClock
from daq.service.files import load
from daq.virtual.gauge import VirtualGauge
from daq.virtual.model import GaugeModel
from daq.virtual.talk import OnKey
from daq.virtual.tty import PtyLine
from daq.virtual.uart import LineEnd as UartLine
from daq.virtual.wires import TextSpec
from tests.rigs.shelf import MICRON
from tests.system.ttygauge import TtyGauge

QUICK = SettleRules(wait_s=0.02, window_s=0.05, slow_window_s=0.05, min_samples=3, timeout_s=20.0)
BETWEEN_S = 0.3
"""From one press of a key to the next."""


@pytest.fixture
def gauge(config, tmp_path):
    practice = load(config).gauges["practice"]
    return dataclasses.replace(practice, line=SerialLine(str(tmp_path / "gauge")))


def bench(gauge, tmp_path, rules=QUICK):
    return closing(BenchReader("practice", gauge, tmp_path, rules, SystemClock()))


def test_a_port_that_is_not_there_is_told(gauge, tmp_path):
    soon = dataclasses.replace(QUICK, timeout_s=0.5)
    with bench(gauge, tmp_path, soon) as opened, pytest.raises(Unread, match="port-not-there"):
        opened.settled()


def test_a_settled_value_comes_with_its_samples(gauge, tmp_path):
    with TtyGauge(tmp_path / "gauge") as talking, bench(gauge, tmp_path) as opened:
        talking.move_to(1.25)
        one = opened.settled()
    assert one.pushed_mm == pytest.approx(1.25)
    assert len(one.samples) == one.window.count


def test_a_gauge_that_sends_on_its_key_is_read_by_one_frame(gauge, tmp_path):
    keyed = dataclasses.replace(gauge, talk=Talk(mode="key"))
    frames = TextSpec("{sign}{number} {unit}\r\n", MICRON)
    model = GaugeModel("keyed", frames, UartLine(9600), OnKey(), zero_mm=0.0)
    enough = threading.Event()

    def press():  # again and again, with time between for each frame to be read by itself
        while not enough.wait(BETWEEN_S):
            talking.press_key()

    pressing = threading.Thread(target=press)
    with VirtualGauge(model, PtyLine(tmp_path / "gauge")) as talking:
        talking.set(1.25)
        pressing.start()
        with bench(keyed, tmp_path) as opened:
            one = opened.settled()
        enough.set()
        pressing.join()
    assert one.window.count == 1
    assert one.pushed_mm == pytest.approx(1.25)
