"""Where a head stands most probably, against scipy's least squares and a numerical Hessian.

The residuals are written down anew here, from what is supposed of a head: each is what a
thing differs by from the plain picture, divided by the standard deviation it may have.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import least_squares
from scipy.optimize._numdiff import approx_derivative

from daq.squaring.equations import Doubt
from daq.squaring.response import stand
from daq.squaring.story import Seen
from daq.words import AXES, FOUR_POSITIONS, POSITIONS
from tests.squaring.heads import SCATTER, PlainHead, prior

DOUBT = Doubt(0.0007, 0.0003)
ANYTHING_MM = 20.0
BIG_STEP = 0.003
SEEDS = range(6)


def changed(entry, twelve, states, known, radius, turned, seen):
    """What one change leaves over.

    `turned`: which way each axis was, until it is tightened; `seen`: whether it was read after it.
    """
    kind, axis, d, across = entry.what, entry.axis, DOUBT, 2.0 * radius
    (was, now), i = states, AXES.index(axis or "side")
    own, other, middle = now[i] - was[i], now[1 - i] - was[1 - i], now[2] - was[2]
    # As the gauge would see it and as an angle, the geometric mean: they meet at 200 mm.
    part = math.sqrt(200.0 / (radius + abs(known.mean[3 * i])))
    if kind in ("zeroed", "unknown"):
        lean = 1e-6 if kind == "zeroed" else ANYTHING_MM
        if kind == "unknown":
            turned.clear()
        return [own / (lean / across), other / (lean / across), middle / ANYTHING_MM]
    if kind == "tightened":
        late = turned.pop(axis, 0) * part * twelve[10 + i]
        left = [(own - twelve[6 + i] + late) / SCATTER[axis].tight]
        return [*left, other * across / d.tight_cross_mm, middle / d.tight_lift_mm]
    p, k, h = twelve[3 * i : 3 * i + 3]
    lift = p * own - h * (math.hypot(1.0, now[i]) - math.hypot(1.0, was[i]))
    left = [(other - k * own) * across / d.cross_mm, (middle - lift) / d.lift_mm]
    if kind == "moved":
        # One that no gauge saw end may have turned by anything.
        return left if seen else [*left, own / (ANYTHING_MM / across)]
    turned[axis] = entry.way
    sure = SCATTER[axis].rest
    if not entry.way:
        sure = math.hypot(sure, known.mean[8 + i], math.sqrt(known.covariance[8 + i][8 + i]))
    return [*left, (own + entry.way * part * twelve[8 + i]) / (part * sure)]


def written_anew(story, known, radius):
    """The residuals as a function of (the twelve, moments × (side, nod, middle), landings)."""
    inverse = np.linalg.inv(np.array(known.covariance))
    root, d = np.linalg.cholesky(inverse).T, DOUBT
    moments = 1 + sum(not isinstance(entry, Seen) for entry in story)
    landings = sum(isinstance(entry, Seen) and not entry.stays for entry in story)

    def residuals(x):
        twelve, rest = x[:12], x[12:]
        turned: dict = {}
        states = rest[: 3 * moments].reshape(moments, 3)
        landed = rest[3 * moments :]
        left, now, visit = list(root @ (twelve - known.mean)), 0, -1
        for entry, after in zip(story, [*story[1:], None], strict=True):
            if not isinstance(entry, Seen):
                seen = isinstance(after, Seen)
                left += changed(entry, twelve, states[now : now + 2], known, radius, turned, seen)
                now += 1
                continue
            visit += not entry.stays
            phi, (side, nod, middle) = math.radians(POSITIONS[entry.position]), states[now]
            read = middle + radius * (side * math.cos(phi) - nod * math.sin(phi))
            left.append((read + landed[visit] - entry.pushed_mm) / d.count_mm)
        return np.array([*left, *(landed / d.visit_mm)])

    return residuals, 12 + 3 * moments, landings


def told(seed):
    """The story of a head drawn at random, with every kind of entry in it."""
    rng = np.random.default_rng(seed)
    known = prior()
    truth = rng.multivariate_normal(known.mean, known.covariance)
    at = [rng.normal(0.0, BIG_STEP), rng.normal(0.0, BIG_STEP), 1.0]
    head = PlainHead(rng.uniform(60.0, 150.0), DOUBT, rng, truth=truth, at=at).sweep()
    moved = [AXES[i] for i in rng.permutation([0, 1, rng.integers(2)])]
    for i, axis in enumerate(moved):
        parked = "front" if axis == "nod" else "right"
        head.read(parked, stays=parked == "front" and i == 0)
        head.move(axis, rng.normal(0.0, BIG_STEP), read=parked if rng.random() < 0.8 else None)
        if i == 2:
            head.story[-1] = replace(head.story[-1], way=0)
        head.pair(axis, parked)
        head.zero(0.7).read(parked, stays=True)
        head.tighten(axis).read(parked, stays=True).pair(axis, parked)
        if i == 1:
            head.knock(0.1, -0.05, 0.02).happened("unknown").read(*FOUR_POSITIONS[1:], "back-left")
    return tuple(head.zero(-0.4).sweep().story), known, head


def one_move(seed):
    """A short story: one axis turned, checked and tightened."""
    rng = np.random.default_rng(seed)
    known = prior()
    truth = rng.multivariate_normal(known.mean, known.covariance)
    head = PlainHead(100.0, DOUBT, rng, truth=truth, at=[0.0, 0.002, 1.0]).sweep()
    head.read("front", stays=True).move("nod", -0.002, read="front").pair("nod", "front")
    return tuple(head.tighten("nod").pair("nod", "front").story), known, head


def by_scipy(story, known, head):
    """scipy's most probable point; it starts from the prior and where the head truly stood."""
    residuals, first, landings = written_anew(story, known, head.radius_mm)
    x = np.zeros(first + landings)
    x[:12] = known.mean
    x[12:first] = np.ravel(head.stood)
    scale = np.concatenate(
        [np.sqrt(np.diag(known.covariance)), np.tile([1e-3, 1e-3, 1.0], (first - 12) // 3)]
    )
    scale = np.concatenate([scale, np.full(landings, DOUBT.visit_mm)])

    def scaled(y):
        return residuals(y * scale)

    # It may lose its way from so far off: after some steps it sets out anew from where it is.
    close = {"xtol": 1e-15, "ftol": 1e-15, "gtol": 1e-15, "max_nfev": 200}
    for _ in range(6):
        x = least_squares(scaled, x / scale, jac="3-point", method="lm", **close).x * scale
    return x, [*range(12), *range(first - 3, first)], scaled, scale


def slopes(scaled, y):
    """The derivatives of the residuals, by scipy's central differences."""
    return approx_derivative(scaled, y, method="3-point")


def doubts(matrix):
    return np.sqrt(np.diag(matrix))


def apart(one, other):
    """How far two covariances differ, in parts of what each pair of doubts allows at most."""
    return np.max(np.abs(one - other) / np.outer(doubts(other), doubts(other)))


@pytest.fixture(scope="module", params=SEEDS)
def both(request):
    story, known, head = told(request.param)
    standing = stand(story, known, head.radius_mm, DOUBT, SCATTER)
    return standing, by_scipy(story, known, head)


def test_the_most_probable_point_is_scipys(both):
    """Each value to two millionths of its doubt, the leans to 1e-9."""
    standing, (x, kept, _, _) = both
    off = np.abs(standing.values - x[kept])
    assert np.max(off / doubts(standing.covariance)) < 2e-6
    assert np.max(off[12:14]) < 1e-9


def test_no_residual_gets_smaller_by_a_step_aside(both):
    """At the most probable point the sum of squares has no slope (textbook)."""
    _, (x, _, scaled, scale) = both
    y = x / scale
    jacobian = slopes(scaled, y)
    assert jacobian.T @ scaled(y) == pytest.approx(np.zeros(len(y)), abs=1e-3)


def test_the_covariance_is_the_inverse_of_the_normal_matrix(both):
    standing, (x, kept, scaled, scale) = both
    jacobian = slopes(scaled, x / scale)
    inverse = np.linalg.inv(jacobian.T @ jacobian) * np.outer(scale, scale)
    assert apart(standing.covariance, inverse[np.ix_(kept, kept)]) < 1e-5


@pytest.mark.parametrize("seed", range(4))
def test_the_covariance_is_that_of_the_numerical_hessian(seed):
    """Second derivatives of half the sum of squares: what the bend of the residuals adds
    to the normal matrix changes no doubt by more than a thousandth."""
    story, known, head = one_move(seed)
    standing = stand(story, known, head.radius_mm, DOUBT, SCATTER)
    x, kept, scaled, scale = by_scipy(story, known, head)
    y, step = x / scale, 1e-3
    hessian = []
    for aside in np.eye(len(y)) * step:
        up, down = (slopes(scaled, at).T @ scaled(at) for at in (y + aside, y - aside))
        hessian.append((up - down) / (2.0 * step))
    inverse = np.linalg.inv(np.array(hessian)) * np.outer(scale, scale)
    inside = inverse[np.ix_(kept, kept)]
    assert doubts(standing.covariance) == pytest.approx(doubts(inside), rel=1e-3)
    assert apart(standing.covariance, inside) < 2e-3
