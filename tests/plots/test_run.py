"""The run of audits: each mark where its value is, its limits where published ones lie."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.metrology.charts import individuals
from daq.plots.frame import Level
from daq.plots.run import FRAME, MOST, Mark, RunWords, run
from tests.plots import seen
from tests.published.test_control_charts import DATA

HEAD = ("Audit", "Date", "As found", "As left", "Allowed", "Smoothed", "Remarks")
TOLD = RunWords(
    "run-nod", "Nod", "Says.", "None yet.", "up", "down", "found", "left", "hollow", HEAD
)
VALUE = st.none() | st.floats(-1e12, 1e12)


def pair(n, found=0.0, left=0.0, **more):
    return Mark(f"A-{n}", f"2026-01-{1 + n % 28:02d}", f"/records/id-{n}", found, left, **more)


def close(at):
    """To the decimal that is written, and half a mark's."""
    return pytest.approx(at, abs=0.11)


def test_a_square_stands_as_found_a_dot_as_left_and_a_stroke_joins_them():
    values = [(0.012, -0.003), (-0.02, 0.001), (0.006, 0.0)]
    root = seen.parsed(run([pair(n, *v) for n, v in enumerate(values)], (), (), TOLD, 3).svg)
    up = seen.ruler(root, FRAME.left - 8)
    drawn = [paths[-1][1] for _, _, paths in seen.audits(root)]
    xs = []
    for (found, left), path in zip(values, drawn, strict=True):
        (square,), (dot,), (stroke,) = (f(path) for f in (seen.squares, seen.dots, seen.uprights))
        xs.append(dot[0])
        assert square == (close(dot[0]), close(up(found)))
        assert dot[1] == close(up(left))
        assert stroke == (close(dot[0]), close(up(found)), close(up(left)))
    assert xs == sorted(xs) and xs[-1] < FRAME.right, "the newest stands at the right"


def test_control_limits_stand_where_the_published_ones_lie():
    """NIST/SEMATECH e-Handbook 6.3.2.2: 55.8041 and 45.8159 of the last ten values."""
    chart = individuals(DATA[-10:])
    lines = [Level(at, "limit", "control") for at in (chart.low, chart.high)]
    drawn = run([pair(n, at) for n, at in enumerate(DATA[-10:])], lines, (), TOLD, 1)
    root = seen.parsed(drawn.svg)
    up = seen.ruler(root, FRAME.left - 8)
    low, high = (seen.level(each) for each in seen.of_class(root, "control"))
    assert (low, high) == (close(up(45.8159)), close(up(55.8041)))


def test_the_tolerance_is_each_audits_own():
    changed = [pair(n, 0.001, low=-0.01, high=0.025 if n < 2 else 0.015) for n in range(4)]
    root = seen.parsed(run(changed, (), (), TOLD, 3).svg)
    up = seen.ruler(root, FRAME.left - 8)
    lines = [
        (seen.level(each), float(each.get("x1")), float(each.get("x2")))
        for each in seen.of_class(root, "limit")
    ]
    low, first, second = lines
    assert (low[0], first[0], second[0]) == (close(up(-0.01)), close(up(0.025)), close(up(0.015)))
    assert first[2] == close(second[1]) and (low[1], low[2]) == (close(first[1]), close(second[2]))


def test_the_smoothed_line_is_thick_where_it_has_drifted():
    run_of = [pair(n, 0.01, smoothed=0.001 * n, drifted=n in (2, 3)) for n in range(5)]
    root = seen.parsed(run(run_of, (), (), TOLD, 3).svg)
    (thin,), (thick,) = seen.of_class(root, "smooth"), seen.of_class(root, "smooth drifted")
    along = seen.points(thin.get("d"))
    up = seen.ruler(root, FRAME.left - 8)
    assert [y for _, y in along] == [close(up(0.001 * n)) for n in range(5)]
    assert seen.points(thick.get("d")) == along[1:4]


@pytest.mark.parametrize("hollow", ["", "found", "both"])
def test_what_does_not_count_is_hollow_with_its_reason(hollow):
    why = "After a crash." if hollow else ""
    picture = run([pair(0, 0.01, 0.0, hollow=hollow, why=why)], (), (), TOLD, 3)
    ((title, _, paths),) = seen.audits(seen.parsed(picture.svg))
    hollows = "".join(path for kind, path in paths if kind == "hollow")
    assert (len(seen.squares(hollows)), len(seen.dots(hollows))) == (
        int(hollow != ""),
        int(hollow == "both"),
    )
    assert title.endswith("After a crash.") == bool(why)
    assert (picture.table.rows[0][-1] == "After a crash.") == bool(why)


