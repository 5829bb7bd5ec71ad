"""A serial port on the network: RFC 2217 over Telnet, byte values from memory."""

import socket
from collections.abc import Iterator
from pathlib import Path

import pytest
import serial

from daq.virtual import GaugeModel, VirtualGauge
from daq.virtual.talk import OnRequest, Streaming
from daq.virtual.uart import LineEnd
from daq.virtual.wires import CountStep, TextSpec
from tests.patience import PATIENCE_S, until
from tests.rigs.bits import BitsSpec
from tests.rigs.comport import ComPort
from tests.rigs.netport import NetPort

WIRE = TextSpec("{sign}{number}\n", {"mm": CountStep(3)})
EVEN = LineEnd(4800, 7, "even")


def setting(what: int, value: str) -> bytes:
    return bytes([255, 250, 44, what]) + bytes.fromhex(value) + bytes([255, 240])


SETTINGS = setting(1, "00 00 12 C0") + setting(2, "07") + setting(3, "03") + setting(4, "01")


def test_settings_are_taken_and_confirmed() -> None:
    port = ComPort()
    assert port.heard(LineEnd(300)) == LineEnd(300)
    fed = port.feed(SETTINGS)
    assert fed.data == b""
    assert fed.answer == (
        setting(101, "00 00 12 C0") + setting(102, "07") + setting(103, "03") + setting(104, "01")
    )
    assert port.heard(LineEnd(300, 8, "odd", 2)) == EVEN


def test_a_question_is_answered_with_what_was_set() -> None:
    port = ComPort()
    port.feed(SETTINGS)
    assert port.feed(setting(1, "00 00 00 00")).answer == setting(101, "00 00 12 C0")
    assert port.heard(LineEnd(300)) == EVEN
    assert port.feed(setting(12, "01")).answer == setting(112, "01")


@pytest.mark.parametrize("size", [1, 2, 3, 5, 100])
def test_data_and_commands_are_told_apart_however_they_arrive(size: int) -> None:
    whole = b"ab" + SETTINGS + b"c\xff\xffd\xff\xf1" + bytes([255, 253, 0]) + b"e"
    port = ComPort()
    fed = [port.feed(whole[i : i + size]) for i in range(0, len(whole), size)]
    assert b"".join(one.data for one in fed) == b"abc\xffde"
    assert port.heard(LineEnd(300)) == EVEN
    assert b"".join(one.answer for one in fed).endswith(bytes([255, 251, 0]))


def test_a_speed_with_the_byte_255_in_it_is_doubled_both_ways() -> None:
    port = ComPort()
    assert port.feed(setting(1, "00 00 FF FF 00")).answer == setting(101, "00 00 FF FF 00")
    assert port.heard(LineEnd(300)).baud == 0xFF00


def test_options_are_agreed_once_and_others_refused() -> None:
    port = ComPort()
    will, do, wont, dont = 251, 253, 252, 254
    assert port.feed(bytes([255, will, 44])).answer == bytes([255, do, 44])
    assert port.feed(bytes([255, will, 44])).answer == b""
    assert port.feed(bytes([255, do, 3])).answer == bytes([255, will, 3])
    assert port.feed(bytes([255, do, 1])).answer == bytes([255, wont, 1])
    assert port.feed(bytes([255, will, 24])).answer == bytes([255, dont, 24])


@pytest.fixture
def gauge() -> Iterator[VirtualGauge]:
    model = GaugeModel("net", WIRE, EVEN, Streaming(0.02), zero_mm=0.0)
    made = VirtualGauge(model, NetPort())
    made.set(1.0)
    with made:
        yield made


def url(gauge: VirtualGauge) -> str:
    assert isinstance(gauge.port, NetPort)
    return gauge.port.url


# Its reader thread is marked as a daemon by a deprecated call.
@pytest.mark.filterwarnings(
    "ignore:setDaemon:DeprecationWarning", "ignore:setName:DeprecationWarning"
)
def test_pyserial_gets_what_its_settings_make_of_it(gauge: VirtualGauge, tmp_path: Path) -> None:
    """1 has three bits set: with its parity it is 0xB1. The others have an even number."""
    with serial.serial_for_url(url(gauge), 4800, 7, "E", timeout=PATIENCE_S) as port:
        port.readline()
        assert port.readline() == b"+001.000\n"
        port.parity, port.bytesize = "N", 8
        port.reset_input_buffer()
        port.readline()
        assert port.readline() == b"+00\xb1.000\n"
        port.baudrate = 9600
        until(lambda: gauge.port.heard(EVEN).baud == 9600)
        port.reset_input_buffer()
        assert b"." not in port.read(30)


def connected(gauge: VirtualGauge) -> socket.socket:
    address = "127.0.0.1", int(url(gauge).rpartition(":")[2])
    return socket.create_connection(address, timeout=PATIENCE_S)


def test_unplugging_ends_the_connection_and_the_url_stays(gauge: VirtualGauge) -> None:
    before = url(gauge)
    with connected(gauge) as reader:
        assert reader.recv(100).startswith(b"+001.000\n")
        gauge.unplug()
        while reader.recv(4096):
            pass
    assert not gauge.port.plugged
    with pytest.raises(ConnectionRefusedError):
        connected(gauge)
    gauge.plug()
    assert url(gauge) == before
    with connected(gauge) as reader:
        assert reader.recv(100).startswith(b"+001.000\n")


def test_a_request_over_the_network_is_answered() -> None:
    wire = BitsSpec(2, 16, {"mm": CountStep(2)}, order="msb")
    model = GaugeModel("net", wire, LineEnd(9600), OnRequest(b"?\r", 0.0), zero_mm=2.55)
    with VirtualGauge(model, NetPort()) as gauge, connected(gauge) as reader:
        # Minus 255 counts are 0xFF01, whose first byte is doubled on the connection.
        reader.sendall(b"X\r?\r")
        assert reader.recv(100) == b"\xff\xff\x01"
        reader.settimeout(0.1)
        with pytest.raises(TimeoutError):
            reader.recv(1)


def test_a_port_never_plugged_in_has_no_url() -> None:
    port = NetPort()
    with pytest.raises(ValueError, match="never plugged in"):
        assert port.url
    assert port.receive(0.0) == b""
    assert not port.send(b"x")
