"""Row 11: a four-position fit against numpy.linalg.lstsq."""

import math
from collections.abc import Callable
from statistics import median
from time import perf_counter

import numpy as np

from daq.checks.sweep.plan import FOUR
from daq.checks.sweep.reduce import Spot, fit, solver
from daq.words import POSITIONS

RADIUS_MM = 100.0
READ_MM = (1.200, 1.135, 1.120, 1.185)
REACH = 0.25
ROUNDS = 25
CALLS = 1_000


def _interleaved(own: Callable[[], object], anchor: Callable[[], object]) -> tuple[float, float]:
    """Return the median seconds of one call of each, measured turn by turn."""
    taken: tuple[list[float], list[float]] = ([], [])
    for _ in range(ROUNDS):
        for call, seconds in zip((own, anchor), taken, strict=True):
            begin = perf_counter()
            for _ in range(CALLS):
                call()
            seconds.append((perf_counter() - begin) / CALLS)
    return median(taken[0]), median(taken[1])


def _design(points: list[Spot]) -> "np.ndarray[tuple[int, int], np.dtype[np.float64]]":
    rows = []
    for point in points:
        phi = math.radians(point.azimuth_deg)
        rows.append((1.0, RADIUS_MM * math.cos(phi), RADIUS_MM * math.sin(phi)))
    return np.array(rows)


def measure() -> list[tuple[str, float, float, float]]:
    """Return (label, own seconds, anchor seconds, reach), each a call.

    The first line has both sides' matrices ready; the second starts both from points,
    so that the anchor builds its matrix and the fit finds its own.
    """
    points = [
        Spot(POSITIONS[position], read_mm, float(order))
        for order, (position, read_mm) in enumerate(zip(FOUR.positions, READ_MM, strict=True))
    ]
    ready = solver(tuple(point.azimuth_deg for point in points))
    design, read = _design(points), np.array(READ_MM)

    def whole_anchor() -> object:
        values = np.array([point.pushed_mm for point in points])
        return np.linalg.lstsq(_design(points), values, rcond=None)

    solved = _interleaved(
        lambda: ready.solve(READ_MM), lambda: np.linalg.lstsq(design, read, rcond=None)
    )
    whole = _interleaved(lambda: fit(points, RADIUS_MM, False), whole_anchor)
    return [
        ("four-position fit, matrices ready, against lstsq", *solved, REACH),
        ("four-position fit, from points, against matrix and lstsq", *whole, REACH),
    ]
