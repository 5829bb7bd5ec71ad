"""What gauges were learned from is decoded again, as an update may change how."""

import pytest

from daq.gauges.capture import Capture
from tests.doctor.conftest import told

FRAMES = b"234 mm\r\n+001.234 mm\r\n-000.500 mm\r\n"
"""It begins in the middle of one."""
NUMBERS = ("+001.234 mm", "-000.500 mm")


@pytest.fixture
def learned(made):
    """A shop whose gauge was learned: what it was learned from lies beside its file."""
    made.shop()

    def keep(*numbers):
        kept = Capture({"gauge": "Practice gauge"}, (FRAMES,), numbers)
        (made.config / "gauges" / "practice.cap").write_text(str(kept), encoding="utf-8")

    keep(*NUMBERS)
    return keep


def test_a_shop_that_learned_no_gauge_has_no_line(made, look):
    made.shop()
    assert look("captures") == []


def test_one_that_reads_as_it_was_learned_is_fine(learned, look, made):
    assert told(look("captures")) == [(True, "capture-same")]


def test_numbers_that_differ_are_to_be_compared_with_the_face(learned, look):
    learned(NUMBERS[0], "+000.501 mm")
    (found,) = look("captures")
    assert told([found]) == [(False, "capture-differs")]
    assert found.todo.code == "doctor-compare-face"
    assert found.todo.of["gauge"] == "practice"


def test_what_cannot_be_read_is_to_be_put_back(learned, look, made):
    (made.config / "gauges" / "practice.cap").write_text("nothing", encoding="utf-8")
    assert told(look("captures")) == [(False, "in-their-words")]


def test_a_file_with_a_mistake_is_left_to_the_look_that_names_it(learned, look, made):
    made.write("gauges/practice.toml", "baud = ", "bawd = ")
    assert look("captures") == []
