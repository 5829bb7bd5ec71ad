"""A sweep without stopping, as the audit takes it: offered, refused by name, recorded whole."""

from dataclasses import replace

import pytest

from daq.audit.events import SweepDone
from daq.audit.recompute import rechecked
from daq.audit.soonest import _steps
from daq.squaring.pace import StepTimes, Timed
from tests.audit.conftest import Bench
from tests.audit.slowly import TURN_S, passed, shown, slow_bench


@pytest.fixture
def bench() -> Bench:
    return slow_bench().start()


def kinds(bench: Bench) -> list[str]:
    return [action["kind"] for action in bench.console["actions"]]


def turn(bench: Bench, side_mm: float = 0.06, nod_mm: float = -0.04, **given) -> SweepDone:
    passed(bench)
    return bench.do("slow-turn", values=shown(side_mm, nod_mm, **given))[0]


def test_a_slow_turn_is_a_whole_sweep_and_the_record_makes_it_again(bench: Bench) -> None:
    assert kinds(bench)[0] == "slow-turn"
    assert bench.console["do"]["kind"] == "slow-turn"
    done = turn(bench)
    assert done.usable
    assert done.results["side"].d_mm == pytest.approx(0.06, abs=0.001)
    assert done.results["nod"].d_mm == pytest.approx(-0.04, abs=0.001)
    assert done.slow is not None
    assert done.slow.lag_s == pytest.approx(0.2, abs=0.03)
    points = {point.position: point.pushed_mm for point in done.points}
    assert points["right"] - points["left"] == pytest.approx(0.06, abs=0.002)
    assert done.next.step == "park"
    terms = {term.code: term.u_mm for term in done.budgets["side"].terms}
    assert 0.0 < terms["term-place"] < 0.005
    assert terms["term-repeatability"] < 0.001
    assert all(each is None for each in rechecked(bench.events, bench.chunks.get))


def test_where_no_switch_tells_it_is_read_standing_still() -> None:
    bench = slow_bench("").start()
    assert "slow-turn" not in kinds(bench)
    assert bench.refused("slow-turn").code == "slow-turn-not-offered"


def test_read_spot_by_spot_it_is_no_slow_turn_any_more(bench: Bench) -> None:
    bench.take("front", 1.0)
    assert "slow-turn" not in kinds(bench)
    assert bench.refused("slow-turn").code == "slow-turn-not-offered"


def test_what_is_not_a_way_round_is_refused_and_the_next_one_counts(bench: Bench) -> None:
    passed(bench, "frbl")
    refused = bench.refused("slow-turn", values=shown(0.06, -0.04))
    assert (refused.code, refused.of["why"].code) == ("slow-turn-not", "round-half-way")
    assert turn(bench).usable


def test_off_contact_on_the_way_is_named_by_its_place(bench: Bench) -> None:
    passed(bench)
    there_s = TURN_S / 4 + 0.2
    numbers = shown(0.06, -0.04, lambda t: -1.1 if abs(t - there_s) < 0.1 else 0.0)
    refused = bench.refused("slow-turn", values=numbers)
    assert (refused.code, refused.of["at"]) == ("off-contact", "right")


def test_a_silence_on_the_way_is_named(bench: Bench) -> None:
    passed(bench)
    few = shown(0.06, -0.04)[: round(TURN_S / 0.02)]
    assert bench.refused("slow-turn", values=few).code == "slow-turn-gap"


def test_a_chip_at_one_place_blocks_the_sweep(bench: Bench) -> None:
    def chip(t: float) -> float:
        there = min(abs(t - 0.2 - TURN_S / 2), abs(t - 0.2 - TURN_S * 1.5))
        return 0.03 if there < 0.15 else 0.0

    done = turn(bench, add=chip)
    assert not done.usable
    assert [flaw.said.of["place"] for flaw in done.findings if flaw.blocking] == ["back"]


def test_one_mark_a_turn_tells_a_nearly_square_head() -> None:
    bench = slow_bench("mark").start()
    passed(bench, "fff", TURN_S)
    done = bench.do("slow-turn", values=shown(0.004, -0.002))[0]
    assert done.usable
    for axis, true in (("side", 0.004), ("nod", -0.002)):
        assert abs(done.results[axis].d_mm - true) < done.budgets[axis].expanded_mm


def test_how_long_it_takes_is_learned_and_what_follows_is_weighed_by_it(bench: Bench) -> None:
    """All that is to be done once more after a sweep that proves nothing ends with a slow turn."""
    usual = StepTimes()
    assert usual.of("round") == 34.0
    since_ns = bench.job.since.mono_ns
    turn(bench)
    took_s = (bench.job.since.mono_ns - since_ns) / 1e9
    assert bench.state.pace.seen["round"] == Timed(1, pytest.approx(took_s))
    again, steps = (_steps(replace(bench.job, setup=setup), "nod").again for setup in setups(bench))
    four_s = 3.0 * usual.of("quarter") + 4.0 * usual.of("read")
    assert again - steps == pytest.approx(bench.state.pace.of("round") - four_s)


def setups(bench: Bench):
    """The setup with the pace so far, and the same without switches on the collar."""
    now = replace(bench.job.setup, pace=bench.state.pace)
    return now, replace(now, machine=replace(now.machine, slow_turn=""))
