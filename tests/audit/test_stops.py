"""A stop pressed with far to go is asked about before anything is made of it."""

import pytest

from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told
from tests.words import en


def made(limit=0.025, radius=100.0, gauge=None, **more):
    return changed(setup_of(limit=limit, height=400.0, radius=radius), gauge=gauge, **more)


def at_the_move(side_mm=0.0, nod_mm=0.5, setup=None, head=None, **hands):
    """Parked, read and cracked; the machinist."""
    setup = setup or made()
    head = head or RigidHead(mill(radius_mm=setup.machine.sweep_radius), side_mm, nod_mm)
    return Machinist(Bench(setup), head, **hands).start().work("move")


def pressed(m):
    """The stop is pressed with the gauge as it stands."""
    return m.bench.do("stopped", {}, [m.face(m.place)] * 10)


@pytest.mark.parametrize(("side_mm", "nod_mm"), [(0.0, 0.5), (0.0, -0.5), (0.5, 0.1), (-0.2, 0.0)])
def test_a_stop_pressed_before_anything_was_turned_is_asked_about(side_mm, nod_mm):
    m = at_the_move(side_mm, nod_mm)
    b = m.bench
    before, stop = b.job, b.job.stop
    to_go = f"{abs(stop.stop_face_mm - m.face(m.place)):.3f}"
    (asked,) = pressed(m)
    assert (b.job.step, b.job.axis) == ("question", stop.axis)
    assert b.console["title"] == f"{to_go} to go: stopped here on purpose?"
    first, second = b.console["actions"][:2]
    assert (first["say"], first["primary"], first["key"]) == ("No, turn further", True, "Enter")
    assert (second["say"], second["primary"]) == ("Yes, stopped on purpose", False)
    assert asked.past_face_mm == pytest.approx(m.face(m.place) - stop.stop_face_mm)
    # Nothing is made of it: no move, nothing read, nothing learned.
    assert (b.job.moves.made, b.job.head.story, b.job.stop) == (0, before.head.story, stop)
    b.do("answer", {"key": "turn-on"})
    assert (b.job.step, b.job.axis, b.job.stop) == ("move", stop.axis, stop)
    assert (b.job.moves.made, b.job.head.story, b.job.base) == (0, before.head.story, before.base)
    assert b.aim.stop_face_mm == stop.stop_face_mm
    assert m.finish().verdict == "conforms"


def test_two_presses_in_a_row_tighten_nothing():
    """Cracked, and pressed again in the same breath; the third press turns on."""
    m = Machinist(Bench(made()), RigidHead(mill(), 0.5, 0.475)).start().work("loosen")
    for press in ("loosened", "stopped"):
        m.bench.do(press, {}, [m.face(m.place)] * 10)
    assert m.bench.job.step == "question"
    m.step()
    assert m.bench.job.step == "move"
    assert m.finish().moves == 2


def test_a_stop_on_purpose_is_a_move_that_ends_there():
    m = at_the_move()
    pressed(m)
    (moved,) = m.bench.do("stopped", {"on_purpose": True}, [m.face(m.place)] * 10)
    assert moved.reading.mean_mm == pytest.approx(m.face(m.place))
    assert en(moved).endswith("short of the stop-at. The check takes it as it stands.")
    assert (m.bench.job.step, m.bench.job.moves.made) == ("check", 1)


def test_pressed_once_more_where_it_was_asked_about_it_goes_no_further():
    """An adjuster at its end: the number stands, and asking for ever would lead nowhere."""
    m = at_the_move()
    pressed(m)
    m.bench.do("answer", {"key": "turn-on"})
    pressed(m)
    assert (m.bench.job.step, m.bench.job.moves.made) == ("check", 1)


def test_further_on_but_not_there_it_is_asked_again():
    m = at_the_move()
    pressed(m)
    m.bench.do("answer", {"key": "turn-on"})
    m.head.shift("nod", -0.1)
    pressed(m)
    assert m.bench.job.step == "question"


def gone_past(by_mm):
    """Turned past the stop-at by so much, and pressed."""
    m = at_the_move()
    m.miss_mm = by_mm * (1.0 if m.bench.job.stop.stop_face_mm > m.face(m.place) else -1.0)
    m.step()
    return m


