"""A gauge on a port, read with pyserial as a shop's is."""

import os
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from types import SimpleNamespace

import pytest
import serial

from daq.virtual import GaugeModel, MillSpec, PtyLine, VirtualGauge, VirtualMill, talker
from daq.virtual.talk import OnKey, OnRequest, Streaming
from daq.virtual.uart import LineEnd
from daq.virtual.wires import CountStep, TextSpec
from daq.words import Unit
from tests.patience import PATIENCE_S, until
from tests.rigs.bcd import BcdSpec
from tests.rigs.shelf import SHELF

MICRON: dict[Unit, CountStep] = {"mm": CountStep(3), "in": CountStep(5, 5)}
WIRE = TextSpec("{status}{sign}{number}\n", MICRON, flags={"weak-battery": "B"}, sound="A")
STREAM = GaugeModel("stream", WIRE, LineEnd(9600), Streaming(0.005), travel_mm=10.0, zero_mm=1.0)
ASKED = GaugeModel("asked", WIRE, LineEnd(19200), OnRequest(b"?\r", 0.005), zero_mm=0.0)
EVEN = LineEnd(4800, 7, "even")


def on_tty(model: GaugeModel, folder: Path, **more: Callable[[], LineEnd]) -> VirtualGauge:
    return VirtualGauge(model, PtyLine(folder / model.key), seed=1, **more)


@contextmanager
def reading(gauge: VirtualGauge, line: LineEnd | None = None) -> Iterator[serial.SerialBase]:
    line = line or gauge.model.line
    parity = {"none": "N", "even": "E", "odd": "O"}[line.parity]
    assert isinstance(gauge.port, PtyLine)
    with serial.serial_for_url(
        str(gauge.port.link),
        line.baud,
        line.bits,
        parity,
        line.stop,
        timeout=PATIENCE_S,
        exclusive=True,
    ) as port:
        yield port


def frames(port: serial.SerialBase, count: int) -> list[bytes]:
    """Return whole frames, from the second on."""
    port.readline()
    return [port.readline() for _ in range(count)]


def test_a_stream_follows_what_the_test_sets(tmp_path: Path) -> None:
    with on_tty(STREAM, tmp_path) as gauge, reading(gauge) as port:
        assert set(frames(port, 5)) == {b"A-001.000\n"}
        gauge.set(3.5)
        until(lambda: port.readline() == b"A+002.500\n")
        assert gauge.face() == "+002.500 mm"
        gauge.free()
        until(lambda: port.readline() == b"A-001.000\n")


class Wake(threading.Condition):
    """A clock that goes on by what is waited for it, and `late_s` more."""

    def __init__(self) -> None:
        super().__init__()
        self.now_s = self.late_s = 0.0

    def wait_for(self, predicate: Callable[[], object], timeout: float | None = None) -> bool:
        self.now_s += (timeout or 0.0) + self.late_s
        self.late_s = 0.0
        return bool(predicate())


