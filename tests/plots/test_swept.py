"""A sweep from above: its places, which side is low, how steep its edges are, what remains."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.plots import swept as drawn
from daq.plots.swept import Edge, SweptAt, SweptWords, swept
from tests.plots import seen

TOLD = SweptWords(
    "Sweep 1", "Says.", "Front", "Right", "Back", "Left", "low", "allowed", "off: 0.0012",
    ("SweptAt", "Reads", "Off", "Remarks"),
)  # fmt: skip
PLACES = (
    SweptAt("Front", 270.0, 1.123, 0.0012),
    SweptAt("Right", 0.0, 1.144, -0.0012),
    SweptAt("Back", 90.0, 1.003, 0.0012),
    SweptAt("Left", 180.0, 1.111, -0.0006),
)
SIDE = Edge("Side to side", 0.033, -0.025, 0.025, "right end low 0.033")
NOD = Edge("Nod", 0.120, -0.025, 0.025, "nodded down 0.120")
X, Y = drawn.MIDDLE


def close(at):
    return pytest.approx(at, abs=0.11)


def ends(line):
    return tuple(float(line.get(key)) for key in ("x1", "y1", "x2", "y2"))


def test_the_front_is_at_the_bottom_and_the_right_at_the_right():
    root = seen.parsed(swept(PLACES, SIDE, NOD, TOLD, 3).svg)
    dots = [seen.dots(path.get("d"))[0] for g in seen.of_class(root, "marks") for path in g]
    assert dots == [
        (close(X), close(Y + drawn.RADIUS)),
        (close(X + drawn.RADIUS), close(Y)),
        (close(X), close(Y - drawn.RADIUS)),
        (close(X - drawn.RADIUS), close(Y)),
    ]
    told = seen.words(root)
    assert told["Front"][1] > told["Left"][1] > told["Back"][1]
    assert told["1.144"][0] > told["1.123"][0] > told["1.111"][0]


def test_what_remains_stands_off_the_circle_to_one_scale():
    root = seen.parsed(swept(PLACES, SIDE, NOD, TOLD, 3).svg)
    bars = [ends(each) for each in seen.of_class(root, "limit") if each.tag.endswith("line")][:4]
    reach = [math.hypot(x2 - X, y2 - Y) - drawn.RADIUS for _, _, x2, y2 in bars]
    most = drawn.FURTHEST
    assert reach == [close(most), close(-most), close(most), close(-most / 2)]
    assert "off: 0.0012" in seen.words(root)


def test_the_edges_lean_as_the_circle_does_the_low_end_down_or_to_the_operators_side():
    """Right low: its end lies lower. Front low: its end lies to the right, seen from the right."""
    root = seen.parsed(swept(PLACES, SIDE, NOD, TOLD, 3).svg)
    lines = [ends(each) for each in seen.of_class(root, "limit") if each.tag.endswith("line")]
    side, nod = lines[-2:]
    assert side == (
        close(X - drawn.EDGE), close(drawn.BELOW - drawn.STEEPEST * 0.033 / 0.120),
        close(X + drawn.EDGE), close(drawn.BELOW + drawn.STEEPEST * 0.033 / 0.120),
    )  # fmt: skip
    assert nod == (
        close(drawn.ASIDE - drawn.STEEPEST), close(Y - drawn.EDGE),
        close(drawn.ASIDE + drawn.STEEPEST), close(Y + drawn.EDGE),
    )  # fmt: skip
    _, low, high, *_ = (ends(each) for each in seen.of_class(root, "control"))
    reach = close(drawn.STEEPEST * 0.025 / 0.120)
    assert (drawn.BELOW - low[3], high[3] - drawn.BELOW) == (reach, reach)


@pytest.mark.parametrize(
    ("side", "nod", "low"),
    [(1.0, 0.0, (1, 0)), (-1.0, 0.0, (-1, 0)), (0.0, 1.0, (0, 1)), (0.0, -1.0, (0, -1))],
)
def test_the_low_side_is_drawn_thick_and_named(side, nod, low):
    edges = Edge("s", side, None, None, ""), Edge("n", nod, None, None, "")
    root = seen.parsed(swept(PLACES, *edges, TOLD, 3).svg)
    (arc,) = [each for each in seen.of_class(root, "limit") if each.tag.endswith("path")]
    along = seen.points(arc.get("d"))
    assert along[len(along) // 2] == (
        close(X + drawn.RADIUS * low[0]),
        close(Y + drawn.RADIUS * low[1]),
    )
    assert "low" in seen.words(root)


def test_a_level_circle_has_no_low_side_and_a_perfect_one_nothing_that_remains():
    flat = [SweptAt(each.name, each.azimuth_deg, 1.0, 0.0) for each in PLACES]
    level = Edge("s", 0.0, None, None, "level")
    told = seen.words(seen.parsed(swept(flat, level, level, TOLD, 3).svg))
    assert "low" not in told and "off: 0.0012" not in told


def test_its_table_says_the_same():
    table = swept(PLACES, SIDE, NOD, TOLD, 3).table
    assert table.rows[0] == ("Front", "1.123", "+0.0012", "")
    assert table.rows[-1] == ("Nod", "+0.120", "", "nodded down 0.120")


@settings(max_examples=40)
@given(
    st.lists(st.tuples(st.floats(0.0, 360.0), *[st.floats(-1e9, 1e9)] * 2), max_size=9),
    st.floats(-1e9, 1e9),
    st.none() | st.floats(-1e9, 1e9),
)
def test_odd_sweeps_are_drawn_the_same_each_time(rows, over, limit):
    places = [SweptAt("p", *row) for row in rows]
    edge = Edge("e", over, limit, None, "says")
    svg = swept(places, edge, edge, TOLD, 3).svg
    assert svg == swept(places, edge, edge, TOLD, 3).svg
    for line in seen.parsed(svg).iter(f"{seen.SVG}line"):
        x1, y1, x2, y2 = ends(line)
        assert max(x1, x2) <= drawn.WIDTH and max(y1, y2) <= drawn.HEIGHT
        assert min(x1, y1, x2, y2) >= 0.0
