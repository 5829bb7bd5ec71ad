"""A collar's switches and a gauge, as the spindle of a pure bench is turned slowly by hand."""

import math
from collections.abc import Callable
from dataclasses import replace

from daq.words import FOUR_POSITIONS, POSITIONS, Passed
from tests.audit.conftest import Bench, setup_of

TURN_S = 12.0
BETWEEN_S = 0.02
HALF_S = 0.1
LAG_S = 0.2
THERE_AND_BACK = "frblflbrf"
NOISE_MM = (0.0, 0.0007, -0.0004, 0.0003, -0.0008, 0.0002, 0.0005)


def slow_bench(marks: str = "four") -> Bench:
    setup = setup_of()
    return Bench(replace(setup, machine=replace(setup.machine, slow_turn=marks)))


def edges(since_ns: int, way: str, quarter_s: float = TURN_S / 4) -> tuple[Passed, ...]:
    """The switches closing and opening one after the other, by their first letters."""
    found = []
    for n, letter in enumerate(way):
        place = next(p for p in FOUR_POSITIONS if p[0] == letter)
        for closed, at_s in ((True, -HALF_S), (False, HALF_S)):
            at_ns = since_ns + round((1.0 + n * quarter_s + at_s) * 1e9)
            found.append(Passed(place, closed, at_ns))
    return tuple(found)


def passed(bench: Bench, way: str = THERE_AND_BACK, quarter_s: float = TURN_S / 4) -> None:
    """The arm passes them from now on."""
    bench.passed = edges(bench.ns, way, quarter_s)


def nothing(t: float) -> float:
    return 0.0


def shown(side_mm: float, nod_mm: float, add: Callable[[float], float] = nothing) -> list[float]:
    """What the gauge sends on the way round and back, `add` by seconds since it began."""
    numbers = []
    for n in range(round((2 * TURN_S + 2.0) / BETWEEN_S)):
        t = (n + 1) * BETWEEN_S - 1.0
        turned = min(max(t - LAG_S, 0.0), 2 * TURN_S - (t - LAG_S)) * 360.0 / TURN_S
        phi = math.radians(POSITIONS["front"] + max(turned, 0.0))
        mm = 1.0 + 0.5 * side_mm * math.cos(phi) - 0.5 * nod_mm * math.sin(phi)
        numbers.append(round(mm + NOISE_MM[n % len(NOISE_MM)] + add(t), 3))
    return numbers
