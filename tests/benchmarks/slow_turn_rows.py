"""A slow turn against a sweep of four places, on an exact spindle turned by an uneven hand.

`python tests/benchmarks/slow_turn_rows.py --turns 400` prints, for each kind of collar and hand:
the bias of the difference across the sweep, its standard deviation, how often the true one lies
within the stated 95 %, how well the lag is told, and the seconds.
Nothing of the fit makes a sample: the hand's way is integrated, the gauge shows what was under its
contact a little before.
"""

import argparse
import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.plan import FOUR
from daq.checks.sweep.reduce import Spot, covariance
from daq.checks.sweep.slow_turn.fit import SlowTurn, swept
from daq.checks.sweep.slow_turn.way import Marks, NotRoundError, legs_of
from daq.checks.sweep.terms import SweepFacts, terms
from daq.metrology.budget import combine
from daq.words import AXES, FOUR_POSITIONS, POSITIONS, Axis, Both, Passed

RADIUS_MM = 100.0
STEP_S = 0.002
SWING_S, READING_S, RETURN_S = 8.0, 3.0, 24.0
FOUR_PLACES_S = 3 * SWING_S + RETURN_S + 5 * READING_S
"""Three swings on, one back all the way, five readings."""
VISIT_MM = 0.0007
"""How differently the contact lands at each visit of a place."""
PRESS_S = 2.0


@dataclass(frozen=True)
class Cell:
    """One kind of turn. Lengths mm, times s, angles degrees; all else standard deviations."""

    name: str
    marks: Marks = "four"
    turn_s: float = 11.0
    uneven: float = 0.2
    grips: int = 3
    most_mm: float = 0.15
    noise_mm: float = 0.0007
    digit_mm: float = 0.001
    switch_deg: float = 1.0
    width_deg: float = 1.0
    drift_mm: float = 0.001
    form_mm: float = 0.001
    rough_mm: float = 0.0003
    rate_hz: float = 20.0
    smooths: bool = False


CELLS = (
    Cell("as found"),
    Cell("nearly square", most_mm=0.01),
    Cell("far out", most_mm=1.0),
    Cell("an uneven hand", uneven=0.35),
    Cell("a steady hand", uneven=0.05, grips=0),
    Cell("the gauge averages", smooths=True),
    Cell("a coarse digit", most_mm=0.03, digit_mm=0.01, noise_mm=0.002),
    Cell("one mark, nearly square", "mark", most_mm=0.01),
    Cell("one mark, as found", "mark"),
    Cell("one mark, an uneven hand", "mark", uneven=0.35, most_mm=0.03),
)


@dataclass(frozen=True)
class Turn:
    """One slow turn: when each sample came and what it showed, what was passed, what is true."""

    times_s: np.ndarray
    mm: np.ndarray
    passed: tuple[Passed, ...]
    d_mm: Both[float]
    lag_s: float


def hand(rng: np.random.Generator, cell: Cell) -> tuple[np.ndarray, np.ndarray]:
    """When the arm was where: seconds, and degrees from the front, once round and back."""
    past, rest = rng.uniform(0.0, 25.0), rng.uniform(0.3, 1.0)
    speed = 360.0 / cell.turn_s * rng.uniform(0.85, 1.15)
    start, turn = -rng.uniform(0.0, 1.0) * past, 360.0 + past
    ways = [np.full(round(rest / STEP_S), start)]
    for begin, end in ((start, turn), (turn, start)):
        far = abs(end - begin)
        where = np.linspace(0.0, far, 4000)
        slow = np.ones_like(where)
        for k in range(1, 7):
            size = cell.uneven * rng.normal() / math.sqrt(3.0 * k)
            slow += size * np.sin(math.pi * k * where / far * 2.0 + rng.uniform(0.0, 6.3))
        for n in range(cell.grips):  # the hand lets go a little and takes hold anew
            grip = (n + rng.uniform(0.3, 0.7)) * far / cell.grips
            slow -= rng.uniform(0.5, 0.8) * np.exp(-(((where - grip) / 8.0) ** 2))
        ends = np.minimum(1.0, np.minimum(where, far - where) / 15.0 + 0.1)
        pace = speed * np.maximum(slow, 0.15) * ends
        took = np.concatenate([[0.0], np.cumsum(np.diff(where) / (0.5 * (pace[1:] + pace[:-1])))])
        at = np.interp(np.arange(0.0, took[-1], STEP_S), took, where)
        ways += [begin + math.copysign(1.0, end - begin) * at, np.full(round(rest / STEP_S), end)]
    where = np.concatenate(ways)
    return np.arange(len(where)) * STEP_S, where


def passed(rng: np.random.Generator, cell: Cell, t: np.ndarray, at: np.ndarray) -> Iterator[Passed]:
    """The edges of the collar's switches, each where it really sits."""
    places = FOUR_POSITIONS if cell.marks == "four" else FOUR_POSITIONS[:1]
    edges = []
    for i, place in enumerate(places):
        sits = 90.0 * i + rng.normal(0.0, cell.switch_deg)
        half = 3.0 + rng.uniform(-cell.width_deg, cell.width_deg)
        closed = np.abs((at - sits + 180.0) % 360.0 - 180.0) < half
        for n in np.flatnonzero(np.diff(closed)):
            edges.append((round(t[n] * 1e9), place, bool(closed[n + 1])))
    return (Passed(place, closed, at_ns) for at_ns, place, closed in sorted(edges))


