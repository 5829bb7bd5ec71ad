"""A check as a table: the engine against numpy, published values, and the sweep as one of them."""

import math
from dataclasses import replace

import numpy as np
import pytest

from daq.checks.linear import solve
from daq.checks.station import Station, Table, Taken
from daq.checks.sweep.reduce import Spot, fit, solver
from daq.words import POSITIONS, Said
from tests.published.test_norris import B0, B0_SD, B1, B1_SD, OBSERVED, RESIDUAL_SD

A = Said("a")


def table(rows, *, laps=None, returns=False, leaves="nothing"):
    laps = laps or [0] * len(rows)
    stations = [
        Station(str(i), A, A, row, lap) for i, (row, lap) in enumerate(zip(rows, laps, strict=True))
    ]
    return Table(tuple(stations), "mm", None, (), leaves, returns)


def taken(made, values, when=None):
    when = when or range(len(values))
    stations = zip(made.sequence, values, when, strict=True)
    return [Taken(station.key, value, float(at)) for station, value, at in stations]


def line(xs):
    return [{"level": 1.0, "slope": x} for x in xs]


def test_a_line_as_numpy_fits_it():
    xs, ys = [0.0, 1.0, 3.0, 4.0, 9.0], [0.3, 0.1, 0.9, 1.4, 2.2]
    solved = solve(table(line(xs)), taken(table(line(xs)), ys))
    slope, level = np.polyfit(xs, ys, 1)
    assert solved.unknowns == pytest.approx([level, slope], rel=1e-12)
    design = np.column_stack([np.ones(5), xs])
    expected, squares, *_ = np.linalg.lstsq(design, ys, rcond=None)
    assert solved.unknowns == pytest.approx(expected, rel=1e-12)
    assert solved.rests @ solved.rests == pytest.approx(squares[0], rel=1e-12)
    assert (solved.spare, solved.returned_mm) == (3, ())
    covariance = np.linalg.inv(design.T @ design) * 0.01**2
    assert solved.covariance(0.01) == pytest.approx(covariance, rel=1e-10)


def test_norris_certified_values():
    """NIST StRD, linear regression, Norris: see tests/published/test_norris.py."""
    made = table(line([x for _, x in OBSERVED]))
    solved = solve(made, taken(made, [y for y, _ in OBSERVED]))
    assert solved.unknowns == pytest.approx([B0, B1], rel=1e-9)
    sd = math.sqrt(solved.rests @ solved.rests / solved.spare)
    assert sd == pytest.approx(RESIDUAL_SD, rel=1e-9)
    doubts = np.sqrt(np.diag(solved.covariance(sd)))
    assert doubts == pytest.approx([B0_SD, B1_SD], rel=1e-9)


def test_a_steady_drift_goes_out_with_the_return_and_each_lap_has_its_own():
    xs = [0.0, 1.0, 2.0, 0.0, 1.0, 2.0]
    rows = [{f"zero {i // 3}": 1.0, "slope": x} for i, x in enumerate(xs)]
    made = table(rows, laps=[0, 0, 0, 1, 1, 1], returns=True)
    assert [s.key for s in made.sequence] == ["0", "1", "2", "0", "3", "4", "5", "3"]
    when = [0.0, 1.0, 2.5, 3.0, 10.0, 10.5, 12.0, 14.0]
    zeros, drifts = [5.0] * 4 + [-2.0] * 4, [0.01] * 4 + [-0.03] * 4
    begun = [0.0] * 4 + [10.0] * 4
    places = [0.0, 1.0, 2.0, 0.0] * 2
    values = [
        zero + 0.25 * x + drift * (at - start)
        for zero, x, drift, at, start in zip(zeros, places, drifts, when, begun, strict=True)
    ]
    solved = solve(made, taken(made, values, when))
    found, _ = solved.of("slope")
    assert found[0] == pytest.approx(0.25, rel=1e-12)
    assert np.abs(solved.rests).max() < 1e-12
    assert solved.returned_mm == pytest.approx([0.03, -0.12])
    assert solved.laps == (0, 0, 0, 0, 1, 1, 1, 1)


def swept(count):
    azimuths = [270.0 + 360.0 / count * k for k in range(count)]
    rows = [
        {"level": 1.0, "a": math.cos(math.radians(at)), "b": math.sin(math.radians(at))}
        for at in azimuths
    ]
    return azimuths, table(rows, returns=True)


@pytest.mark.parametrize("count", [3, 4, 6, 8])
def test_the_sweep_is_such_a_table(count):
    azimuths, made = swept(count)
    rng = np.random.default_rng(count)
    values = rng.normal(0.0, 0.01, count + 1).tolist()
    solved = solve(made, taken(made, values))
    points = [
        Spot(at, value, float(order))
        for order, (at, value) in enumerate(zip([*azimuths, azimuths[0]], values, strict=True))
    ]
    fitted = fit(points, 100.0, drift=True)
    (a, b), by = solved.of("a", "b")
    assert (2.0 * a, 2.0 * -b) == pytest.approx((fitted.d_mm.side, fitted.d_mm.nod), abs=1e-12)
    orders = tuple(float(order) for order in range(count + 1))
    assert by == pytest.approx(solver((*azimuths, azimuths[0]), orders).weights[1:3], abs=1e-12)
    if count == 4:
        # The one spare equation, (front + back − left − right)/4, stands in every rest.
        assert np.abs(solved.rests) == pytest.approx(np.full(4, abs(fitted.spare_mm)), abs=1e-12)
        assert solved.spare == 1


def test_positions_keep_their_names():
    assert POSITIONS["front"] == swept(4)[0][0]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda t: t[:-1], "found readings at"),
        (lambda t: [t[1], t[0], *t[2:]], "found readings at"),
        (lambda t: [replace(t[0], station="9"), *t[1:]], "found readings at"),
        (lambda t: [t[0], replace(t[1], when=0.0), *t[2:]], "when: found"),
    ],
)
def test_readings_that_are_not_this_tables_are_refused(change, words):
    made = swept(4)[1]
    with pytest.raises(ValueError, match=words):
        solve(made, change(taken(made, [0.0] * 5)))


def test_stations_from_which_it_cannot_be_told_are_refused():
    made = table(line([2.0, 2.0, 2.0]))
    with pytest.raises(ValueError, match="cannot be told apart"):
        solve(made, taken(made, [0.0] * 3))


@pytest.mark.parametrize("stations", [(), (Station("a", A, A, {"x": 1.0}),) * 2])
def test_a_table_needs_stations_each_once(stations):
    with pytest.raises(ValueError, match="allowed: one or more, each once"):
        Table(stations, "mm", None, ())
