"""Listening: frames as they come, beside their bytes and the counts."""

import io

import pytest

from daq.cli import parser
from daq.gauges import commands
from tests.rigs.shelf import on_tty
from tests.words import en

FILE = """
name = "Shelf gauge"
serial_number = "1024-L"
kind = "plunger"
counts_up = true
resolution = "0.001 mm"
travel = "12.7 mm"
max_error = "0.004 mm"
calibration_due = 2028-03-31
[line]
port = "{port}"
[talk]
interval = "20 ms"
[frame]
shape = "text"
pattern = '(?P<sign>[+-])(?P<value>\\d+\\.\\d+) (?P<unit>{unit})'
"""


@pytest.fixture
def shop(tmp_path):
    folder = tmp_path / "gauges"
    folder.mkdir()
    for key, unit in (("arm", "mm"), ("wrong", "in")):
        text = FILE.format(port=tmp_path / "tty", unit=unit)
        (folder / f"{key}.toml").write_text(text, encoding="utf-8")
    with on_tty("text-plain", tmp_path / "tty"):
        yield tmp_path


def hear(*given):
    out, err = io.StringIO(), io.StringIO()
    code = commands.hear(parser().parse_args(["gauge", "listen", *map(str, given)]), en, out, err)
    return code, out.getvalue(), err.getvalue()


def test_good_frames_are_shown_with_their_bytes(shop):
    code, out, _ = hear("--config", shop / "gauges" / "arm.toml", "--count", 3)
    assert code == 0
    assert len(out.splitlines()) >= 3
    first = out.splitlines()[0]
    assert first.split()[:6] == ["1", "good", "0", "bad", "-000.350", "mm"]
    assert b"-000.350 mm".hex(" ") in first


def test_a_gauge_is_named_by_key(shop):
    assert hear("--config", shop, "--gauge", "arm", "--count", 1)[0] == 0


def test_a_folder_without_a_key_is_refused(shop):
    code, _, err = hear("--config", shop)
    assert code == 2
    assert "--gauge KEY" in err


def test_a_port_that_is_not_there_is_refused(shop):
    code, _, err = hear("--config", shop, "--gauge", "arm", "--port", shop / "none")
    assert code == 2
    assert "is the cable plugged in?" in err


def test_one_of_several_gauges_on_a_port_is_listened_to(tmp_path):
    text = FILE.format(port="replay://capture?rate=1e6", unit="mm").partition("[frame]")[0]
    layout = '["text C2;", "sign", "number 3.3"]'
    frame = f'[frame]\nshape = "fields"\nlayout = {layout}\nterminator = "\\r\\n"\nunit = "mm"\n'
    (tmp_path / "c2.toml").write_text(text + frame, encoding="utf-8")
    lines = b"C1;+000.001\r\nC2;+000.002\r\nC3;+000.003\r\n"
    (tmp_path / "capture").write_text(f"cable: one\n\n{(6 * lines).hex()}\n", encoding="utf-8")
    code, out, _ = hear("--config", tmp_path / "c2.toml", "--count", 5, "--data", tmp_path)
    found = [" ".join(line.split()[1:6]) for line in out.splitlines()]
    assert (code, found) == (0, ["good 0 bad +000.002 mm"] * 6)
