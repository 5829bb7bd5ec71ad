"""Heads and audits drawn at random, the same ones for the same seed whatever is measured."""

from random import Random

from .mill import Head, Visit
from .rigid import Hinge

RADIUS_MM = (60.0, 150.0)
NOD_BEHIND_MM = (120.0, 260.0)
HEIGHT_MM = (250.0, 520.0)
BESIDE_SD_MM = 3.0
COUPLING_SD = 0.02
START_SD_MM = 0.45
READINGS_AN_AUDIT = 24
"""About as many as an audit with two moves takes: a bump comes before any one of them."""


def head(seed: int, number: int) -> Head:
    """The head with this number."""
    rng = Random(f"head {seed} {number}")
    return Head(
        side=_hinge(rng, rng.gauss(0, BESIDE_SD_MM)),
        nod=_hinge(rng, rng.uniform(*NOD_BEHIND_MM)),
        shift_sign=(rng.choice((-1, 1)), rng.choice((-1, 1))),
    )


def _hinge(rng: Random, behind_mm: float) -> Hinge:
    return Hinge(
        x_mm=rng.gauss(0, BESIDE_SD_MM),
        y_mm=behind_mm,
        height_mm=rng.uniform(*HEIGHT_MM),
        coupling=rng.gauss(0, COUPLING_SD),
    )


def visit(seed: int, number: int, audit: int) -> Visit:
    """The circumstances of that head's audit, counted from 0: another radius, start and ring."""
    rng = Random(f"visit {seed} {number} {audit}")
    return Visit(
        radius_mm=rng.uniform(*RADIUS_MM),
        start_mm=(rng.gauss(0, START_SD_MM), rng.gauss(0, START_SD_MM)),
        ring_deg=rng.uniform(0, 360),
        bump_at=rng.randint(1, READINGS_AN_AUDIT),
        bump_draw=rng.random(),
        seed=f"noise {seed} {number} {audit}",
    )
