"""The spindle's run-out: exact geometry of a bar, numpy's transform, and how often it holds."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.checks.kinds.runout import KIND, RunoutOptions
from daq.checks.linear import solve
from daq.checks.outcome import Gauging, reduce
from daq.checks.station import Taken
from daq.metrology.rule import Rule
from tests.words import en

GAUGING = Gauging(resolution_mm=0.001, sd_mm=0.0007, sd_dof=8.0)
SURE = Gauging(resolution_mm=0.0, sd_mm=0.0, sd_dof=None)
QUARTERS = tuple(math.radians(angle) for angle in (0, 90, 180, 270))
RADIUS = 20.0


def even(count):
    return tuple(2.0 * math.pi / count * k for k in range(count))


def taken(options, values, unit="mm"):
    sequence = KIND.table(options, unit).sequence
    return [
        Taken(station.key, float(value), float(at))
        for at, (station, value) in enumerate(zip(sequence, values, strict=True))
    ]


def check(options, values, gauging=GAUGING, rule=None, unit="mm"):
    found = reduce(KIND, options, unit, taken(options, values, unit), gauging, rule or Rule())
    return {result.quantity.name.code: result for result in found.results}, found


def wave(options, size, toward, offset=0.2):
    """What a gauge reads of a bar that stands off by `size` toward it at the angle `toward`."""
    turn = [offset + size * math.cos(angle - toward) for angle in options.angles]
    return [*turn, turn[0]]


def surface(offset, tilt, angle, height, azimuth=0.7):
    """Where a gauge at this azimuth and height meets a bar turned to this angle, exactly.

    The bar is a cylinder about a line that passes `offset` (at height 0, in the spindle) with
    the direction `tilt`: (p − a) × d has the length of its radius.
    """
    turned = np.array(
        [[math.cos(angle), -math.sin(angle), 0], [math.sin(angle), math.cos(angle), 0], [0, 0, 1]]
    )
    at = turned @ np.array([*offset, 0.0])
    along = turned @ np.array([*tilt, 1.0])
    along /= np.linalg.norm(along)
    out = np.array([math.cos(azimuth), math.sin(azimuth), 0.0])
    begins = np.cross(np.array([0.0, 0.0, height]) - at, along)
    grows = np.cross(out, along)
    square, mixed = grows @ grows, begins @ grows
    rest = begins @ begins - RADIUS**2
    return (-mixed + math.sqrt(mixed * mixed - square * rest)) / square


def test_a_bar_that_stands_off_and_leans_as_vector_geometry_has_it():
    """Off by up to 0.05 on a radius of 20: the square of that is 6e-5 mm."""
    heights = (-10.0, -160.0)
    options = RunoutOptions(limit=0.01, tilt=1e-4, angles=even(5), heights=heights, bar=0.0)
    offset, tilt = np.array([0.012, -0.02]), np.array([1e-4, 5e-5])
    values = []
    for height in heights:
        turn = [surface(offset, tilt, angle, height) for angle in options.angles]
        values += [*turn, turn[0]]
    found, whole = check(options, values, SURE)
    ends = [offset + tilt * height for height in heights]
    for end, result in zip(
        ends, [r for r in whole.results if "ecc" in r.quantity.name.code], strict=True
    ):
        assert result.quantity.value_mm == pytest.approx(np.linalg.norm(end), abs=7e-5)
        # The bar comes toward the gauge when it is turned from where it stands to the azimuth.
        toward = math.degrees(0.7 - math.atan2(end[1], end[0])) % 360.0
        assert result.quantity.toward_deg == pytest.approx(toward, abs=0.3)
    leant = found["runout-tilt"].quantity
    assert leant.over_mm == 150.0
    assert leant.value_mm == pytest.approx(150.0 * np.linalg.norm(tilt), abs=7e-5)
    assert leant.limit_mm == pytest.approx(0.015)
    assert found["runout-tilt"].judged.word == "out"


@pytest.mark.parametrize("count", [3, 4, 5, 8, 12])
def test_the_first_harmonic_is_numpys(count):
    options = RunoutOptions(limit=0.01, angles=even(count))
    turn = np.random.default_rng(count).normal(0.0, 0.01, count)
    found, _ = check(options, [*turn, turn[0]])
    first = np.fft.rfft(turn)[1] * 2.0 / count
    got = found["runout-eccentricity"].quantity
    assert got.value_mm == pytest.approx(abs(first), rel=1e-9)
    # rfft multiplies by exp(−iθ): its angle is where the wave is highest, the other way round.
    assert got.toward_deg == pytest.approx(math.degrees(-np.angle(first)) % 360.0, abs=1e-6)
    total = found["runout-total"].quantity.value_mm
    assert total == pytest.approx(max(np.ptp(turn), 2.0 * abs(first)), rel=1e-9)


def test_a_plain_turn_in_closed_form():
    """0.004 off toward 30°: run-out 0.008, although no stop reads the highest or the lowest."""
    options = RunoutOptions(limit=0.01, angles=QUARTERS, bar=0.0)
    found, whole = check(options, wave(options, 0.004, math.radians(30.0)))
    assert found["runout-eccentricity"].quantity.value_mm == pytest.approx(0.004)
    assert found["runout-eccentricity"].quantity.toward_deg == pytest.approx(30.0)
    total = found["runout-total"]
    assert total.quantity.value_mm == pytest.approx(0.008)
    assert total.judged.word == "close" and total.judged.good_enough
    assert whole.findings == ()
    assert check(options, wave(options, 0.004, 0.5), SURE)[0]["runout-total"].judged.word == "in"


def test_nothing_runs_out_and_that_is_inside_and_not_too_close_to_zero():
    options = RunoutOptions(limit=0.02, bar=0.0)
    found, _ = check(options, wave(options, 0.0, 0.0))
    assert found["runout-total"].judged.word == "in"
    assert found["runout-eccentricity"].toward_doubt_deg == 180.0
    assert found["runout-eccentricity"].judged is None


@pytest.mark.parametrize("name", ["simple", "guarded"])
def test_a_gauge_that_cannot_tell_is_not_good_enough(name):
    options = RunoutOptions(limit=0.002, bar=0.0)
    judged = check(options, wave(options, 0.0, 0.0), rule=Rule(name))[0]["runout-total"].judged
    assert (judged.word, judged.good_enough) == ("close", False)


def test_in_a_bore_the_axis_lies_the_other_way():
    bar, bore = (RunoutOptions(limit=0.01, inside=inside) for inside in ("bar", "bore"))
    values = wave(bar, 0.004, math.radians(30.0))
    one, other = (check(o, values)[0]["runout-eccentricity"].quantity for o in (bar, bore))
    assert other.value_mm == pytest.approx(one.value_mm)
    assert other.toward_deg == pytest.approx(210.0)


def test_a_bar_set_in_half_a_turn_round_leaves_the_spindle_alone():
    options = RunoutOptions(limit=0.01, heights=(10.0, 160.0), reseat=True, angles=even(4))
    spindle, bar = [(0.003, 0.4), (0.005, 1.0)], [(0.002, 2.0), (0.008, -1.0)]
    values = []
    for way in (0.0, math.pi):
        for (size, to), (own, at) in zip(spindle, bar, strict=True):
            one, other = wave(options, size, to), wave(options, own, at + way, offset=0.1)
            values += [a + b for a, b in zip(one, other, strict=True)]
    found, whole = check(options, values, SURE)
    own = [r.quantity for r in whole.results if r.quantity.name.code == "runout-spindle"]
    assert [q.value_mm for q in own] == pytest.approx([0.006, 0.010])
    assert [q.toward_deg for q in own] == pytest.approx([math.degrees(0.4), math.degrees(1.0)])
    bars = [r.quantity for r in whole.results if r.quantity.name.code == "runout-bar"]
    assert [q.value_mm for q in bars] == pytest.approx([0.002, 0.008])
    out = {t.code: t.cancels for t in found["runout-spindle"].budget.terms}
    assert out["term-bar"] and out["term-zero"] and not out["term-repeatability"]
    ends = [q.value_mm / 2.0 * np.exp(1j * math.radians(q.toward_deg)) for q in own]
    assert found["runout-tilt"].quantity.value_mm == pytest.approx(abs(ends[1] - ends[0]))


def test_a_chip_under_one_stop_is_found():
    options = RunoutOptions(limit=0.01)
    values = np.array(wave(options, 0.003, 1.0))
    chip = values + np.array([0, 0.02, 0, 0, 0])
    (finding,) = check(options, chip)[1].findings
    assert (finding.code, finding.blocking) == ("do-not-fit", True)
    # One stop off by δ leaves δ/4; so does a reading's own scatter, once for each stop between
    # and half of it for each visit to the first: ¼ √(3 + ¼ + ¼) of it in all (arithmetic).
    assert finding.value_mm == pytest.approx(0.005 / (math.sqrt(3.5) / 4.0))
    assert "what remains of one is 0.011 mm; allowed 0.002" in en(finding.said)


def test_an_oval_shows_in_the_total():
    """0.002 either way twice a turn, and 0.001 off toward 0°: from +0.003 to −0.002."""
    options = RunoutOptions(limit=0.01, angles=even(8))
    turn = [0.002 * math.cos(2.0 * a) + 0.001 * math.cos(a) for a in options.angles]
    found, _ = check(options, [*turn, turn[0]])
    assert found["runout-eccentricity"].quantity.value_mm == pytest.approx(0.001)
    assert found["runout-total"].quantity.value_mm == pytest.approx(0.005)


def test_a_drift_past_its_limit_is_found():
    options = RunoutOptions(limit=0.01)
    values = [*wave(options, 0.003, 1.0)[:-1], wave(options, 0.003, 1.0)[-1] + 0.004]
    assert [f.code for f in check(options, values)[1].findings] == ["return-error"]


@given(st.floats(-720.0, 720.0), st.integers(3, 7), st.integers(0, 2**32 - 1))
@settings(derandomize=True, max_examples=60, deadline=None)
def test_turning_the_start_turns_the_direction_and_nothing_else(start, count, seed):
    turn = np.random.default_rng(seed).normal(0.0, 0.01, count)
    options = RunoutOptions(limit=0.01, angles=even(count))
    later = replace(options, angles=tuple(a + math.radians(start) for a in options.angles))
    one, other = (check(o, [*turn, turn[0]])[0] for o in (options, later))
    for code, result in one.items():
        assert other[code].quantity.value_mm == pytest.approx(result.quantity.value_mm, rel=1e-6)
        assert other[code].budget.u_mm == pytest.approx(result.budget.u_mm, rel=1e-6)
    turned = other["runout-eccentricity"].quantity.toward_deg
    turned -= one["runout-eccentricity"].quantity.toward_deg + start
    assert abs((turned + 180.0) % 360.0 - 180.0) < 1e-5


@given(st.floats(0.01, 100.0), st.integers(0, 2**32 - 1))
@settings(derandomize=True, max_examples=40, deadline=None)
def test_inches_and_millimetres_alike(scale, seed):
    """All lengths another unit: all results the same numbers of it."""
    turn = np.random.default_rng(seed).normal(0.0, 0.01, 4)
    mm = RunoutOptions(limit=0.01, bar=0.001)
    inch = RunoutOptions(limit=0.01 * scale, bar=0.001 * scale)
    values = [*turn, turn[0]]
    gauging = Gauging(0.001 * scale, 0.0007 * scale, 8.0)
    one, _ = check(mm, values)
    other, _ = check(inch, [value * scale for value in values], gauging, unit="in")
    for code, result in one.items():
        assert other[code].quantity.value_mm == pytest.approx(scale * result.quantity.value_mm)
        assert other[code].budget.u_mm == pytest.approx(scale * result.budget.u_mm)
        if result.judged is not None:
            assert other[code].judged.word == result.judged.word


# Degenerate on purpose: near nothing a length and a range are always read too large.
SHAPES = {"true": 0.0, "small": 0.0007, "clear": 0.02}


@pytest.mark.parametrize("count", [3, 4, 8])
@pytest.mark.parametrize("size", SHAPES.values(), ids=SHAPES)
def test_the_interval_holds_the_true_value_however_small_it_is(count, size):
    """At least 95 %, less three standard errors of 4000 trials (0.35 % each)."""
    options = RunoutOptions(limit=0.01, angles=even(count), bar=0.0, turned=0.0)
    gauging = Gauging(resolution_mm=0.0, sd_mm=0.001, sd_dof=None)
    truly = np.array(wave(options, size, 0.3))
    solved = solve(KIND.table(options, "mm"), taken(options, truly))
    (x, y), by = solved.of("x0", "y0")
    levels, levels_by = solved.levels_of(0)
    errors = np.random.default_rng(count).normal(0.0, 0.001, (4000, count + 1))
    found, _ = check(options, truly, gauging)
    e = np.hypot(*(np.array([[x], [y]]) + by @ errors.T))
    read = levels[:, None] + levels_by @ errors.T
    total = np.maximum(np.ptp(read, axis=0), 2.0 * e)
    held = {
        "runout-eccentricity": np.abs(e - np.hypot(x, y)),
        "runout-total": np.abs(total - found["runout-total"].quantity.value_mm),
    }
    for code, off in held.items():
        # What drift there seemed to be is another term, which depends on the reading.
        u_mm = next(t.u_mm for t in found[code].budget.terms if t.code == "term-repeatability")
        assert np.mean(off <= 1.959964 * u_mm) >= 0.95 - 3 * 0.0035, code


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"angles": (0.0, 1.0)}, "angles: found 2; allowed"),
        ({"angles": (0.0, 1.0, 2.0 * math.pi)}, "angles: found 2; allowed"),
        ({"heights": ()}, "heights: found"),
        ({"heights": (1.0, 1.0)}, "heights: found"),
        ({"tilt": 1e-4}, "heights: found"),
        ({"reseat": True, "inside": "bore"}, "reseat: found with a bore"),
    ],
)
def test_places_from_which_it_cannot_be_told_are_refused(given, words):
    with pytest.raises(ValueError, match=words):
        RunoutOptions(limit=0.01, **given)