def test_a_stream_keeps_its_pace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is a little late is made up for; after a long sleep there is no burst of old news."""
    wake, said = Wake(), list[float]()
    late = {3: 0.008, 6: 1.0}

    def say() -> None:
        said.append(wake.now_s)
        wake.late_s = late.get(len(said), 0.0)
        talking._stopping = len(said) == 12

    port = PtyLine(tmp_path / "gauge")
    talking = talker.Talker(Streaming(0.02), port, say=say, heard=bytes)
    monkeypatch.setattr(talker, "time", SimpleNamespace(monotonic=lambda: wake.now_s))
    monkeypatch.setattr(talking, "_wake", wake)
    talking._run()
    slept = [1.12, 1.12, 1.12, 1.14, 1.16, 1.18]
    assert said == pytest.approx([0.0, 0.02, 0.04, 0.068, 0.08, 0.1, *slept])


def test_the_buttons_do_what_they_say(tmp_path: Path) -> None:
    gauge = on_tty(STREAM, tmp_path)
    gauge.set(2.0)
    assert gauge.frame() == b"A+001.000\n"
    gauge.press_zero()
    assert gauge.frame() == b"A+000.000\n"
    gauge.press_preset(-2.5)
    assert gauge.frame() == b"A-002.500\n"
    gauge.set(2.0 + 2.54)
    # 0.04 mm is 0.00157 inch, 315 counts of 0.000005 in; the frame does not say the unit.
    gauge.press_unit()
    assert gauge.unit == "in"
    assert gauge.frame() == b"A+000.00155\n"
    gauge.press_unit()
    assert gauge.frame() == b"A+000.040\n"


def test_a_gauge_with_one_unit_has_no_unit_button(tmp_path: Path) -> None:
    gauge = on_tty(SHELF["text-lever"], tmp_path)
    gauge.press_unit()
    assert gauge.unit == "mm"
    assert gauge.frame() == b"-0.100\r\n"


def test_beyond_its_travel_the_number_freezes_or_a_frame_says_so(tmp_path: Path) -> None:
    gauge = on_tty(STREAM, tmp_path)
    gauge.set(10.0)
    assert gauge.frame() == b"A+009.000\n"
    gauge.set(11.0)
    assert gauge.frame() == b"A+009.000\n"
    lever = on_tty(SHELF["text-lever"], tmp_path)
    lever.set(0.8)
    assert lever.frame() == b"+0.700\r\n"
    lever.set(0.81)
    assert lever.frame() == b"-----\r\n"


def test_a_weak_battery_shows_where_the_frame_can_say_it(tmp_path: Path) -> None:
    gauge = on_tty(STREAM, tmp_path)
    gauge.faults.weak_battery = True
    assert gauge.frame() == b"B-001.000\n"
    plain = on_tty(SHELF["text-plain"], tmp_path)
    plain.faults.weak_battery = True
    assert plain.frame() == b"-000.350 mm\r\n"


def test_a_stuck_gauge_repeats_what_it_sent_last(tmp_path: Path) -> None:
    gauge = on_tty(STREAM, tmp_path)
    gauge.set(2.0)
    assert gauge.frame() == b"A+001.000\n"
    gauge.faults.stuck = True
    gauge.set(3.0)
    assert gauge.frame() == b"A+001.000\n"
    gauge.faults.stuck = False
    assert gauge.frame() == b"A+002.000\n"


def test_faults_strike_while_it_talks(tmp_path: Path) -> None:
    with on_tty(STREAM, tmp_path) as gauge, reading(gauge) as port:
        frames(port, 1)
        gauge.faults.garbage = True
        until(lambda: b"\n" not in port.read(40))
        gauge.faults.clear()
        until(lambda: port.readline() == b"A-001.000\n")


def test_a_request_is_answered_and_nothing_else(tmp_path: Path) -> None:
    with on_tty(ASKED, tmp_path) as gauge, reading(gauge) as port:
        for n in range(20):
            gauge.set(n * 0.1)
            port.write(b"?\r")
            assert port.readline() == f"A+{n * 0.1:07.3f}\n".encode()
        port.write(b"MEASURE\r?!\r")
        port.write(b"?\r")
        assert port.readline() == b"A+001.900\n"
        port.timeout = 0.1
        assert port.read(1) == b""


def test_a_request_at_the_wrong_speed_is_not_understood(tmp_path: Path) -> None:
    with on_tty(ASKED, tmp_path) as gauge:
        with reading(gauge, LineEnd(9600)) as port:
            port.timeout = 0.2
            port.write(b"?\r")
            assert port.read(1) == b""
        with reading(gauge) as port:
            port.timeout = 0.3

            def answered() -> bool:
                port.write(b"?\r")
                return port.readline() == b"A+000.000\n"

            # What it made of the first request may still stand before the second.
            until(answered)


def test_the_key_sends_so_many_times(tmp_path: Path) -> None:
    model = GaugeModel("key", WIRE, LineEnd(9600), OnKey(times=3, pause_s=0.02), zero_mm=0.0)
    with on_tty(model, tmp_path) as gauge, reading(gauge) as port:
        port.timeout = 0.2
        assert port.read(1) == b""
        gauge.set(0.5)
        port.timeout = 5.0
        gauge.press_key()
        assert [port.readline() for _ in range(3)] == [b"A+000.500\n"] * 3
        port.timeout = 0.2
        assert port.read(1) == b""


@pytest.mark.parametrize(
    "wrong", [LineEnd(4800), LineEnd(19200), LineEnd(115200), LineEnd(1200)], ids=str
)
def test_a_reader_at_the_wrong_speed_gets_no_frame(tmp_path: Path, wrong: LineEnd) -> None:
    with on_tty(STREAM, tmp_path) as gauge, reading(gauge, wrong) as port:
        port.reset_input_buffer()  # what was sent before the port had its speed
        got = port.read(40)
    assert len(got) == 40
    assert b"A-001.000" not in got


def test_parity_comes_by_another_way_than_the_pty(tmp_path: Path) -> None:
    """The parity bits, by hand: A has 2 bits set, - 4, 0 2, 1 3, . 4, line feed 2."""
    model = GaugeModel("even", WIRE, EVEN, Streaming(0.01), zero_mm=1.0)
    with on_tty(model, tmp_path) as gauge, reading(gauge, EVEN) as port:
        assert set(frames(port, 3)) == {b"A-001.000\n"}
    wrong = on_tty(model, tmp_path, reader=lambda: LineEnd(4800))
    with wrong as gauge, reading(gauge, LineEnd(4800)) as port:
        assert set(frames(port, 3)) == {b"A-00\xb1.000\n"}


def test_seven_bits_can_be_opened_again_and_again(tmp_path: Path) -> None:
    """A pseudo-terminal refuses a request that would change nothing but what it does not keep."""
    model = GaugeModel("even", WIRE, EVEN, Streaming(0.01), zero_mm=1.0)
    with on_tty(model, tmp_path) as gauge:
        assert isinstance(gauge.port, PtyLine)
        for _ in range(3):
            with reading(gauge) as port:
                assert frames(port, 1) == [b"A-001.000\n"]
                assert gauge.port.heard(LineEnd(300)) == LineEnd(4800)
            gauge.port.tend()


def test_the_reader_s_stop_bits_are_seen_and_an_unset_port_is_taken_as_the_gauge_s(
    tmp_path: Path,
) -> None:
    port = PtyLine(tmp_path / "gauge")
    assert port.heard(EVEN) == EVEN
    port.plug()
    assert port.heard(EVEN) == EVEN
    with serial.serial_for_url(str(port.link), 2400, stopbits=2):
        assert port.heard(EVEN) == LineEnd(2400, 7, "even", 2)
    port.unplug()


def test_a_cable_pulled_and_put_back(tmp_path: Path) -> None:
    with on_tty(STREAM, tmp_path) as gauge:
        with reading(gauge) as port:
            frames(port, 1)
            gauge.press_zero()
            gauge.unplug()
            with pytest.raises(serial.SerialException):
                port.read(10_000)
        gauge.plug()
        with reading(gauge) as port:
            assert frames(port, 1) == [b"A+000.000\n"]


def test_a_polled_gauge_outlives_its_cable(tmp_path: Path) -> None:
    with on_tty(ASKED, tmp_path) as gauge:
        for _ in range(3):
            with reading(gauge) as port:
                port.write(b"?\r")
                assert port.readline() == b"A+000.000\n"
            gauge.unplug()
            assert gauge.port.receive(0.0) == b""
            gauge.plug()


def test_several_talk_at_once_and_nothing_is_mixed_up(tmp_path: Path) -> None:
    with ExitStack() as stack:
        ports = []
        for n in range(8):
            model = GaugeModel(f"g{n}", WIRE, LineEnd(9600), Streaming(0.01), zero_mm=0.0)
            gauge = stack.enter_context(on_tty(model, tmp_path))
            gauge.set(float(n))
            ports.append(stack.enter_context(reading(gauge)))
        for n, port in enumerate(ports):
            assert set(frames(port, 5)) == {f"A+{n:03d}.000\n".encode()}


def test_a_mill_carries_any_gauge(tmp_path: Path) -> None:
    wire = BcdSpec("FFSUDDDDDDPF", MICRON)
    model = GaugeModel("packed", wire, LineEnd(9600), Streaming(0.01), zero_mm=0.35)
    mill = VirtualMill(MillSpec(), tty_link=tmp_path / "gauge", speed=1000.0, gauge=model)
    mill.start()
    port = os.open(tmp_path / "gauge", os.O_RDWR | os.O_NOCTTY)
    try:
        assert os.read(port, 6) == bytes.fromhex("FF 10 00 03 50 3F")
    finally:
        os.close(port)
        mill.stop()
