"""Every kind of sweep there is, and what is known of one, drawn at random."""

import random
from collections.abc import Sequence
from itertools import product
from typing import get_args

from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.gauge_terms import Papers
from daq.checks.sweep.terms import Seat, SweepFacts, Turned
from daq.metrology.flicks import Friction
from daq.words import AXES, Both

SEATS = get_args(Seat)
TURNED = get_args(Turned)
SWEEPS = {
    "four": (270.0, 0.0, 90.0, 180.0, 270.0),
    "eight": (270.0, 315.0, 0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0),
    "three": (270.0, 0.0, 180.0, 270.0),
    "uneven": (5.0, 100.0, 200.0, 280.0, 5.0),
}
CHECKS = {
    ("side", "pair"): (180.0, 0.0),
    ("nod", "pair"): (90.0, 270.0),
    ("nod", "no back"): (0.0, 180.0, 270.0),
}


def drawn(draw: random.Random, azimuths: Sequence[float]) -> tuple[SweepFacts, Doubts]:
    """What is known of a sweep, and its doubts, at random; no drift where no spot is read twice."""
    again = len(set(azimuths)) < len(azimuths)
    times = sorted(draw.uniform(0.0, 40.0) for _ in azimuths)
    facts = SweepFacts(
        radius_mm=draw.uniform(40.0, 200.0),
        azimuths_deg=tuple(azimuths),
        orders=tuple(times) if again else (),
        d_mm=Both(draw.uniform(-0.1, 0.1), draw.uniform(-0.1, 0.1)),
        sd_mm=10.0 ** draw.uniform(-3.5, -2.0),
        sd_dof=draw.choice([None, draw.uniform(2.0, 60.0)]),
        resolution_mm=10.0 ** draw.uniform(-4.0, -1.5),
        max_error_mm=10.0 ** draw.uniform(-3.0, -1.5),
        return_error_mm=draw.uniform(-0.004, 0.004) if again else 0.0,
        scatter_mm=draw.choice([0.0, 10.0 ** draw.uniform(-4.0, -2.0)]),
        apart_k=draw.choice([None, draw.uniform(0.0, 5.0)]),
        seen=draw.choice([0.0, draw.uniform(0.0, 1.0)]),
        friction=draw.choice([None, Friction(draw.uniform(0.0, 0.002), 5.0, 3)]),
        papers=Papers(
            u_mm=draw.choice([None, draw.uniform(0.0001, 0.003)]),
            gone_mm=draw.choice([None, draw.uniform(0.0, 0.003)]),
            span_error_mm=draw.choice([None, draw.uniform(0.0, 0.003)]),
            angle=draw.uniform(0.0, 1.0),
            angle_doubt=draw.choice([None, draw.uniform(0.0, 0.3)]),
        ),
    )
    doubts = Doubts(
        wedge=draw.uniform(0.0, 0.01),
        wedge_known=draw.choice([False, True]),
        seating=draw.uniform(0.0, 0.003),
        flatness=draw.choice([None, draw.uniform(0.0, 0.01)]),
        drift=draw.uniform(0.0, 0.003),
        spindle_axial=draw.uniform(0.0, 0.003),
        spindle_axial_known=draw.choice([False, True]),
        friction=draw.uniform(0.0, 0.003),
        local_error=draw.choice([None, draw.uniform(0.0, 0.003)]),
        scale=draw.uniform(0.0, 0.02),
        radius=draw.uniform(0.0, 5.0),
        parallel=draw.uniform(0.0, 0.1),
        temperature=draw.uniform(0.0, 10.0),
        thickness=draw.uniform(0.0, 60.0),
    )
    return facts, doubts


def kinds() -> list[tuple[str, str, str, str, bool]]:
    """Every kind of sweep there is: what is read, of which axis, on what, what turned, a bar."""
    sweeps = list(product(SWEEPS, AXES, SEATS, TURNED, (False, True)))
    checks = [(name, axis, seat, "", False) for (axis, name) in CHECKS for seat in SEATS]
    return [*sweeps, *checks]
