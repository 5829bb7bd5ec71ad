"""What the set-up page hears at a port, on real pseudo-terminals."""

from dataclasses import replace

import pytest

from daq.gauges.config import read
from daq.service.files import shipped
from daq.service.set_up.heard import Ears
from daq.words import SaidTrouble
from tests.patience import until
from tests.system.ttygauge import TtyGauge

KEYS = ("example-bcd", "example-bits", "example-bridge", "example-inch", "example-text")
EXAMPLES = {key: read(shipped() / "gauges" / f"{key}.toml") for key in KEYS}


@pytest.fixture
def gauge(tmp_path):
    with TtyGauge(tmp_path / "serial" / "by-id" / "adapter-1") as talking:
        yield talking


@pytest.fixture
def root(tmp_path):
    return tmp_path / "serial"


@pytest.fixture
def port(root):
    return str(root / "by-id" / "adapter-1")


@pytest.mark.parametrize(
    ("frame", "like", "text", "unit", "step"),
    [
        (b"-1.2345 in\r", "example-inch", "-1.2345", "in", "0.0001 in"),
        (b"gauge 7-A -1.23 mm 0042 7B0F\r\n", "example-bridge", "-1.23", "mm", "0.01 mm"),
        (b"+001.234 mm\r\n", "example-text", "+001.234", "mm", "0.001 mm"),
    ],
)
def test_a_number_is_heard_as_the_example_whose_frames_come(
    gauge, root, port, frame, like, text, unit, step
):
    gauge.garble(frame)
    ears = Ears({}, EXAMPLES, root)
    assert [each.port for each in ears.ports()] == [port]
    heard = {key: ears.listen(port, key) for key in KEYS}
    right = heard.pop(like)
    assert (right.text, right.unit, right.step) == (text, unit, step)
    assert right.good > 0 and right.bad <= 1
    for other in heard.values():
        assert not other.text and other.say is not None and other.say.code == "set-up-no-number"


def test_a_port_on_which_nothing_comes_is_said_to_be_so(gauge, root, port):
    gauge.mute(True)
    heard = Ears({}, EXAMPLES, root).listen(port, "example-inch")
    assert heard.say is not None and heard.say.code == "set-up-silent"


def test_a_port_that_a_reader_holds_is_named_and_never_opened(gauge, root, port, monkeypatch):
    example = EXAMPLES["example-inch"]
    used = {"bench": replace(example, line=replace(example.line, port=port))}
    opened = []
    monkeypatch.setattr("daq.service.set_up.heard.Link", lambda *a: opened.append(a))
    ears = Ears(used, EXAMPLES, root)
    assert ears.ports()[0].gauge == "bench"
    with pytest.raises(SaidTrouble, match="set-up-port-held"):
        ears.listen(port, "example-bcd")
    assert opened == []


def test_a_port_pulled_out_meanwhile_is_said_to_be_gone(gauge, root, port):
    ears = Ears({}, EXAMPLES, root)
    known = ears.ports()
    gauge.unplug()
    until(lambda: not (root / "by-id" / "adapter-1").exists())
    with pytest.raises(SaidTrouble, match="set-up-no-port"):
        ears.listen(known[0].port, "example-inch")
