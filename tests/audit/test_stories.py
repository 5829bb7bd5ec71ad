"""What a machinist lives through, told through the fold."""

import pytest

from daq.audit.events import Loosened, Parked
from tests.words import en


def test_base_is_the_clamped_reading_and_the_drop_does_not_move_the_stop_at(bench):
    """R 100, nod pivot 150 behind, base 1.200 at front, D_nod +0.080: stop at 1.100."""
    b = bench(radius=100.0, nod_pivot=150.0).start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    assert b.job.axes.results["nod"].d_mm == pytest.approx(0.080, abs=1e-9)
    b.take("front", 1.200)
    assert b.console["stop_at"]["value"] == "1.100"
    (event,) = b.do("loosened", {}, [1.180] * 10)
    assert isinstance(event, Loosened)
    assert event.drop_face_mm == pytest.approx(-0.020, abs=1e-9)
    assert b.console["stop_at"]["value"] == "1.100"
    assert b.aim.stop_face_mm == pytest.approx(1.100, abs=1e-6)


def test_swept_the_other_way_round_is_asked_about_before_any_stop_at(bench):
    b = bench().start(free=-2.0)
    b.sweep(front=0.0, right=-0.060, back=0.0, left=0.060)
    (event,) = b.take("right", 0.060)
    assert isinstance(event, Parked) and event.stop is None
    said = b.console["question"]["say"]
    assert said == "This spot read -0.060, now +0.060: went round the other way?"
    assert b.console["stop_at"] is None and b.aim is None
    assert b.refused("loosened", {}, [0.060] * 10).of["asked"] == "loosened"
    b.do("answer", {"key": "other-way"})
    assert b.job.axes.results["side"].d_mm == pytest.approx(0.120, abs=1e-9)
    assert b.console["stop_at"]["value"] == "0.000"
    assert b.job.sweeps.as_found.results.side.d_mm == pytest.approx(0.120, abs=1e-9)


def test_nod_parked_at_the_back_is_sent_to_the_front(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    said = b.refused("take", {"position": "back"}, [1.120] * 10)
    assert en(said) == "The gauge hardly moves here: park at front."


def test_only_the_axis_that_is_out_is_named(bench):
    b = bench().start()
    b.sweep(front=1.002, right=1.060, back=1.000, left=0.942)
    assert b.job.axis == "side"
    for page in (b.console, _after(b, "take", {"position": "right"}, [1.060] * 10)):
        words = f"{page['title']} {page['detail']}"
        assert "nod" not in words.lower()
        assert page["notes"] == ["Leave the nod bolts alone."]
    assert "Crack the side bolts." in b.console["title"]


def _after(b, kind, payload, values):
    b.do(kind, payload, values)
    return b.console


def test_a_zero_after_parking_takes_the_stop_at_away(bench):
    b = bench().start(free=0.1)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    assert b.console["stop_at"]["value"] == "1.100"
    b.do("zeroed", {}, [1.200] * 12 + [0.000] * 5)
    assert b.console["stop_at"] is None and b.aim is None
    assert b.console["message"]["say"] == "Zeroed: read this spot again."
    assert b.refused("stopped", {}, [0.0] * 10).of["asked"] == "stopped"
    b.take("front", 0.000)
    assert b.console["stop_at"]["value"] == "-0.100"
    assert b.job.step == "loosen"


def test_a_zero_while_loose_carries_the_base_over(bench):
    """Base 1.200, dropped to 1.180, zeroed there: from here the stop is at −0.080."""
    b = bench().start(free=0.1)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.180] * 10)
    b.do("zeroed", {}, [1.180] * 12 + [0.000] * 5)
    b.take("front", 0.000)
    assert b.job.step == "move"
    assert b.console["stop_at"]["value"] == "-0.080"


def test_a_zero_in_the_middle_of_a_sweep_starts_it_again(bench):
    b = bench().start(free=0.1)
    b.take("front", 1.200)
    b.take("right", 1.160)
    b.do("zeroed", {}, [1.160] * 12 + [0.000] * 5)
    assert b.job.reads.taken == () and b.job.step == "as-found"
    b.sweep(front=0.040, right=0.000, back=-0.040, left=0.000)
    assert b.job.axes.results["nod"].d_mm == pytest.approx(0.080, abs=1e-9)


def test_a_parked_reading_like_no_other_asks_whether_it_was_zeroed(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.700)
    assert b.console["question"]["say"] == ("This spot read +1.200, now +1.700: zeroed or bumped?")
    b.do("answer", {"key": "zeroed"})
    assert b.console["stop_at"]["value"] == "1.600"


def test_a_head_inside_is_left_alone(bench):
    b = bench().start()
    b.sweep(front=1.001, right=1.000, back=1.000, left=1.001)
    assert b.job.step == "clear"
    assert b.console["detail"] == "Leave it: square, in tolerance."


def test_check_only_reports_and_turns_nothing(bench):
    b = bench().start("check-only")
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    assert b.job.step == "clear"
    assert b.console["detail"] == "Out: nodded down 0.080."
    assert [a["kind"] for a in b.console["actions"] if a["primary"]] == ["cleared"]


def test_a_return_error_past_its_limit_means_another_sweep(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160, again=1.206)
    done = b.do("answer", {"key": "sweep-again"})[-1]
    assert not done.usable
    assert b.job.step == "as-found" and b.job.reads.taken == ()
    assert "0.006" in b.console["message"]["say"]


def test_the_contact_in_the_air_is_no_reading(bench):
    b = bench().start(free=0.5)
    said = b.refused("take", {"position": "front"}, [0.501] * 10)
    assert "Off contact at front. The contact is not on the surface" in en(said)


def test_a_gauge_that_counts_down_is_shown_as_its_own_face(bench):
    """The same head seen by a gauge that counts down: every shown number changes its sign."""
    b = bench(counts_up=False).start(free=0.0, up=-1.0)
    b.sweep(front=-1.200, right=-1.160, back=-1.120, left=-1.160)
    assert b.job.axes.results["nod"].d_mm == pytest.approx(0.080, abs=1e-9)
    b.take("front", -1.200)
    assert b.console["stop_at"]["value"] == "-1.100"
    assert b.console["stop_at"]["way"] == "up"


def test_a_push_the_wrong_way_is_said_and_not_believed(bench):
    b = bench(counts_up=False)
    b.do("open", {"reason": "scheduled"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [0.0] * 10)
    (event,) = b.do("pushed", {}, [0.0, 0.9, 0.0])
    assert not event.ok and "counts down" in en(event)
    assert b.job.step == "touch-push"
    (event,) = b.do("pushed", {}, [0.0, 0.01, 0.0])
    assert "did not move" in en(event)
    assert b.console["message"]["say"] == en(event)
