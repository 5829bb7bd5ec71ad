"""A gauge's errors over its lengths: each mark where its value is, and the lines beside them."""

import pytest

from daq.plots.errors import FRAME, ErrorAt, ErrorWords, errors
from daq.plots.frame import Level
from tests.plots import seen

TOLD = ErrorWords("Errors", "Says.", "mm", "up", "down", ("Length", "Way", "Error"))
READ = [
    ErrorAt(length, error + shift, way)
    for way, shift in (("up", 0.0), ("down", 0.001))
    for length, error in ((0.0, 0.0), (1.0, 0.002), (1.0, 0.004), (5.0, -0.001))
]
LINES = (Level(-0.003, "", "limit"), Level(0.007, "allowed", "limit"), Level(0.006, "g", "control"))


def close(at):
    return pytest.approx(at, abs=0.11)


def right(length):
    """The scale ends at round numbers, here at 0 and 5."""
    return FRAME.left + length * (FRAME.right - FRAME.left) / 5.0


def test_each_error_stands_at_its_length_a_square_upward_a_hollow_dot_downward():
    root = seen.parsed(errors(READ, LINES, TOLD, (3, 4)).svg)
    up = seen.ruler(root, FRAME.left - 8)
    all_of = [each.get("d") for each in root.iter(f"{seen.SVG}path")]
    for way, shape in (("up", seen.squares), ("down", seen.dots)):
        own = sorted((right(e.length), up(e.error)) for e in READ if e.way == way)
        (drawn,) = [sorted(shape(d)) for d in all_of if len(shape(d)) > 1]
        assert drawn == [(close(x), close(y)) for x, y in own]
    (through,) = seen.of_class(root, "scribe")
    means = [(0.0, 0.0), (1.0, 0.003), (5.0, -0.001)]
    assert seen.points(through.get("d")) == [(close(right(x)), close(up(y))) for x, y in means]
    low, high = (seen.level(each) for each in seen.of_class(root, "limit"))
    assert (low, high) == (close(up(-0.003)), close(up(0.007)))


def test_one_way_alone_is_no_second_line_and_the_table_says_the_same():
    picture = errors(READ[:4], LINES, TOLD, (3, 4))
    root = seen.parsed(picture.svg)
    assert len(seen.of_class(root, "control")) == 1  # the guard's
    assert "down" not in seen.words(root) and "up" in seen.words(root)
    assert picture.table.rows[1] == ("allowed", "", "0.0070")
    assert picture.table.rows[-1] == ("5.000", "up", "-0.0010")
