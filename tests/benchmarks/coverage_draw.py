"""Heads, rings, gauges and surfaces drawn from what is stated of them, and what gauges then show.

By vector geometry: nothing of the fit's model, nor of the budget, makes a reading.
"""

import math
from dataclasses import dataclass

import numpy as np
from coverage_cells import Cell

from daq.metrology.flicks import FLICKS, Friction, friction
from daq.units import SLACK_MM

SAMPLES = 12
Array = np.ndarray[tuple[int, ...], np.dtype[np.float64]]


@dataclass(frozen=True)
class Machine:
    """The spindle's lean, the ring's wedge and the spindle's rise and fall: an entry a sweep."""

    lean: Array
    wedge: Array
    axial: Array


@dataclass(frozen=True)
class Gauge:
    """Where a gauge's contact really is, and how far its readings are off: an entry a sweep."""

    radius_mm: Array
    tilt: Array
    scale: Array
    local: Array


def bounded(rng: np.random.Generator, n: int, most: float, always: bool) -> Array:
    """What turns with something, by axis: anywhere within ± `most`, each axis by itself.

    `always`: of just that size, in any direction.
    """
    if not always:
        return rng.uniform(-most, most, (2, n))
    return most * any_way(rng, n)


def any_way(rng: np.random.Generator, n: int) -> Array:
    """Directions, by their cosine and sine."""
    way = rng.uniform(0.0, 2.0 * math.pi, n)
    return np.array([np.cos(way), np.sin(way)])


def machine(rng: np.random.Generator, n: int, cell: Cell) -> Machine:
    """Draw machines as the doubts say of them."""
    across, most = 2.0 * cell.radius_mm, cell.most_mm
    wedge = cell.doubts.wedge if cell.seat in ("ring", "plate") else 0.0
    ring = "ring" in cell.always or cell.doubts.wedge_known
    spindle = "spindle" in cell.always or cell.doubts.spindle_axial_known
    return Machine(
        rng.uniform(-most, most, (2, n)) / across,
        bounded(rng, n, wedge / across, ring),
        bounded(rng, n, cell.doubts.spindle_axial, spindle),
    )


def gauge(rng: np.random.Generator, n: int, cell: Cell, radius_mm: float) -> Gauge:
    """Draw gauges on arms as the doubts say of them."""
    doubts, papers = cell.doubts, cell.papers
    local = doubts.local(cell.max_error_mm, cell.resolution_mm)
    if doubts.local_error is None and papers.span_error_mm is not None:
        local = papers.span_error_mm
    gone = papers.gone_mm or 0.0
    over_span = rng.uniform(-local, local, (2, n)) + rng.uniform(-gone, gone, (2, n))
    # The certificate's error at two points, half of it common to both.
    over_span += rng.normal(0.0, papers.u_mm or 0.0, (2, n))
    stood = any_way(rng, n) * rng.uniform(0.0, doubts.parallel, n)
    angle = papers.angle + rng.uniform(-1.0, 1.0, n) * (papers.angle_doubt or 0.0)
    leaned = np.cos(papers.angle) / np.cos(angle)
    return Gauge(
        radius_mm + rng.uniform(-doubts.radius, doubts.radius, n),
        stood,
        (1.0 + rng.uniform(-doubts.scale, doubts.scale, n)) * leaned - 1.0,
        over_span,
    )


def seated(rng: np.random.Generator, n: int, cell: Cell) -> Array:
    """Draw how the ring sits and is warm, as slopes; a block and the bare table do not tilt."""
    if cell.seat not in ("ring", "plate"):
        return np.zeros((2, n))
    doubts = cell.doubts
    warmer = 11.5e-6 * doubts.thickness * doubts.temperature
    tilts = bounded(rng, n, doubts.seating, False) + bounded(rng, n, warmer, False)
    return tilts / (2.0 * cell.radius_mm)


@dataclass(frozen=True)
class Form:
    """Waves of the surface around the circle: how many, and their cosine and sine parts."""

    waves: tuple[int, ...]
    parts: tuple[Array, ...]

    def at(self, azimuths: Array) -> Array:
        """How high it stands at azimuths, radians; an entry a sweep."""
        phi = azimuths[:, None]
        heights: Array = np.zeros((len(azimuths), self.parts[0].shape[1]))
        for k, (along, across) in zip(self.waves, self.parts, strict=True):
            heights += np.cos(k * phi) * along + np.sin(k * phi) * across
        return heights


def formed(rng: np.random.Generator, cell: Cell, n: int) -> Form:
    """Draw how a surface is formed: a wave as high as its flatness, and a saddle."""
    wave = bounded(rng, n, cell.form_mm / 2.0, "form" in cell.always)
    saddle = cell.saddle_mm * rng.uniform(-1.0, 1.0, (2, n))
    return Form((cell.waves, 2), (wave, saddle))


