"""From readings around a circle to a lean, by least squares.

For a flat table and a plunger parallel to the spindle, `pushed_in` at azimuth φ on a
circle of radius R is exactly

    m(φ) = c + R (a cos φ + b sin φ)  [+ drift × order]

with a and b the slopes of the spindle's top to the right and away from the operator.
Solved with the pseudo-inverse (textbook linear least squares), kept for each set of
azimuths: a fit is then one product of a small matrix and the readings.

What a second harmonic of the surface does: with three positions it reads as lean and
nothing can tell; with four it is what the spare equation shows, and a third harmonic
reads as lean; eight are clean to the sixth (discrete Fourier transform). A spot read twice
upsets that balance, so with evenly spread positions these harmonics are unknowns too.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from daq.words import Both

_Matrix = npt.NDArray[np.float64]

_SAME = 9
"""Azimuths are one when they agree to this many decimals of a degree."""
_DEPENDENT = 1e-9
"""Directions of the design this much weaker than its strongest are rounding, not readings."""
_SOLVED = 5
"""Rows of a solver before the residuals: c, R·a, R·b, drift, spare equation."""


@dataclass(frozen=True, slots=True)
class Spot:
    """One reading: azimuth, degrees; `pushed_in`, mm; its place in the order, or its time.

    `order` matters only when a drift is fitted: the drift is per unit of it, counted
    from the first reading.
    """

    azimuth_deg: float
    pushed_mm: float
    order: float


@dataclass(frozen=True, slots=True)
class Lean:
    """How a surface lies to the spindle: its slopes toward the right (`a`) and the back (`b`)."""

    radius_mm: float
    a: float
    b: float

    @property
    def slopes(self) -> Both[float]:
        """Above zero, the right is low, and the front."""
        return Both(self.a, -self.b)

    @property
    def d_mm(self) -> Both[float]:
        """Right less left, front less back, mm across the sweep."""
        return self.slopes.map(lambda slope: 2.0 * self.radius_mm * slope)


@dataclass(frozen=True, slots=True)
class Fit(Lean):
    """The circle through the readings.

    `c_mm` is the level of its centre at the first reading, `drift_mm` the change per unit
    of order (0 when not fitted), `residuals_mm` reading less fit in the order given.
    `spare_mm` is the one equation that four positions a quarter turn apart have to spare,
    (front + back − left − right)/4, free of the drift; None for other sets of positions.
    """

    c_mm: float
    drift_mm: float
    residuals_mm: tuple[float, ...]
    spare_mm: float | None


@dataclass(frozen=True, slots=True, eq=False)
class Solver:
    """Everything about a fit that the readings do not change.

    The rows of `weights` times the readings are c, R·a, R·b, the drift, the spare
    equation and then the residuals; the rows of what is not there are zero.
    """

    weights: _Matrix
    has_spare: bool

    def solve(self, pushed_mm: Sequence[float]) -> list[float]:
        """Return the rows' values for readings in the order the solver was made for."""
        values: list[float] = self.weights.dot(pushed_mm).tolist()
        return values


def fit(points: Sequence[Spot], radius_mm: float, drift: bool) -> Fit:
    """Fit the circle to readings at three azimuths or more, in any order.

    With `drift` a steady drift along `order` is fitted with it and taken out; this needs
    a position that was read twice.

    Raises:
        ValueError: too few different azimuths, a drift without a repeated position, or
            a radius that is not above zero.
    """
    if not 0.0 < radius_mm < math.inf:
        raise ValueError(f"sweep radius: found {radius_mm} mm; allowed: a length above 0 mm")
    made = _made_for(points, drift)
    c, side, away, drifted, spare, *residuals = made.solve([point.pushed_mm for point in points])
    return Fit(
        radius_mm,
        side / radius_mm,
        away / radius_mm,
        c,
        drifted,
        tuple(residuals),
        spare if made.has_spare else None,
    )


def covariance(
    points: Sequence[Spot], radius_mm: float, drift: bool, sd_mm: float
) -> tuple[tuple[float, ...], ...]:
    """Return the covariance of c, a, b (and the drift) of the same fit.

    `sd_mm` is the standard deviation of one reading, mm, known from elsewhere: one sweep
    cannot tell it. Readings scatter independently of each other.

    Raises:
        ValueError: as `fit`.
    """
    made = _made_for(points, drift)
    units = np.array([1.0, radius_mm, radius_mm, 1.0])[: 4 if drift else 3]
    scaled = sd_mm * made.weights[: len(units)] / units[:, None]
    return tuple(tuple(row) for row in (scaled @ scaled.T).tolist())


def return_error(first_mm: float, again_mm: float) -> float:
    """Return the first position read again less its first reading, mm."""
    return again_mm - first_mm


def _made_for(points: Sequence[Spot], drift: bool) -> Solver:
    azimuths = tuple([point.azimuth_deg for point in points])
    return solver(azimuths, tuple([point.order for point in points]) if drift else ())


@lru_cache(maxsize=64)
def solver(azimuths_deg: tuple[float, ...], orders: tuple[float, ...] = ()) -> Solver:
    """Prepare the fit for a set of azimuths; with `orders`, a drift along them too.

    Raises:
        ValueError: as `fit`.
    """
    different = sorted({round(azimuth % 360.0, _SAME) % 360.0 for azimuth in azimuths_deg})
    if len(different) < 3:
        raise ValueError(f"found {len(different)} different positions; allowed: 3 or more")
    phi = np.radians(azimuths_deg)
    columns = [np.ones_like(phi), np.cos(phi), np.sin(phi)]
    span = 1.0
    if orders:
        if len(different) == len(azimuths_deg):
            raise ValueError("a drift can be told only from a position that was read twice")
        # Times may be huge against the sweep's length: counted from the first, in sweeps.
        since = np.array(orders) - orders[0]
        span = float(np.ptp(since)) or 1.0
        columns.append(since / span)
    design = np.column_stack(columns)
    form = _form(phi, different)
    whole = np.column_stack([design, *form])
    if np.linalg.matrix_rank(whole, rtol=_DEPENDENT) < whole.shape[1]:
        raise ValueError("the readings lie so that what is asked for cannot be told apart")
    inverse = np.linalg.pinv(whole)
    unknowns = inverse[: design.shape[1]]
    weights = np.zeros((_SOLVED + len(phi), len(phi)))
    weights[: len(unknowns)] = unknowns
    weights[3] /= span
    weights[_SOLVED:] = np.eye(len(phi)) - design @ unknowns
    has_spare = len(form) == 1
    if has_spare:
        weights[_SOLVED - 1] = inverse[-1]
    return Solver(weights, has_spare)


def _form(phi: _Matrix, different: Sequence[float]) -> list[_Matrix]:
    """Return the waves of the surface that evenly spread positions tell from a lean.

    From two high places around the circle up to one at every other position, of which only
    one phase is seen: with four positions this alone, the spare equation. None for others.
    """
    count = len(different)
    even = different[0] + np.arange(count) * 360.0 / count
    if not np.allclose(different, even, rtol=0.0, atol=1e-6):
        return []
    since = phi - math.radians(different[0])
    form = []
    for waves in range(2, (count + 1) // 2):
        form += [np.cos(waves * since), np.sin(waves * since)]
    if count % 2 == 0:
        form.append(-np.cos(count // 2 * since))
    return form
