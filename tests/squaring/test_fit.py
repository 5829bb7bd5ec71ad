"""How the most probable head is found: the same as by singular values, and at less cost."""

import numpy as np
import pytest
from scipy import linalg

from daq.squaring.equations import PARAMETERS, Doubt, Equations, _read_at
from daq.squaring.response import _least, stand
from daq.words import AXES
from tests.squaring.heads import SCATTER, PlainHead, prior

RADIUS = 100.0
DOUBT = Doubt(0.0007, 0.0003)
KNOWN = prior((40.0, 40.0), 0.05)


def knocked_about(rounds, seed=3):
    """A head turned, tightened, zeroed and knocked, so many times over."""
    rng = np.random.default_rng(seed)
    truth = (3.0, 0.01, 400.0, 150.0, -0.01, 400.0, *[2e-5] * 2, *[0.0] * 4)
    head = PlainHead(RADIUS, DOUBT, rng, truth=truth, at=[0.001, 0.002, 1.0]).sweep()
    for i in range(rounds):
        axis = AXES[i % 2]
        parked = "front" if axis == "nod" else "right"
        head.read(parked, stays=head.story[-1].position == parked)
        head.move(axis, -head.at[AXES.index(axis)] + rng.normal(0.0, 2e-4), read=parked)
        head.pair(axis, parked).tighten(axis).pair(axis, parked)
        if i % 3 == 1:
            head.zero(0.3).knock(0.02, -0.03, 0.05).happened("unknown").sweep()
    return tuple(head.story)


def by_singular_values(story):
    """Gauss and Newton's way by scipy's least squares, and the covariance by its inverse."""
    made = Equations(story, KNOWN.mean, KNOWN.covariance, RADIUS, DOUBT, SCATTER)
    x = made.start()
    for _ in range(8):
        residual, jacobian = made.at(x)
        scale = np.linalg.norm(jacobian, axis=0)
        cut = np.finfo(float).eps * max(jacobian.shape)
        step = linalg.lstsq(jacobian / scale, -residual, cond=cut, lapack_driver="gelsd")[0]
        x = x + step / scale
    residual, jacobian = made.at(x)
    scale = np.linalg.norm(jacobian, axis=0)
    half = linalg.pinv(jacobian / scale, rtol=1e-11) / scale[:, None]
    kept = [*range(PARAMETERS), *range(made.states - 3, made.states)]
    return x[kept], half[kept] @ half[kept].T, np.max(np.abs(residual))


@pytest.mark.parametrize("rounds", [1, 9])
def test_the_head_found_is_the_one_of_scipys_singular_values(rounds):
    story = knocked_about(rounds)
    values, covariance, misfit = by_singular_values(story)
    found = stand(story, KNOWN, RADIUS, DOUBT, SCATTER)
    sd = np.sqrt(np.diag(covariance))
    assert np.max(np.abs(found.values - values) / sd) < 1e-8
    assert np.max(np.abs(found.covariance - covariance) / np.outer(sd, sd)) < 1e-8
    assert found.misfit == pytest.approx(misfit, abs=1e-7)


def test_a_long_story_costs_no_singular_values(monkeypatch):
    """They are asked for what is open alone, and once for each set of places read."""
    asked, was = [], np.linalg.pinv
    monkeypatch.setattr(np.linalg, "lstsq", lambda *_, **__: asked.append("lstsq"))
    monkeypatch.setattr(np.linalg, "pinv", lambda *each: asked.append("pinv") or was(*each))
    _read_at.cache_clear()
    story = knocked_about(9)
    for _ in range(3):
        assert stand(story, KNOWN, RADIUS, DOUBT, SCATTER, weighs=True).misfit < 6.0
    assert "lstsq" not in asked
    assert len(asked) <= 12 < len(story) // 6


def test_of_what_is_left_open_the_shortest_answer_is_taken():
    """Two unknowns that only show together: as scipy's least squares take them."""
    rows = np.random.default_rng(2).normal(size=(9, 4))
    rows[:, 3] = 2.0 * rows[:, 1]
    aimed = np.arange(9.0)
    scale = np.linalg.norm(rows, axis=0)
    shortest = linalg.lstsq(rows / scale, aimed)[0] / scale
    assert _least(rows, aimed) == pytest.approx(shortest, abs=1e-12)
    assert linalg.norm(rows @ _least(rows, aimed) - aimed) > 1.0
