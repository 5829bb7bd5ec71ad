"""What a gauge was learned from is decoded again, and what reads otherwise now is said."""

import argparse
import io

import pytest

from daq.gauges.capture import Capture, parse
from daq.gauges.learn.command import test as decode_again
from daq.gauges.learn.live.kept import capture
from tests.gauges.learn_desk import Desk, learned
from tests.gauges.learn_trials import PLAIN
from tests.gauges.test_learn_conversation import TOLD
from tests.words import en


@pytest.fixture
def shelf(tmp_path):
    """A folder with a learned gauge's file, and beside it what it was learned from."""
    made = learned(Desk(PLAIN["plain"]), *TOLD)
    (tmp_path / "gauges").mkdir()
    (tmp_path / "gauges" / "arm.toml").write_text(made.text, encoding="utf-8")
    kept = capture(made.learned, made.config)
    (tmp_path / "gauges" / "arm.cap").write_text(kept, encoding="utf-8")
    return tmp_path


def decoded(path):
    out, err = io.StringIO(), io.StringIO()
    code = decode_again(argparse.Namespace(config=path), en, out, err)
    return code, out.getvalue(), err.getvalue()


def test_a_capture_is_read_as_it_was_written():
    one = Capture({"gauge": "Arm", "line": "9600"}, (b"\x02ab" * 20, b"c"), ("+1.000 mm", "-2 in"))
    assert parse(str(one), "here") == one


def test_the_numbers_are_those_of_when_it_was_learned(shelf):
    code, said, _ = decoded(shelf)
    assert code == 0
    assert said.startswith("Arm gauge: ")
    assert said.endswith(" numbers as they were learned.\n")
    assert decoded(shelf / "gauges" / "arm.toml")[0] == 0


def test_a_file_that_reads_otherwise_now_is_said(shelf):
    path = shelf / "gauges" / "arm.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('"-" = "-"', '"-" = "+"'), encoding="utf-8")
    code, said, _ = decoded(shelf)
    assert code == 1
    assert "compare with its face before it is used" in said


def test_a_file_that_reads_less_now_is_said(shelf):
    path = shelf / "gauges" / "arm.toml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('"-" = "-"', '"!" = "-"'), encoding="utf-8")
    assert decoded(shelf)[0] == 1


def test_what_cannot_be_read_is_said(shelf):
    (shelf / "gauges" / "arm.cap").write_text("nothing", encoding="utf-8")
    code, _, why = decoded(shelf)
    assert (code, "arm.cap: found no empty line" in why) == (2, True)
    (shelf / "gauges" / "arm.toml").write_text("name = 1", encoding="utf-8")
    assert decoded(shelf)[0] == 2


def test_a_gauge_that_was_not_learned_has_nothing_to_test(tmp_path):
    assert decoded(tmp_path) == (0, "", "")
