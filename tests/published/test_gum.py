"""Worked examples of JCGM 100 (the GUM), annex H, and two libraries that propagate uncertainty.

Inputs and results are from memory unless said otherwise.
"""

import math
import random

import numpy as np
import pytest
import uncertainties
from GTC import dof, reporting, uncertainty, ureal

from daq.checks.sweep.reduce import Spot, covariance, fit
from daq.metrology.budget import Term, combine
from daq.metrology.student import t_quantile
from daq.words import Said

NM = 1e-6


def independent(slopes: np.ndarray, cov: np.ndarray) -> list[Term]:
    """Terms of a result that follows correlated inputs with these slopes."""
    parts = slopes @ np.linalg.cholesky(cov)
    return [Term(Said(f"part {i}"), abs(float(part))) for i, part in enumerate(parts)]


def test_h1_end_gauge():
    # JCGM 100 H.1: components 25, 9.7, 2.9 and 16.6 nm with 18, 25.6, 50 and 2 degrees of
    # freedom give u 31.7 nm (printed as 32), effective 16, t99 2.92, U99 93 nm.
    parts = [(25.0, 18.0), (9.7, 25.6), (2.9, 50.0), (16.6, 2.0)]
    terms = [Term(Said(f"u{i}"), nm * NM, dof) for i, (nm, dof) in enumerate(parts)]
    budget = combine(terms, coverage=0.99)
    assert round(budget.u_mm / NM, 1) == 31.7
    assert budget.dof is not None
    assert round(budget.dof, 2) == 16.76
    assert round(budget.k, 2) == 2.92
    assert round(budget.expanded_mm / NM) == 93


def test_h2_resistance_and_reactance():
    # JCGM 100 H.2: five sets of voltage, current and phase taken together. Their means, the
    # means' uncertainties and correlations are printed there, which checks the entry of the
    # data. Correlated inputs are told apart into independent parts by the Cholesky factor of
    # their covariance, and each part is one term.
    volts = [5.007, 4.994, 5.005, 4.990, 4.999]
    amperes = [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3]
    phases = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]
    data = np.array([volts, amperes, phases])
    cov = np.cov(data) / 5.0
    assert np.sqrt(np.diag(cov)) == pytest.approx([0.0032, 9.5e-6, 7.5e-4], rel=0.01)
    assert np.corrcoef(data)[np.triu_indices(3, 1)].round(2).tolist() == [-0.36, 0.86, -0.65]
    volt, ampere, phase = data.mean(axis=1)
    assert (volt, ampere, phase) == pytest.approx((4.999, 0.019661, 1.04446), rel=1e-12)
    z, c, s = volt / ampere, math.cos(phase), math.sin(phase)
    follows = {
        "R": (z * c, [c / ampere, -z * c / ampere, -z * s]),
        "X": (z * s, [s / ampere, -z * s / ampere, z * c]),
        "Z": (z, [1.0 / ampere, -z / ampere, 0.0]),
    }
    printed = {"R": ("127.732", "0.071"), "X": ("219.847", "0.2956"), "Z": ("254.260", "0.236")}
    for name, (value, slopes) in follows.items():
        budget = combine(independent(np.array(slopes), cov))
        answer, u = printed[name]
        assert f"{value:.3f}" == answer
        assert f"{budget.u_mm:.{len(u) - 2}f}" == u


def test_h3_thermometer():
    # JCGM 100 H.3: corrections of a thermometer against its readings, a straight line about
    # 20 °C. Each point is entered at three azimuths a third of a turn apart, so that the
    # circle is orthogonal to the line; three copies divide the covariance by three.
    data = """
        21.521 -0.171  22.012 -0.169  22.512 -0.166  23.003 -0.159  23.507 -0.164  23.999 -0.165
        24.513 -0.156  25.002 -0.157  25.503 -0.159  26.010 -0.161  26.511 -0.160
    """
    numbers = [float(number) for number in data.split()]
    pairs = list(zip(numbers[::2], numbers[1::2], strict=True))
    points = [Spot(azimuth, b, t - 20.0) for t, b in pairs for azimuth in (0.0, 120.0, 240.0)]
    line = fit(points, 1.0, drift=True)
    first = pairs[0][0] - 20.0
    at_20, slope = line.c_mm - line.drift_mm * first, line.drift_mm
    assert (round(at_20, 4), round(slope, 5)) == (-0.1712, 0.00218)
    spread = math.sqrt(math.fsum(r * r for r in line.residuals_mm) / 3.0 / (len(pairs) - 2))
    assert round(spread, 4) == 0.0035
    cov = 3.0 * np.array(covariance(points, 1.0, True, spread))[np.ix_([0, 3], [0, 3])]
    to_20 = np.array([[1.0, -first], [0.0, 1.0]])
    cov = to_20 @ cov @ to_20.T
    assert round(math.sqrt(cov[0, 0]), 4) == 0.0029
    assert round(math.sqrt(cov[1, 1]), 5) == 0.00067
    assert round(cov[0, 1] / math.sqrt(cov[0, 0] * cov[1, 1]), 3) == -0.930
    # At 30 °C, with 9 degrees of freedom, from independent parts again.
    budget = combine(independent(np.array([1.0, 10.0]), cov))
    assert round(at_20 + 10.0 * slope, 4) == -0.1494
    assert round(budget.u_mm, 4) == 0.0041


@pytest.mark.parametrize("seed", range(40))
def test_against_two_libraries(seed: int):
    # GTC and `uncertainties` propagate the same independent parts through their sum.
    draw = random.Random(seed)
    pairs = [(10.0 ** draw.uniform(-4.0, 0.0), draw.uniform(1.0, 200.0)) for _ in range(8)]
    budget = combine([Term(Said(f"t{i}"), u, nu) for i, (u, nu) in enumerate(pairs)])
    theirs = sum(ureal(0.0, u, nu) for u, nu in pairs)
    others = sum(uncertainties.ufloat(0.0, u) for u, _ in pairs)
    assert budget.u_mm == pytest.approx(uncertainty(theirs), rel=1e-9)
    assert budget.u_mm == pytest.approx(others.std_dev, rel=1e-9)
    assert budget.dof == pytest.approx(dof(theirs), rel=1e-9)
    assert t_quantile(0.975, dof(theirs)) == pytest.approx(
        reporting.k_factor(dof(theirs)), rel=1e-9
    )


@pytest.mark.parametrize("seed", range(40))
def test_parts_known_for_certain_against_a_library(seed: int):
    draw = random.Random(seed)
    pairs = [(draw.uniform(0.1, 1.0), draw.uniform(2.0, 20.0)) for _ in range(3)]
    certain = [draw.uniform(0.1, 1.0) for _ in range(3)]
    terms = [Term(Said(f"t{i}"), u, nu) for i, (u, nu) in enumerate(pairs)]
    budget = combine([*terms, *(Term(Said(f"c{i}"), u) for i, u in enumerate(certain))])
    theirs = sum(ureal(0.0, u, nu) for u, nu in pairs) + sum(ureal(0.0, u) for u in certain)
    assert budget.u_mm == pytest.approx(uncertainty(theirs), rel=1e-9)
    assert budget.dof == pytest.approx(dof(theirs), rel=1e-9)
