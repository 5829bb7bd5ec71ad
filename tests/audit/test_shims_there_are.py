"""Shims that the shop has: none is asked for that there is not, and no audit goes on for ever."""

import random

import pytest

from daq.metrology.rule import Rule
from daq.squaring.adjuster import Adjust
from tests.audit.conftest import Bench, setup_of
from tests.audit.rigid import Machinist, RigidHead, changed, mill, told

STEP = Adjust("shim", bolt_spacing=200.0, shim_step=0.05)
SHELF = Adjust("shim", bolt_spacing=200.0, shims=(0.05, 0.1, 0.2, 0.5))
FINE = Adjust("shim", bolt_spacing=200.0, shims=(0.02, 0.03, 0.05, 0.1, 0.2, 0.3))
LIMIT_MM = 0.025 * 200.0 / 300.0


class Fitter(Machinist):
    """Puts in what is asked for, no less and no more."""

    def turn(self, axis, reads):
        shim = self.bench.job.stop.shim
        if shim is None:
            return super().turn(axis, reads)
        spec = self.bench.setup.machine.axis(axis).adjust
        across = shim.thickness_mm / spec.bolt_spacing * 2.0 * self.head.spec.radius_mm
        self.head.shift(axis, -across if shim.place == spec.shim_places[0] else across)
        return None


def made(adjust, rule="guarded"):
    setup = setup_of(limit=0.025, height=400.0)
    return changed(setup, nod={"adjust": adjust}, machine={"verdict": Rule(rule)})


def fitter(adjust, side_mm, nod_mm, rule="guarded", spec=None, shifts=None):
    head = RigidHead(spec or mill(), side_mm, nod_mm)
    return Fitter(Bench(made(adjust, rule)), head, shifts).start()


def asked(bench):
    return [data.shim for data in told(bench, "Shimmed")]


def test_the_two_that_come_nearest_are_asked_for_and_what_they_leave_is_judged():
    m = fitter(SHELF, 0.0, 0.304, "simple").work("shim")
    console, shim = m.bench.console, m.bench.job.stop.shim
    assert console["title"] == "Put 0.200 + 0.100 shims behind the lower bolts."
    left = "The nearest there is leaves 0.004 mm over 200 mm: inside."
    assert console["detail"].startswith(left)
    assert (shim.stack, shim.word) == ((0.2, 0.1), "in")
    assert shim.leaves_mm == pytest.approx(0.004, abs=0.001)
    assert list(console["why"]) == [
        "The shim: 0.300 mm (0.200 mm + 0.100 mm).",
        "Nodded down by 0.3040 mm across the sweep, the bolts 200 mm apart: 1.00 times that, "
        "+0.3040 mm.",
        "Side to side: nothing is left for its move.",
        "Tightening: nothing is left for it; it may do 0.0104 mm either way.",
        "The nearest shim that there is: -0.0040 mm.",
    ]
    because = m.bench.job.stop.because
    assert because.sum_mm == pytest.approx(shim.thickness_mm, abs=1e-9)
    signed = m.finish()
    assert (signed.verdict, signed.moves) == ("conforms", 1)


def test_the_shares_add_up_to_the_thickness_wherever_it_goes():
    spec = mill(side=(0.0, 0.05), nod=(150.0, 0.05))
    m = fitter(FINE, 0.3, -0.33, spec=spec, shifts={"nod": 0.03})
    m.finish()
    stops = [data.stop for data in told(m.bench, "Parked") if data.stop and data.stop.shim]
    assert {stop.shim.place for stop in stops} == {"the lower bolts", "the upper bolts"}
    for stop in stops:
        assert stop.because.sum_mm == pytest.approx(stop.shim.thickness_mm, abs=1e-9)


def test_half_a_step_out_is_left_and_it_is_said_that_no_shim_would_do():
    m = fitter(STEP, 0.0, 0.022, "simple").work("clear")
    assert asked(m.bench) == []
    said = "No shim here brings Nod inside: 0.022 mm is left at best."
    assert said in m.bench.console["decides"]
    signed = m.finish()
    assert (signed.verdict, signed.moves) == ("does-not-conform", 0)


def test_what_no_shim_brings_inside_is_brought_nearer_once_and_ends():
    m = fitter(STEP, 0.0, 0.273, "simple").work("shim")
    left = "The nearest there is leaves 0.023 mm over 200 mm: outside."
    assert m.bench.console["detail"].startswith(left)
    m.work("tighten")
    said = "No shim here brings Nod inside: 0.023 mm is left at best."
    assert said in m.bench.console["decides"]
    signed = m.finish()
    assert (signed.verdict, signed.moves) == ("does-not-conform", 1)
    assert [round(each.thickness_mm, 6) for each in asked(m.bench)] == [0.25]


def test_a_shim_that_is_never_put_in_is_asked_for_three_times_at_the_most():
    m = fitter(STEP, 0.0, 0.273)
    m.turn = lambda axis, reads: None
    assert m.finish().verdict == "does-not-conform"
    assert len(asked(m.bench)) <= 3


def drawn(rng):
    """A head as its file allows it, and how far it stands out."""
    side, nod = ((rng.gauss(0.0, 5.0), rng.gauss(0.0, 0.02)), rng.gauss(0.0, 0.02))
    spec = mill(
        side=side, nod=(150.0 + rng.gauss(0.0, 40.0), nod), height_mm=rng.gauss(385.0, 75.0)
    )
    return spec, rng.uniform(-0.3, 0.3), rng.uniform(-0.5, 0.5)


@pytest.mark.parametrize(
    ("heads", "rule"),
    [
        (2, "guarded"),
        pytest.param(100, "guarded", marks=pytest.mark.long),
        pytest.param(100, "simple", marks=pytest.mark.long),
    ],
)
def test_no_head_is_stuck(heads, rule):
    """Steps of 0.05 set the nod to within 0.025 of 200, its limit is 0.017."""
    rng = random.Random(1)
    for _ in range(heads):
        spec, side_mm, nod_mm = drawn(rng)
        shifts = {"side": rng.gauss(0.0, 0.004), "nod": rng.gauss(0.0, 0.004)}
        m = fitter(STEP, side_mm, nod_mm, rule, spec, shifts)
        signed = m.finish()
        assert signed.moves <= 5
        nod = signed.as_left.nod
        assert abs(nod.error_mm) <= 0.025 + 0.006
        assert nod.word != "out" or abs(nod.error_mm) > LIMIT_MM - nod.guard_mm