def pushed_in(lean: Array, phi: float, gauge: Gauge, surface: Array) -> Array:
    """How far a plane pushes the contact in: from a point of the circle along the plunger."""
    a, b = lean
    one = np.ones_like(a)
    top = np.stack([a, b, one]) / np.sqrt(1.0 + a * a + b * b)
    out = np.stack([math.cos(phi) * one, math.sin(phi) * one, 0.0 * one])
    out[2] = -(top[0] * out[0] + top[1] * out[1]) / top[2]
    out /= np.sqrt((out * out).sum(axis=0))
    beside = np.cross(top, out, axis=0)
    tip = gauge.radius_mm * out - top
    slanted = np.sin(gauge.tilt)
    stem = np.sqrt(1.0 - (slanted**2).sum(axis=0)) * top + slanted[0] * out + slanted[1] * beside
    normal = np.stack([-surface[0], -surface[1], one])
    pushed: Array = -(normal * tip).sum(axis=0) / (normal * stem).sum(axis=0)
    return pushed


def drifts(rng: np.random.Generator, cell: Cell, n: int, when: Array) -> Array:
    """How far the reading has walked at each place, of itself and with the table's warmth."""
    part = (when - when[0])[:, None] / (when[-1] - when[0])
    if cell.warms:
        slow = np.exp(rng.uniform(math.log(0.3), math.log(3.0), n))
        part = np.expm1(-part / slow) / np.expm1(-1.0 / slow)
    return cell.steady_mm * part + walk(rng, cell, n, when) + gone(rng, cell, n, when)


def walk(rng: np.random.Generator, cell: Cell, n: int, when: Array) -> Array:
    """A drift that is not steady: half way it may be anywhere between its ends."""
    whole = rng.uniform(-cell.drift_mm, cell.drift_mm, n)
    part = (when - when[0])[:, None] / (when[-1] - when[0])
    bent = rng.uniform(-0.5, 0.5, n) * np.sin(math.pi * part)
    bent = bent + rng.uniform(-0.25, 0.25, n) * np.sin(2.0 * math.pi * part)
    return whole * (part + bent)


def gone(rng: np.random.Generator, cell: Cell, n: int, when: Array) -> Array:
    """A drift that comes and goes: half a wave, its peak at any time of the sweep.

    A check ends before it is back: its last reading stands anywhere within the bound.
    """
    bound = cell.doubts.drift if cell.gone_mm is None else cell.gone_mm
    most = rng.uniform(-bound, bound, n)
    if "drift" in cell.always:
        most = bound * rng.choice([-1.0, 1.0], n)
    part = (when - when[0])[:, None] / (when[-1] - when[0])
    if cell.is_check:
        return most * part
    peak = rng.uniform(0.0, 1.0, n)
    up, down = part / np.maximum(peak, 1e-9), (1.0 - part) / np.maximum(1.0 - peak, 1e-9)
    hump: Array = most * np.sin(0.5 * math.pi * np.minimum(1.0, np.minimum(up, down)))
    return hump


def shown(
    rng: np.random.Generator, cell: Cell, head: Machine, gauge: Gauge, surface: Array, turn: float
) -> Array:
    """What a gauge shows at each place, before any drift; `turn` degrees round the circle."""
    n, doubts = head.lean.shape[1], cell.doubts
    zero = rng.uniform(-0.5, 0.5, n)
    rows = []
    for azimuth in np.radians(np.array(cell.azimuths) + turn).tolist():
        cos, sin = math.cos(azimuth), math.sin(azimuth)
        pushed = (1.0 + gauge.scale) * pushed_in(head.lean, azimuth, gauge, surface)
        pushed += gauge.local[0] / 2.0 * cos - gauge.local[1] / 2.0 * sin
        pushed += stuck(rng, cell, n)
        if cell.seat == "block":
            pushed += rng.uniform(-doubts.seating, doubts.seating, n)
        rows.append(zero + pushed + rng.normal(0.0, cell.sd_mm, n))
    return np.stack(rows)


def stuck(rng: np.random.Generator, cell: Cell, n: int) -> Array:
    """How far a sticking contact leaves a reading off."""
    if cell.flicked_mm is not None:
        return rng.normal(0.0, cell.flicked_mm, n)
    return rng.uniform(-cell.doubts.friction, cell.doubts.friction, n)


def flicked(rng: np.random.Generator, cell: Cell) -> Friction | None:
    """What flicks of the arm show, done again until one attempt comes back within a count."""
    if cell.flicked_mm is None:
        return None
    count, sent_back = cell.resolution_mm, []
    while True:
        at = rng.uniform(0.0, count) + rng.normal(0.0, cell.flicked_mm, FLICKS + 1)
        levels = (np.round(at / count) * count).tolist()
        if max(abs(level - levels[0]) for level in levels) <= count + SLACK_MM:
            return friction(sent_back, levels, count, cell.doubts.friction)
        sent_back.append(levels)


def counted(rng: np.random.Generator, cell: Cell, pushed: Array) -> tuple[Array, Array]:
    """The mean of a window's samples, each in whole counts, and their pooled scatter."""
    samples = pushed + rng.normal(0.0, cell.lively_mm, (SAMPLES, *pushed.shape))
    counts = np.round(samples / cell.resolution_mm) * cell.resolution_mm
    return counts.mean(axis=0), np.sqrt(counts.var(axis=0, ddof=1).mean(axis=0))
