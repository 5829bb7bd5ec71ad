"""Zeroed, lifted, away, doubted, left as it is: from everywhere there is a way on."""

from tests.words import en


def test_a_lift_of_a_gauge_zeroed_in_the_air_is_not_taken_for_a_zero(bench):
    """Free reading 0: lifted it reads 0 too. The free reading, taken again, tells."""
    b = bench().start(free=0.0)
    b.take("front", 1.2)
    b.do("zeroed", {}, [1.2] * 8 + [0.6] + [0.0] * 6)
    assert b.job.step == "touch-free"
    assert "or the contact was lifted" in b.console["message"]["say"]
    b.do("take", {}, [0.0] * 10)
    assert b.console["message"]["say"] == "Not zeroed: carry on."
    assert [r.position for r in b.job.reads.taken] == ["front"]
    assert b.refused("take", {"position": "right"}, [0.0] * 10).code == "off-contact"
    b.take("right", 1.16)
    assert b.job.gauge.free_pushed_mm == 0.0


def test_a_gauge_zeroed_in_the_air_and_zeroed_again_on_the_surface(bench):
    b = bench().start(free=0.0)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("zeroed", {}, [1.200] * 12 + [0.000] * 5)
    assert b.console["stop_at"] is None
    b.do("take", {}, [-1.2] * 10)
    assert b.console["message"]["say"] == "Zeroed: read this spot again."
    b.take("front", 0.000)
    assert b.console["stop_at"]["value"] == "-0.100"


def test_a_zero_nobody_saw_is_found_by_the_touch_test(bench):
    b = bench().start(free=0.0)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    said = b.refused("take", {"position": "front"}, [0.0] * 10)
    assert "do the touch test again" in en(said)
    b.do("touch")
    b.do("take", {}, [-1.2] * 10)
    b.take("front", 0.000)
    assert b.console["stop_at"]["value"] == "-0.100"


def test_a_zero_is_no_push(bench):
    b = bench()
    b.do("open", {"reason": "scheduled"})
    b.do("prepared", {"serial_number": "P-1"})
    b.do("take", {}, [-1.2] * 10)
    (event,) = b.do("pushed", {}, [-1.2] * 8 + [0.0] * 6)
    assert not event.ok and b.job.step == "touch-free"


def test_after_the_gauge_was_away_the_spot_is_read_again(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("gauge-fault", {"code": "unplugged"})
    b.do("gauge-back", {"run": "run-2", "gauge": "arm"})
    assert b.console["stop_at"] is None and b.job.step == "park"
    b.take("front", 1.200)
    b.do("loosened", {}, [1.18] * 10)
    b.do("gauge-back", {"run": "run-2", "gauge": "arm"})
    assert b.job.step == "check" and b.job.base is None


def test_another_sweep_forgets_the_base_it_makes_stale(bench):
    b = bench().start(free=0.1)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("zeroed", {}, [1.200] * 12 + [0.000] * 5)
    b.do("again", {"why": "zeroed"})
    b.sweep(front=0.0, right=0.06, back=0.0, left=-0.06)
    assert b.job.axis == "side" and "at the right" in b.console["title"]
    b.take("right", 0.06)
    assert b.console["stop_at"]["value"] == "0.000"


def test_two_zeros_under_a_question_leave_no_stale_base(bench):
    b = bench().start(free=0.1)
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.700)
    b.do("zeroed", {}, [1.7] * 12 + [0.0] * 5)
    assert b.job.base is None
    b.do("zeroed", {}, [0.3] * 12 + [0.0] * 5)
    b.take("front", 0.0)
    assert b.job.step == "question"


def test_labels_put_right_also_put_the_verdict_right(bench):
    b = bench(wanted_side=0.0003).start(free=-2.0)
    b.sweep(front=0.0, right=-0.030, back=0.0, left=0.030)
    b.take("right", 0.030)
    b.do("answer", {"key": "other-way"})
    assert b.job.step == "clear"
    assert b.console["verdict"]["word"] == "in"
    b.do("cleared")
    b.do("sign", {"done_by": "T"})
    assert b.shop.machine("mill").last.signed.verdict == "conforms"


def test_a_head_left_as_it_is_can_be_signed_as_not_conforming(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    assert b.refused("stop-here", {"why": " "}).code == "stopped-without-why"
    b.do("stop-here", {"why": "no authority to adjust"})
    b.do("cleared")
    past = {"last_good": "2026-01-05", "disposition": "held"}
    b.do("sign", {"done_by": "T", **past})
    assert b.shop.machine("mill").last.signed.verdict == "does-not-conform"


def test_loose_bolts_can_always_be_recorded_as_tight(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    assert b.refused("tightened").code == "tight-already"
    b.do("loosened", {}, [1.18] * 10)
    b.do("tightened")
    assert b.job.step == "check" and not b.job.loose
    b.take("front", 1.2)
    b.take("back", 1.12)
    b.do("stop-here", {"why": "end of shift"})
    assert b.job.step == "final"
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    assert b.job.step == "clear"


def test_a_doubt_while_loose_is_settled_by_checking_the_axis(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.18] * 10)
    b.do("stopped", {}, [1.15] * 10)
    b.do("stopped", {"on_purpose": True}, [1.15] * 10)
    b.take("front", 1.15)
    b.take("back", 1.10)
    b.take("front", 1.7)
    keys = [a["key"] for a in b.console["question"]["answers"]]
    assert keys == ["read-again", "zeroed", "set-anew", "check-again"]
    b.do("answer", {"key": "check-again"})
    assert b.job.step == "check"


def test_a_doubted_sweep_stays_the_as_found_until_another_is_chosen(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.700)
    b.do("answer", {"key": "sweep-again"})
    done = b.sweep(front=1.7, right=1.7, back=1.7, left=1.7)
    assert (done.purpose, done.why.code) == ("as-found", "spot-differs")
    assert [sweep.number for sweep in b.job.sweeps.founds] == [1, 2]
    assert b.job.sweeps.as_found.number == 1
    b.do("cleared")
    why = {"as_found": 2, "as_found_why": "bumped before it was parked"}
    past = {"last_good": "2026-01-05", "disposition": "held"}
    b.do("sign", {"done_by": "T", **past, **why})
    signed = b.shop.machine("mill").last.signed
    assert signed.as_found == done.results


def test_a_pair_check_may_begin_on_the_other_side(bench):
    b = bench().start()
    b.sweep(front=1.200, right=1.160, back=1.120, left=1.160)
    b.take("front", 1.200)
    b.do("loosened", {}, [1.18] * 10)
    b.do("stopped", {}, [1.1] * 10)
    b.take("back", 1.1)
    assert b.console["do"] == {"kind": "swing", "position": "front", "flick": False}
    b.take("front", 1.1)
    assert b.job.step == "tighten"
