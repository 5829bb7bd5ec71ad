"""Adapters in sockets: what udev's links would show, and what a reader behind them reads."""

from pathlib import Path

import pytest
import serial

from daq.virtual import GaugeModel, PtyLine, VirtualGauge
from daq.virtual.talk import Streaming
from daq.virtual.wires import CountStep, TextSpec
from tests.patience import PATIENCE_S
from tests.rigs.adapters import Adapter, SerialTree


@pytest.fixture
def tree(tmp_path: Path) -> SerialTree:
    return SerialTree(tmp_path / "dev")


def adapter(folder: Path, name: str, number: str = "") -> Adapter:
    tty = folder / name
    tty.write_text(name)
    return Adapter(tty, number)


def test_an_adapter_is_found_by_number_and_by_socket(tree: SerialTree, tmp_path: Path) -> None:
    one = adapter(tmp_path, "one", "000417")
    device = tree.plug(one, 2)
    assert device == tmp_path / "dev" / "ttyUSB0"
    assert device.read_text() == "one"
    by_id = tmp_path / "dev/serial/by-id/usb-Serial_Adapter_000417-if00-port0"
    assert tree.by_id(one) == by_id
    assert by_id.read_text() == tree.by_path(2).read_text() == "one"
    assert by_id.readlink() == Path("../../ttyUSB0")
    assert tree.by_path(2).name == "platform-usb-0:1.2:1.0-port0"
    assert tree.pull(2) == one
    assert not by_id.is_symlink() and not tree.by_path(2).is_symlink() and not device.is_symlink()


def test_replugging_renumbers_but_by_id_stays_right(tree: SerialTree, tmp_path: Path) -> None:
    one, two = adapter(tmp_path, "one", "1"), adapter(tmp_path, "two", "2")
    tree.plug(one, 1)
    assert tree.plug(two, 2).name == "ttyUSB1"
    tree.pull(1)
    tree.pull(2)
    assert tree.plug(two, 2).name == "ttyUSB0"
    assert tree.plug(one, 1).name == "ttyUSB1"
    assert tree.by_id(one).read_text() == "one"
    assert tree.by_id(two).read_text() == "two"


def test_swapped_sockets_swap_by_path_only(tree: SerialTree, tmp_path: Path) -> None:
    one, two = adapter(tmp_path, "one", "1"), adapter(tmp_path, "two", "2")
    tree.plug(one, 1)
    tree.plug(two, 2)
    tree.swap(1, 2)
    assert (tree.by_path(1).read_text(), tree.by_path(2).read_text()) == ("two", "one")
    assert (tree.by_id(one).read_text(), tree.by_id(two).read_text()) == ("one", "two")


def test_twins_share_a_name_and_the_last_one_in_has_it(tree: SerialTree, tmp_path: Path) -> None:
    one, two = adapter(tmp_path, "one"), adapter(tmp_path, "two")
    tree.plug(one, 1)
    tree.plug(two, 2)
    assert tree.by_id(one) == tree.by_id(two)
    assert tree.by_id(one).read_text() == "two"
    tree.pull(2)
    assert tree.by_id(one).read_text() == "one"
    tree.plug(two, 2)
    tree.pull(1)
    assert tree.by_id(one).read_text() == "two"


def test_links_are_exchanged_where_they_are(tree: SerialTree, tmp_path: Path) -> None:
    tree.plug(adapter(tmp_path, "one", "1"), 1)
    tree.plug(adapter(tmp_path, "two", "2"), 2)
    tree.exchange(tree.by_path(1), tree.by_path(2))
    assert (tree.by_path(1).read_text(), tree.by_path(2).read_text()) == ("two", "one")


def test_a_taken_socket_and_an_empty_one_are_refused(tree: SerialTree, tmp_path: Path) -> None:
    one = adapter(tmp_path, "one")
    tree.plug(one, 1)
    with pytest.raises(ValueError, match="found 1, which is taken"):
        tree.plug(one, 1)
    with pytest.raises(KeyError):
        tree.pull(2)


def test_twin_gauges_swapped_live_are_read_under_each_other_s_path(
    tree: SerialTree, tmp_path: Path
) -> None:
    wire = TextSpec("{sign}{number}\n", {"mm": CountStep(3)})
    gauges = []
    for n in (1, 2):
        model = GaugeModel(f"twin-{n}", wire, talk=Streaming(0.005), zero_mm=0.0)
        gauges.append(VirtualGauge(model, PtyLine(tmp_path / model.key)))
        gauges[-1].set(float(n))

    def read(path: Path) -> bytes:
        with serial.serial_for_url(str(path), 9600, timeout=PATIENCE_S) as port:
            port.readline()
            return port.readline()

    with gauges[0] as one, gauges[1] as two:
        for gauge, socket in ((one, 1), (two, 2)):
            assert isinstance(gauge.port, PtyLine)
            tree.plug(Adapter(gauge.port.link), socket)
        assert read(tree.by_path(1)) == b"+001.000\n"
        tree.swap(1, 2)
        assert read(tree.by_path(1)) == b"+002.000\n"
        assert read(tree.by_path(2)) == b"+001.000\n"
