"""A reading that drifts steadily, as while a machine warms up: asked once, and taken out."""

import math
from dataclasses import replace

import pytest

from daq.audit.doubt import PAIR_S, of_pair
from daq.audit.head import repeatability
from daq.audit.recompute import differences
from daq.checks.sweep.steady import walked
from daq.words import POSITIONS
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, mill, told

QUARTER_S = 8.0
READ_S = 3.0


class Warming(Machinist):
    """Takes time for each swing, while the gauge drifts; says of a drift what it is told to say."""

    def __init__(self, *given, um_a_minute, says="steady", **more):
        super().__init__(*given, **more)
        self.rate_mm_s = um_a_minute / 60_000.0
        self.says = says
        self.asked = []

    def let(self, seconds):
        self.bench.wait(seconds)
        self.head.zero_mm += self.rate_mm_s * seconds

    def swing(self, position):
        self.let(READ_S + QUARTER_S * self.quarters(position))
        super().swing(position)

    def quarters(self, position):
        """A sweep goes back the way it came."""
        job = self.bench.job
        if job.step in ("as-found", "final") and len(job.reads.taken) == 4:
            return 3
        apart = abs(POSITIONS[position] - POSITIONS.get(self.place, POSITIONS[position])) / 90.0
        return min(apart, 4.0 - apart)

    def step(self):
        if self.bench.job is not None and self.bench.job.step.endswith("-drift"):
            self.asked.append(self.bench.console["question"]["say"])
            return self.bench.do("answer", {"key": self.says})
        return super().step()

    def work(self, *until):
        while self.bench.job is not None and self.bench.job.step not in until:
            self.step()
        return self


def started(um_a_minute, says="steady", side_mm=0.06, nod_mm=-0.08, limit=0.010, **more):
    bench = Bench(setup_of(limit=limit, nod_pivot=150.0, height=400.0, radius=150.0))
    head = RigidHead(mill(radius_mm=150.0), side_mm, nod_mm)
    return Warming(bench, head, um_a_minute=um_a_minute, says=says, **more).start()


def finished(m):
    m.work("clear")
    m.bench.do("cleared")
    past = {"last_good": "2026-01-05", "disposition": "none"}
    signed = m.bench.do("sign", {"done_by": "T", **past})[-1]
    assert list(differences(m.bench.events, m.bench.chunks.__getitem__)) == []
    return signed


@pytest.mark.parametrize("um_a_minute", [3.0, pytest.param(-5.0, marks=pytest.mark.long)])
def test_a_steady_drift_is_asked_about_once_and_no_sweep_is_repeated(um_a_minute):
    m = started(um_a_minute)
    signed = finished(m)
    sweeps = told(m.bench, "SweepDone")
    assert len(m.asked) == 1 and len(sweeps) >= 2
    assert all(sweep.usable for sweep in sweeps)
    assert f"by {um_a_minute / 1000.0:+.3f} mm a minute" in m.asked[0]
    assert signed.verdict == "conforms"
    for axis, result in signed.as_left.items():
        assert result.d_mm == pytest.approx(m.head.true_mm(axis), abs=0.0015)


def test_a_drift_that_is_not_said_to_be_steady_is_another_sweep():
    m = started(3.0, says="sweep-again").work("as-found-drift")
    done = m.step()[-1]
    assert (done.usable, m.bench.job.step, m.bench.job.reads.taken) == (False, "as-found", ())
    assert [flaw.code for flaw in done.findings] == ["return-error"]
    m.work("as-found-drift")
    assert m.bench.job.sweeps.steady_mm_s is None


def test_what_is_left_in_doubt_of_it_is_in_the_budget_of_sweeps_and_pair_checks():
    m = started(3.0).work("park")
    done = m.bench.job.sweeps.latest
    assert [flaw.code for flaw in done.findings] == ["drift-steady"]
    term = next(t for t in done.budgets.side.terms if t.code == "term-return")
    drifted_mm = walked(done.return_error_mm, repeatability(m.bench.job).sd_mm)
    assert term.u_mm == pytest.approx(drifted_mm / 2.0 / math.sqrt(3.0))
    asked_of = m.bench.job
    known, none = (
        of_pair(replace(asked_of, sweeps=replace(asked_of.sweeps, steady_mm_s=rate)), "side", 0.0)
        for rate in (3e-3 / 60.0, None)
    )
    walks_mm = 3e-3 / 60.0 * PAIR_S
    grown = (walks_mm**2 - asked_of.setup.machine.uncertainty.drift**2) / 3.0
    assert known.u_mm**2 - none.u_mm**2 == pytest.approx(grown)


def test_a_drift_of_another_rate_is_asked_about_anew():
    m = started(3.0).work("final")
    m.rate_mm_s *= 3.0
    m.work("final-drift", "clear")
    assert m.bench.job.step == "final-drift"
    assert m.bench.console["question"]["answers"][0]["key"] == "steady"


@pytest.mark.parametrize(
    "reads",
    [
        {"again": 1.206},  # past the tolerance
        {"left": 1.171, "again": 1.204},  # a chip as well
    ],
)
def test_what_a_steady_drift_does_not_explain_is_no_question(reads):
    b = Bench(setup_of(limit=0.0075)).start()
    done = b.sweep(**{"front": 1.2, "right": 1.16, "back": 1.12, "left": 1.16, **reads})
    assert (done.usable, b.job.step) == (False, "as-found")


@pytest.mark.parametrize("happens", ["restarted", "zeroed"])
def test_while_it_is_asked_a_lost_zero_begins_the_sweep_again(happens):
    m = started(3.0, plus_mm=0.4).work("as-found-drift")
    b = m.bench
    if happens == "restarted":
        b.do("restarted")
        b.prepare()
    else:
        b.do("zeroed", {}, [m.face("front")] * 12 + [0.0] * 6)
        assert b.job.message.code == "zeroed-start-again"
    assert (b.job.step, b.job.reads.taken, b.job.asked) == ("as-found", (), None)