@pytest.mark.parametrize("by_mm", [0.024, 0.3])
def test_a_turn_past_what_would_leave_the_axis_out_is_brought_back_before_anything_is_made_of_it(
    by_mm,
):
    """±0.025 over 300 is ±0.0167 on 200, where the parked gauge shows 250: ±0.021."""
    m = gone_past(by_mm)
    console = m.bench.console
    assert console["title"] == f"{by_mm:.3f} past: bring it back, then press."
    assert console["detail"] == "Come to it slowly, always from the same side."
    back, stays = console["actions"][:2]
    assert (back["kind"], back["say"], back["primary"]) == ("stopped", "Brought back", True)
    assert (stays["say"], stays["payload"]) == ("It stopped here on purpose", {"on_purpose": True})
    assert console["do"]["stop_at_text"] == console["stop_at"]["value"]
    # A foot that presses once more changes nothing.
    pressed(m)
    assert (m.bench.job.step, m.bench.job.moves.made) == ("question", 0)
    m.miss_mm = 0.0
    m.step()
    (moved,) = told(m.bench, "Moved")
    assert (m.bench.job.step, moved.said) == ("check", None)
    assert moved.past_face_mm == pytest.approx(0.0, abs=0.001)


def test_what_is_past_may_stay_so_on_purpose():
    m = gone_past(0.024)
    (moved,) = m.bench.do("stopped", {"on_purpose": True}, [m.face(m.place)] * 10)
    assert en(moved).startswith("It stopped 0.024 past the stop-at.")
    assert m.bench.job.step == "check"
    m.miss_mm = 0.0
    assert m.finish().verdict == "conforms"


@pytest.mark.parametrize(
    ("across_mm", "step"),
    [(0.010, "check"), (0.018, "question"), (-0.010, "check"), (-0.018, "question")],
    ids=["short, within the limit", "more", "past, within the limit", "more, past"],
)
@pytest.mark.parametrize("sense", [1.0, -1.0], ids=["counts up", "counts down"])
def test_asked_is_what_would_leave_the_axis_out(across_mm, step, sense):
    """±0.025 over 300 is ±0.0167 on 200, less the guard; the parked gauge sees 250 of 200."""
    m = at_the_move(setup=made(gauge={"counts_up": sense > 0.0}), sense=sense)
    # The way to the stop-at raises the number: nod stands front low by 0.5.
    m.miss_mm = across_mm * 250.0 / 200.0 * (1.0 if m.bench.job.stop.lean > 0.0 else -1.0)
    m.step()
    assert m.bench.job.step == step


@pytest.mark.parametrize(("miss_mm", "step"), [(0.0254, "check"), (0.05, "question")])
def test_what_two_counts_show_is_not_asked_about(miss_mm, step):
    coarse = made(limit=0.010, gauge={"resolution": 0.0127})
    m = at_the_move(setup=coarse, miss_mm=miss_mm)
    m.step()
    assert m.bench.job.step == step


def test_the_question_can_be_taken_back():
    m = at_the_move()
    stop = m.bench.job.stop
    pressed(m)
    m.bench.do("undo")
    assert (m.bench.job.step, m.bench.job.stop, m.bench.job.asked) == ("move", stop, None)


def test_the_record_says_that_it_was_asked():
    m = at_the_move()
    pressed(m)
    (asked,) = told(m.bench, "StopDoubted")
    assert asked.question.said.code == "stop-far"
    assert [answer.usual for answer in asked.question.answers] == [True, False]


def test_said_to_be_on_purpose_the_gauge_is_read_as_it_stands_then():
    m = at_the_move()
    pressed(m)
    stop = m.bench.job.stop
    m.turn(stop.axis, stop.stop_face_mm)
    (yes,) = [a for a in m.bench.console["actions"] if a["payload"].get("on_purpose")]
    (moved,) = m.bench.do(yes["kind"], yes["payload"], [m.face(m.place)] * 10)
    assert moved.past_face_mm == pytest.approx(0.0, abs=0.001)
    assert moved.said is None


def test_while_it_is_asked_hands_are_off_and_a_cut_line_stops_them():
    m = at_the_move()
    pressed(m)
    console = m.bench.console
    assert console["detail"] == "Hands off until that is answered."
    assert console["halt"]["say"].startswith("STOP turning")
    assert "Watch the gauge's travel." in console["cautions"]
