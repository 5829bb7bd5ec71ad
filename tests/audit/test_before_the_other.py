"""Between two axes' moves: the second one is read first where the first left it in doubt."""

from tests.audit.conftest import Bench
from tests.audit.pupil import audit, head_at, setup
from tests.audit.rigid import told


def first_tight(b, side_mm=0.4, nod_mm=-0.5):
    """The nod moved, tight and checked; the machinist."""
    m = audit(b, head_at(side_mm, nod_mm)).work("tighten")
    m.step()
    assert (b.job.step, b.job.axis, b.job.loose) == ("check", "nod", frozenset())
    m.step()
    m.step()
    return m


def taught_well(audits):
    """A bench on which so many audits were signed."""
    b = Bench(setup())
    for each in range(audits):
        audit(b, head_at(0.4, -0.5 + 0.1 * each)).finish()
    return b


def test_an_axis_left_in_doubt_by_the_other_move_is_checked_before_its_own():
    b = Bench(setup())
    m = first_tight(b)
    assert (b.job.step, b.job.axis) == ("check", "side")
    assert b.console["title"] == "Turn to the left and take the reading."
    said = "A pair check: the other move may have changed side to side too."
    assert b.console["detail"] == said
    m.step()
    # It ends where the gauge is to be parked for the move.
    assert b.console["title"] == "Turn to the right and take the reading."
    m.step()
    assert (b.job.step, b.job.axis) == ("park", "side")
    checked = told(b, "CheckDone")[-1]
    assert (checked.axis, checked.shift_mm, checked.before_tightening_mm) == ("side", None, None)


def test_that_check_teaches_how_the_one_turn_answers_on_the_other_axis():
    b = Bench(setup())
    m = first_tight(b)
    before = b.job.head.learned.answering
    m.step()
    m.step()
    after = b.job.head.learned.answering
    assert after.coupling_doubt("nod") < 0.25 * before.coupling_doubt("nod")
    assert abs(after.coupling("nod") + 0.02) < 3.0 * after.coupling_doubt("nod")


def test_the_stop_at_starts_from_what_the_check_read():
    b = Bench(setup())
    m = first_tight(b).work("loosen")
    read_mm, found_mm = (
        told(b, "CheckDone")[-1].results.side.d_mm,
        told(b, "SweepDone")[0].results.side.d_mm,
    )
    # The nod's turn of 0.500 leaned the side by 2 % of it: the machine's file says nothing of it.
    assert abs(read_mm - found_mm) > 0.008
    assert abs(read_mm - m.head.true_mm("side")) < 0.0015
    assert abs(b.job.stop.lean * 200.0 - read_mm) < 0.001


def test_a_head_whose_answers_are_known_goes_straight_on():
    b = taught_well(3)
    first_tight(b)
    assert (b.job.step, b.job.axis) == ("park", "side")


def test_a_check_that_could_tell_no_better_is_not_asked_for():
    """A gauge of 0.05 mm: a pair of its readings is in more doubt than the move left."""
    b = Bench(setup(gauge={"resolution": 0.05}))
    first_tight(b)
    assert (b.job.step, b.job.axis) == ("park", "side")
