"""The equations' derivatives and their bookkeeping, on stories with every kind of entry."""

import math

import numpy as np
import pytest

from daq.squaring.equations import PARAMETERS, Doubt, Equations, reading_row
from daq.squaring.story import Happened, Seen
from daq.words import AXES, POSITIONS
from tests.squaring.heads import SCATTER, prior

DOUBT = Doubt(0.0007, 0.0003)
PLACES = tuple(POSITIONS)
KINDS = ("moved", "rested", "tightened", "zeroed", "unknown")


def random_story(rng):
    """A sweep, then every kind of entry at least once, in any order, on either axis."""
    story = [Seen(p, rng.normal(0.0, 0.3)) for p in ("right", "back", "left", "front")]
    every = [Happened(kind, axis) for kind in KINDS[:3] for axis in AXES]
    every += [Happened("rested", axis, way, 1e-5) for axis in AXES for way in (-1, 1)]
    every += [Happened("zeroed"), Happened("unknown")]
    place = story[-1].position
    for i in rng.permutation(len(every)):
        story.append(every[i])
        if every[i].way > 0:
            story.append(Happened("tightened", every[i].axis))
        for _ in range(rng.integers(0, 4)):
            stays = bool(rng.random() < 0.4)
            place = place if stays else PLACES[rng.integers(len(PLACES))]
            story.append(Seen(place, rng.normal(0.0, 0.3), stays))
    return (*story, Seen(place, 0.11), Seen(place, 0.12, stays=True))


def equations(story, radius=100.0, doubt=DOUBT):
    answering = prior()
    return Equations(story, answering.mean, answering.covariance, radius, doubt, SCATTER)


def random_point(made, rng):
    """Anywhere: leans of some 10 mrad, where the bend of the middle counts."""
    x = np.empty(made.size)
    scale = [50, 0.1, 400, 50, 0.1, 400, *[3e-5] * 6]
    x[:PARAMETERS] = rng.normal(0.0, 1.0, PARAMETERS) * scale
    x[PARAMETERS:] = rng.normal(0.0, 0.01, made.size - PARAMETERS)
    return x


@pytest.mark.parametrize("seed", range(8))
def test_derivatives_are_those_of_finite_differences(seed):
    """Central differences, step by step of each unknown (textbook)."""
    rng = np.random.default_rng(seed)
    made = equations(random_story(rng), rng.uniform(40.0, 200.0))
    x = random_point(made, rng)
    jacobian = made.at(x)[1]
    for j in range(made.size):
        step = 1e-5 * max(abs(x[j]), 1e-3)
        up, down = x.copy(), x.copy()
        up[j] += step
        down[j] -= step
        found = (made.at(up)[0] - made.at(down)[0]) / (up[j] - down[j])
        scale = np.max(np.abs(jacobian[:, j]))
        assert scale > 0.0, "an unknown that nothing depends on"
        assert found == pytest.approx(jacobian[:, j], rel=2e-5, abs=1e-5 * scale)


@pytest.mark.parametrize("seed", range(4))
def test_looking_at_a_point_leaves_the_equations_as_they_were(seed):
    rng = np.random.default_rng(seed)
    made = equations(random_story(rng))
    x = random_point(made, rng)
    first, slope = made.at(x)
    made.at(random_point(made, rng))
    again, same = made.at(x)
    assert np.array_equal(first, again)
    assert np.array_equal(slope, same)


def test_a_reading_is_the_middle_and_the_lean_toward_it():
    """m(φ) = c + R (a cos φ + b sin φ), front low when nod is above zero (plane geometry)."""
    side, nod, middle = 2e-3, -1e-3, 0.4
    for position, degrees in POSITIONS.items():
        phi = math.radians(degrees)
        read = 0.4 + 80.0 * (2e-3 * math.cos(phi) + 1e-3 * math.sin(phi))
        assert reading_row(position, 80.0) @ [side, nod, middle] == pytest.approx(read, abs=1e-12)
    assert reading_row("front", 80.0) @ [0.0, 1e-3, 0.0] == pytest.approx(0.08)
    assert reading_row("right", 80.0) @ [1e-3, 0.0, 0.0] == pytest.approx(0.08)


def residuals_at_rest(story):
    """What is left over when every unknown but the readings' is zero."""
    made = equations(story)
    x = np.zeros(made.size)
    x[:PARAMETERS] = made.prior
    return made, made.at(x)[0]


def test_a_reading_alone_is_as_sure_as_visit_and_count_together():
    _, left = residuals_at_rest((Seen("front", 0.001),))
    assert left[-1] == pytest.approx(-0.001 / math.hypot(0.0007, 0.0003))
    assert DOUBT.reading_mm == pytest.approx(math.hypot(0.0007, 0.0003))


def test_readings_of_one_visit_differ_by_the_count_alone():
    """Three of one visit share one landing: one more unknown, held by the visit's own scatter."""
    seen = [Seen("front", 0.001), Seen("front", 0.002, True), Seen("front", 0.003, True)]
    made, left = residuals_at_rest(tuple(seen))
    assert made.size == PARAMETERS + 3 + 1
    assert left[PARAMETERS : PARAMETERS + 3] == pytest.approx([-0.001 / 3e-4, -0.002 / 3e-4, -10.0])
    x = np.zeros(made.size)
    x[:PARAMETERS], x[-1] = made.prior, 0.0007
    landed = made.at(x)[0]
    assert landed[-1] == pytest.approx(1.0)
    assert landed[PARAMETERS] == pytest.approx(-0.0003 / 3e-4)


def test_two_visits_are_two_landings():
    first = (Seen("front", 0.0), Seen("front", 0.0, True))
    between = (Seen("back", 0.0),)
    assert equations((*first, *between, *first)).size == PARAMETERS + 3 + 2
    assert equations((*first, *between)).size == PARAMETERS + 3 + 1


@pytest.mark.parametrize("kind", KINDS)
def test_each_change_adds_a_moment_of_three_unknowns(kind):
    told = (Seen("front", 0.0), Happened(kind, "nod"), Seen("front", 0.0))
    assert equations(told).size == PARAMETERS + 6


@pytest.mark.parametrize("seed", range(6))
def test_as_many_equations_as_were_laid_out(seed):
    """No row is left empty, and there is one for each unknown and more: the fit is never open."""
    rng = np.random.default_rng(seed)
    made = equations(random_story(rng))
    jacobian = made.at(random_point(made, rng))[1]
    assert np.all(np.abs(jacobian).max(axis=1) > 0.0)
    assert np.linalg.matrix_rank(jacobian / np.linalg.norm(jacobian, axis=0)) == made.size


def test_it_starts_where_the_readings_of_each_moment_say():
    told = [Seen("right", 0.3), Seen("left", 0.1), Seen("front", 0.2), Seen("back", 0.6)]
    told += [Happened("moved", "side"), Seen("right", 0.25), Seen("left", 0.15)]
    x = equations(tuple(told)).start()
    assert x[:PARAMETERS] == pytest.approx(prior().mean)
    first, second = x[PARAMETERS : PARAMETERS + 3], x[PARAMETERS + 3 : PARAMETERS + 6]
    assert [first[0], first[1], first[2]] == pytest.approx([1e-3, -2e-3, 0.3])
    assert [second[0], second[1]] == pytest.approx([0.5e-3, -2e-3])
    assert second[2] == pytest.approx(0.2)
