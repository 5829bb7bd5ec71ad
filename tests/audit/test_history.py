"""What a machine keeps of a signed audit."""

from dataclasses import replace

import pytest

from daq.audit.events import Signed
from daq.audit.history import day_of, done
from daq.audit.parts import AxisResult, AxisShift
from daq.settings import build, plain
from daq.words import Both, Stamp, said

LAST_SECOND = Stamp(5, 1_780_358_399_999_999, "boot", True)  # 2026-06-01 23:59:59.999999 UTC
SIDE, NOD = AxisResult(0.02, 0.012, 0.02, "out"), AxisResult(-0.004, -0.004, 0.02, "in")
LEFT = Both(AxisResult(0.008, 0.0, 0.02, "in"), AxisResult(0.001, 0.001, 0.02, "in"))
SHIFTS = (AxisShift("nod", 0.004), AxisShift("side", -0.001), AxisShift("nod", 0.002))


def signed(**other):
    said = {
        "done_by": "Kit",
        "reviewed_by": "",
        "note": "",
        "last_good": "",
        "disposition": "",
        "verdict": "conforms",
        "as_found": Both(SIDE, NOD),
        "as_left": LEFT,
        "moves": 2,
        "shifts": SHIFTS,
    }
    return Signed(**said | other)


@pytest.fixture
def kept(bench):
    setup = bench(radius=120.0, limit=0.03).setup

    def make(**other):
        return done("id", "A-1", 41, LAST_SECOND, "scheduled", setup, signed(**other))

    return make


def test_everything_a_trend_needs_is_kept(kept):
    one = kept()
    assert (one.audit, one.short, one.seq, one.reason) == ("id", "A-1", 41, "scheduled")
    assert (one.utc_us, one.utc_trusted, one.day) == (LAST_SECOND.utc_us, True, "2026-06-01")
    assert (one.diameter_mm, one.moves) == (240.0, 2)
    assert (one.as_found, one.as_left) == (Both(SIDE, NOD), LEFT)
    assert (one.shifted("side"), one.shifted("nod")) == ((-0.001,), (0.004, 0.002))


def test_the_limits_are_those_on_its_own_sweep(kept):
    # 0.03 over 300 is 0.024 over the 240 swept.
    for axis in ("side", "nod"):
        limits = kept().limits[axis]
        assert (limits.low_mm, limits.high_mm) == pytest.approx((-0.024, 0.024), rel=1e-12)


def test_a_one_sided_axis_keeps_its_one_side(bench):
    setup = bench(limit=0.03).setup
    nod = replace(setup.machine.nod, one_sided="front")
    front_only = replace(setup, machine=replace(setup.machine, nod=nod))
    one = done("id", "A-1", 41, LAST_SECOND, "crash", front_only, signed())
    assert one.limits.nod.low_mm == 0.0
    assert one.limits.nod.high_mm == pytest.approx(0.02, rel=1e-12)
    assert one.limits.side.low_mm == pytest.approx(-0.02, rel=1e-12)


@pytest.mark.parametrize(
    ("verdict", "word"),
    [("conforms", "in"), ("does-not-conform", "out"), ("cannot-be-decided", "close")],
)
def test_the_word_is_the_verdicts(kept, verdict, word):
    assert kept(verdict=verdict).word == word


def test_a_head_found_off_scale_has_no_number_but_a_sentence(kept):
    one = kept(as_found=None, off_scale=said("off-scale", position="back"))
    assert one.as_found is None
    assert one.off_scale == said("off-scale", position="back")


def test_it_goes_to_json_and_comes_back(kept):
    one = kept()
    assert build(type(one), plain(one), "done", quantities="plain") == one


def test_a_day_is_counted_in_utc():
    assert day_of(LAST_SECOND) == "2026-06-01"
    assert day_of(replace(LAST_SECOND, utc_us=LAST_SECOND.utc_us + 1)) == "2026-06-02"
