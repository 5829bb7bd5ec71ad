"""What reversals teach of a ring, drawn by chance: JCGM 101's way of looking at an interval."""

import math
import random

import pytest

from daq.checks.sweep.by_mark import UNLIKELY, ByMark, own_parts
from daq.words import FOUR_POSITIONS, POSITIONS, Both

U = 4e-6
DAY = "2030-01-01"


def read(rng, true, mark, u=U):
    """A reversal's wedge, read off a ring whose own is `true`, with the mark there."""
    lies = true * complex(
        math.cos(math.radians(POSITIONS[mark])), math.sin(math.radians(POSITIONS[mark]))
    )
    a, b = lies.real + rng.gauss(0.0, u), lies.imag + rng.gauss(0.0, u)
    return ByMark(*own_parts(Both(a, -b), POSITIONS[mark]), u, None, 1, "A-1", DAY)


@pytest.mark.parametrize("pairs", [1, 2, 5])
def test_the_learned_wedge_lies_within_its_doubt_as_often_as_stated(pairs):
    rng = random.Random(7 + pairs)
    true, held, total = complex(15e-6, 0.0), 0, 4000
    for _ in range(total):
        known = read(rng, true, rng.choice(FOUR_POSITIONS))
        for _ in range(pairs - 1):
            known = known.after(read(rng, true, rng.choice(FOUR_POSITIONS)))
        lies = known.at(POSITIONS["right"])
        held += abs(lies.side - true.real) <= 1.959964 * known.u
    assert known.u == pytest.approx(U / math.sqrt(pairs))
    assert held / total == pytest.approx(0.95, abs=0.012)


def test_one_pair_in_a_hundred_contradicts_by_chance_and_a_turned_mark_does_nearly_always():
    rng = random.Random(3)
    true, total = complex(15e-6, 0.0), 5000
    first = [read(rng, true, "front") for _ in range(total)]
    again = [read(rng, true, "left") for _ in range(total)]
    chance = sum(a.is_against(b) for a, b in zip(first, again, strict=True)) / total
    turned = sum(a.is_against(b.half_round()) for a, b in zip(first, again, strict=True)) / total
    # Chi-square of two degrees of freedom, 99 %: 9.21034 (any statistical table).
    assert pytest.approx(9.21034, abs=1e-5) == UNLIKELY
    assert chance == pytest.approx(0.01, abs=0.005)
    assert turned > 0.95


def test_a_change_that_goes_on_one_way_stays_within_what_is_added_for_it():
    """Read without error once a year, what is known lags behind by a part of the change."""
    a_year, at, known = 0.5 * U, 0.0, ByMark(0.0, 0.0, U, None, 1, "A-1", "2030-01-01")
    for year in range(1, 40):
        at += a_year
        known = known.grown(a_year, f"{2030 + year}-01-01")
        assert abs(known.ahead - at) <= 1.001 * known.changed
        known = known.after(ByMark(at, 0.0, U, None, 1, "A-1", f"{2030 + year}-01-01"))
        assert abs(known.ahead - at) <= 1.001 * known.changed
    assert known.changed > a_year and known.u < 0.6 * U