def turn(rng: np.random.Generator, cell: Cell) -> Turn:
    """Draw one slow turn."""
    t, at = hand(rng, cell)
    phi = np.radians(POSITIONS["front"] + at)
    side, nod = rng.uniform(-cell.most_mm, cell.most_mm, 2)
    mm = 0.5 * side * np.cos(phi) - 0.5 * nod * np.sin(phi)
    for k in range(2, 7):
        size, way = rng.normal(0.0, cell.form_mm / k * 2.0), rng.uniform(0.0, 6.3)
        mm += size * np.cos(k * phi + way)
    for k in range(9, 40):
        size, way = rng.normal(0.0, cell.rough_mm / math.sqrt(15.0)), rng.uniform(0.0, 6.3)
        mm += size * np.cos(k * phi + way)
    mm += rng.normal(0.0, cell.drift_mm) * t / t[-1]
    lag = rng.uniform(0.1, 0.3)
    if cell.smooths:  # what came in last counts most
        shown = np.empty_like(mm)
        level, part = mm[0], STEP_S / lag
        for n, value in enumerate(mm):
            level += part * (value - level)
            shown[n] = level
    else:
        shown = np.interp(t - lag, t, mm)
    when = np.arange(rng.uniform(0.0, 1.0 / cell.rate_hz), t[-1], 1.0 / cell.rate_hz)
    seen = np.interp(when, t, shown) + rng.normal(0.0, cell.noise_mm, len(when))
    seen = np.round(seen / cell.digit_mm) * cell.digit_mm
    edges = tuple(passed(rng, cell, t, at))
    return Turn(when, seen, edges, Both(float(side), float(nod)), lag)


def of(cell: Cell, made: Turn) -> SlowTurn:
    """The fit of one."""
    legs = legs_of(made.passed, cell.marks, 0)
    return swept(made.times_s.tolist(), made.mm.tolist(), legs, cell.marks, RADIUS_MM)


def expanded(cell: Cell, found: SlowTurn, axis: Axis) -> float:
    """Half of the stated 95 % interval of a difference, of what a slow turn itself adds."""
    drift_mm = found.drift_mm_s * found.seconds
    facts = SweepFacts(
        RADIUS_MM,
        tuple(POSITIONS[place] for place in FOUR.sequence),
        (0.0, 1.0, 2.0, 3.0, 4.0),
        Both(2.0 * RADIUS_MM * found.a, -2.0 * RADIUS_MM * found.b),
        VISIT_MM,
        None,
        cell.digit_mm,
        0.0,
        drift_mm,
        found.scatter_mm,
        slow=found,
    )
    own = ("term-repeatability", "term-place", "term-resolution", "term-return")
    every = [term for term in terms(facts, Doubts(), axis) if term.code in own]
    return combine(every).expanded_mm


def row(cell: Cell, turns: int) -> str:
    """One cell's figures as text."""
    off, half, lags, took = [], [], [], []
    refused = 0
    for n in range(turns):
        made = turn(np.random.default_rng([n, 7]), cell)
        try:
            found = of(cell, made)
        except NotRoundError:
            refused += 1
            continue
        d_mm = Both(2.0 * RADIUS_MM * found.a, -2.0 * RADIUS_MM * found.b)
        off += [d_mm[axis] - made.d_mm[axis] for axis in AXES]
        half += [expanded(cell, found, axis) for axis in AXES]
        lags.append(found.lag_s - made.lag_s)
        took.append(made.times_s[-1] + PRESS_S)
    away = 1e3 * np.array(off)
    inside = 100.0 * float(np.mean(np.abs(away) <= 1e3 * np.array(half)))
    return (
        f"{cell.name:26} {away.mean():+6.2f} {away.std():6.2f} {1e3 * np.mean(half):6.2f} "
        f"{inside:6.1f} {np.mean(lags):+7.3f} {np.std(lags):6.3f} {np.mean(took):6.1f} "
        f"{FOUR_PLACES_S - np.mean(took):6.1f} {refused:4d}"
    )


def main() -> None:
    """Print a row a cell."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--turns", type=int, default=200)
    parser.add_argument("--cell", default="")
    chosen = parser.parse_args()
    print("um, %, s: bias, scatter, U, inside, lag off, its scatter, seconds, saved, refused")
    four = fit_of_four()
    print(f"{'four places, 0.7 um a visit':26} scatter {1e3 * four:.2f}, {FOUR_PLACES_S:.0f} s")
    for cell in CELLS:
        if chosen.cell in cell.name:
            print(row(cell, chosen.turns), flush=True)


def fit_of_four() -> float:
    """The standard deviation of a difference by four places and the way back."""
    read = [Spot(POSITIONS[place], 0.0, float(n)) for n, place in enumerate(FOUR.sequence)]
    return 2.0 * RADIUS_MM * math.sqrt(covariance(read, RADIUS_MM, True, VISIT_MM)[1][1])


if __name__ == "__main__":
    main()
