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