def test_an_as_found_without_a_value_stands_hollow_at_the_foot():
    off = pair(0, None, 0.001, hollow="found", why="Found off the gauge's scale.")
    ((title, _, paths),) = seen.audits(seen.parsed(run([off], (), (), TOLD, 3).svg))
    ((_, y),) = seen.squares(next(path for kind, path in paths if kind == "hollow"))
    assert y == FRAME.bottom and title == "A-0 2026-01-01: +0.001. Found off the gauge's scale."


def test_a_value_far_out_is_a_wedge_at_the_edge_and_is_written_in_full():
    far = [pair(0, 0.4, 0.0, low=-0.025, high=0.025), pair(1, 0.01, low=-0.025, high=0.025)]
    picture = run(far, (), (), TOLD, 3)
    (title, _, (first, *_)), _ = seen.audits(seen.parsed(picture.svg))[0], None
    assert not seen.squares(first[1]) and "l-" in first[1] and "+0.400" in title
    assert picture.table.rows[-1][2] == "+0.400"


def test_each_audit_is_one_link_as_tall_as_the_picture():
    root = seen.parsed(run([pair(n) for n in range(40)], (), (), TOLD, 3).svg)
    assert [href for _, href, _ in seen.audits(root)] == [f"/records/id-{n}" for n in range(40)]
    ((_, area),) = [
        (each.get("id"), each.get("d")) for each in root.iter() if each.get("id") == "run-nod-at"
    ]
    assert area.startswith(f"M0 {FRAME.top:g}h") and f"v{FRAME.bottom - FRAME.top:g}h" in area
    uses = [each for each in root.iter() if each.tag.endswith("use")]
    assert {each.get("href") for each in uses} == {"#run-nod-at"} and len(uses) == 40
    assert root.get("role") == "group"
    paper = run([Mark("A-1", "2026-01-01", found=0.1)], (), (), TOLD, 3).svg
    assert seen.parsed(paper).get("role") == "img" and "<a" not in paper


def test_the_table_says_what_the_picture_does_the_newest_first():
    shown = [pair(n, 0.001 * n, -0.001 * n, low=-0.02, high=0.025, smoothed=0.0) for n in range(3)]
    table = run(shown, (), (), TOLD, 3).table
    assert table.head == HEAD and table.caption == "Nod"
    first = ("A-2", "2026-01-03", "+0.002", "-0.002", "-0.020 / +0.025", "0.000", "")
    assert table.rows[0] == first and [row[0] for row in table.rows] == ["A-2", "A-1", "A-0"]
    some = RunWords(
        "k", "a", "b", "c", "d", "e", "", "f", "", ("Audit", "", "", "Shift", "", "", "")
    )
    assert run(shown, (), (), some, 3).table.rows[0] == ("A-2", "-0.002")


def test_none_says_so():
    picture = run([], (), (), TOLD, 3)
    assert "None yet." in seen.words(seen.parsed(picture.svg)) and picture.table.rows == ()


def test_more_than_fit_are_refused():
    with pytest.raises(ValueError, match="found 201; allowed: at most 200"):
        run([pair(n) for n in range(MOST + 1)], (), (), TOLD, 3)


@settings(max_examples=60)
@given(st.lists(st.tuples(VALUE, VALUE, VALUE, VALUE, st.booleans()), max_size=12))
def test_odd_numbers_are_drawn_inside_the_picture_and_the_same_each_time(rows):
    pairs = [
        pair(n, found, left, high=high, smoothed=smoothed, drifted=odd, hollow="both" * odd)
        for n, (found, left, high, smoothed, odd) in enumerate(rows)
    ]
    lines = (Level(1.0, "one", "control"),)
    svg = run(pairs, lines, lines, TOLD, 3).svg
    assert svg == run(tuple(pairs), lines, lines, TOLD, 3).svg
    root = seen.parsed(svg)
    for _, _, paths in seen.audits(root):
        for x, y in (at for _, path in paths for at in seen.dots(path) + seen.squares(path)):
            assert FRAME.left <= x <= FRAME.right and FRAME.top - 1 <= y <= FRAME.bottom + 1
    assert len(seen.audits(root)) == len(rows)
