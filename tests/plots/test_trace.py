"""The live number over time, and where a head's pivots act: each mark where its value is."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.plots import pivots as of_pivots
from daq.plots.frame import Level, apart
from daq.plots.pivots import PivotMark, pivots
from daq.plots.trace import FRAME, MOST, DoneAt, NumberAt, TraceWords, thinned, trace
from tests.plots import seen

TOLD = TraceWords("Front", "Says.", "s", "Not kept.", "flagged", ("Seconds", "Number", "Remarks"))
CAME = [NumberAt(0.1 * n, 1.2 + 0.001 * (n % 3), "weak" if n == 7 else "") for n in range(20)]


def close(at):
    return pytest.approx(at, abs=0.11)


def along(root):
    ticks = {
        float(text): x
        for text, (x, y) in seen.words(root).items()
        if y == FRAME.bottom + 21 and seen.number(text)
    }
    (a, xa), (b, xb) = min(ticks.items()), max(ticks.items())
    return lambda at_s: xa + (at_s - a) * (xb - xa) / (b - a)


def test_every_sample_stands_at_its_time_and_value_the_flagged_one_hollow():
    lines = (Level(1.201, "mean 1.2010", "limit"),)
    root = seen.parsed(trace(CAME, lines, TOLD, 3, (0.5, 1.5)).svg)
    up, right = seen.ruler(root, FRAME.left - 8), along(root)
    solid, hollow = seen.of_class(root, "marks")[:2]
    stands = [(close(right(each.at_s)), close(up(each.value))) for each in CAME]
    flagged = stands.pop(7)
    assert seen.dots(solid[0].get("d")) == stands
    assert seen.dots(hollow[0].get("d")) == [flagged]
    (mean,) = seen.of_class(root, "limit")
    assert seen.level(mean) == close(up(1.201)) and "mean 1.2010" in seen.words(root)
    (window,) = seen.of_class(root, "window")
    x, width = float(window.get("x")), float(window.get("width"))
    assert (x, x + width) == (close(right(0.5)), close(right(1.5)))


def test_its_table_has_every_line_sample_flag_and_step_in_order_of_time():
    picture = trace(
        CAME, (Level(1.2, "began at 1.200", "control"),), TOLD, 3, None, [DoneAt(0.75, "A")]
    )
    rows = picture.table.rows
    assert trace(CAME, (Level(1.2, "mean", "limit", 1),), TOLD, 3).table.rows[0][1] == "1.2000"
    assert rows[0] == ("began at 1.200", "1.200", "") and len(rows) == 22
    assert rows[8:10] == (("0.70", "1.201", "weak"), ("0.75", "", "A"))


def test_of_many_no_peak_is_lost():
    many = [NumberAt(0.04 * n, 0.001 * (n % 5), "odd" if n == 1001 else "") for n in range(3000)]
    many[1234] = NumberAt(many[1234].at_s, 0.9)
    many[2345] = NumberAt(many[2345].at_s, -0.9)
    kept = thinned(many)
    assert {many[0], many[-1], many[1001], many[1234], many[2345]} <= set(kept)
    assert len(kept) < 2 * MOST and list(kept) == sorted(kept, key=lambda each: each.at_s)
    assert thinned(CAME) == tuple(CAME)


def test_it_begins_at_no_seconds_however_short_it_is():
    """Six samples at 50 Hz, the last a little early."""
    few = [NumberAt(0.02 * n - 1e-6 * n, -0.35) for n in range(6)]
    told = seen.words(seen.parsed(trace(few, (), TOLD, 3).svg))
    below = {float(text) for text, (_, y) in told.items() if y > FRAME.bottom + 9 and text != "s"}
    assert min(below) == 0.0


def test_samples_that_are_gone_are_said_to_be():
    assert "Not kept." in seen.words(seen.parsed(trace([], (), TOLD, 3).svg))


@settings(max_examples=50)
@given(
    st.lists(st.tuples(st.floats(0.0, 1e6), st.floats(-1e12, 1e12)), max_size=20),
    st.lists(st.floats(-1e12, 1e12), max_size=3),
)
def test_odd_traces_are_drawn_inside_the_picture_and_the_same_each_time(rows, lines):
    came = [NumberAt(at_s, value) for at_s, value in sorted(rows)]
    levels = [Level(each, "line", "limit") for each in lines]
    svg = trace(came, levels, TOLD, 3).svg
    assert svg == trace(came, levels, TOLD, 3).svg
    for path in seen.of_class(seen.parsed(svg), "scribe"):
        for x, y in seen.points(path.get("d")):
            assert FRAME.left <= x <= FRAME.right and FRAME.top <= y <= FRAME.bottom


@given(st.lists(st.floats(0.0, 300.0), max_size=8))
def test_words_beside_a_picture_never_meet(at):
    placed = apart(sorted(at), 17.0, 40.0, 300.0)
    assert all(b - a >= 17.0 - 1e-9 for a, b in pairwise(placed))
    assert all(40.0 <= y <= 300.0 + 1e-9 for y in placed)


def test_a_pivot_stands_at_its_distance_with_its_doubt_either_way():
    head = ("Audit", "Date", "Distance", "Give or take", "Remarks")
    told = of_pivots.PivotWords("pivot-nod", "Nod", "Says.", "None.", "learned", "file", head)
    known = [
        PivotMark("A-1", "2026-01-01", 150.0, 40.0, "/records/1", "from the file"),
        PivotMark("A-2", "2026-02-01", 160.0, 10.0, "/records/2"),
        PivotMark("now", "", 161.0, 8.0),
    ]
    picture = pivots(known, told, 1)
    root = seen.parsed(picture.svg)
    up = seen.ruler(root, of_pivots.FRAME.left - 8)
    marks = seen.audits(root)
    for each, (_, href, ((kind, path),)) in zip(known, marks, strict=True):
        ((_, middle),), ((_, low, high),) = seen.squares(path), seen.uprights(path)
        assert middle == close(up(each.value))
        assert (low, high) == (
            close(up(each.value - each.doubt)),
            close(up(each.value + each.doubt)),
        )
        assert (kind, href or "") == ("hollow" if each.why else "", each.href)
    assert [title for title, _, _ in marks][-1] == "now: 161.0 ±8.0"
    assert picture.table.rows[-1] == ("A-1", "2026-01-01", "150.0", "±40.0", "from the file")
    assert "None." in seen.words(seen.parsed(pivots([], told, 1).svg))
