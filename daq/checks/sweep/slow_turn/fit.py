"""The circle through every sample of a slow turn, forth and back.

The gauge shows what was under its contact a little before (`lag`), and between two switches the
hand may have turned unevenly. Both move the place a number belongs to, so both count as much as
the number changes there: the lag the other way round on the way back, the hand by itself in each
stretch. They are fitted with the lean, from a prior each (Gauss and Newton, regularised least
squares: textbook), and what of them stays unknown is in the doubt of the lean. So is where the
switches really sit. The surface's own waves are fitted too, forth and back alike.

Numbers 50 ms apart err alike: the last digit, the hand, the surface's texture. So what the samples
scatter by is taken from sums over stretches of the circle, forth and back together, with the
degrees of freedom such sums leave (Satterthwaite 1946), and never from their number.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from daq.checks.finding import Finding, size
from daq.checks.sweep.harmonics import Second
from daq.checks.sweep.slow_turn.unknowns import UNEVEN, WAVES, OnTheWay, Scales, Unknowns
from daq.checks.sweep.slow_turn.way import Array, Leg, Marks, place_at
from daq.units import SLACK_MM
from daq.words import AXES, Axis, Both, SaidTrouble, Unit, said

_ROUNDS: Final = 8
"""Steps of the fit; it stands still to well below a nanometre after five."""
_STRETCHES: Final = 36
"""Parts of the circle over which samples are summed."""
_CLEARLY: Final = 8.0
"""Of 36 means that only scatter the largest is four times the middle one, and hardly ever this."""
_LEAST_MM: Final = 1e-6
_NOTHING_MM: Final = 1e-9
_START_MM: Final = 0.001
CURVED: Final[dict[Marks, float]] = {"four": 1.7, "mark": 2.0}
"""The fit takes for straight what the hand bends: by so much its doubt of the place is too small.
By trial (tests/benchmarks/slow_turn_rows.py), with hands that let go and take hold anew."""
LEAST_SAMPLES: Final = 60
"""Fewer on both ways together are too few to fit a circle and all else (no source)."""


class TooFewError(SaidTrouble):
    """The gauge sent too few numbers on the way."""


@dataclass(frozen=True, slots=True)
class SlowTurn:
    """What a slow turn shows. Lengths mm, times s, slopes mm/mm.

    `c_mm`: the level of the circle's middle when the turn began; `drift_mm_s`: how fast it walked.
    `wave_mm`: the surface's own, cosine and sine by waves a turn from two on. `lag_s`: how late
    the gauge shows a number, `lag_u_s` the standard uncertainty of that. `uneven`: how unevenly
    the hand turned between two switches, as part of its speed. `scatter_mm`: of one sample.
    For each axis, of its difference across the sweep: `noise_mm`, the standard uncertainty that the
    samples leave, with `dof`; `place_mm`, the one that the hand, the lag and the switches do.
    `odd_mm`: what a stretch of the circle, at `odd_deg`, stands off all that was fitted, at most;
    `odd_times` what half of them do.
    """

    radius_mm: float
    a: float
    b: float
    c_mm: float
    drift_mm_s: float
    wave_mm: tuple[float, ...]
    lag_s: float
    lag_u_s: float
    uneven: float
    samples: int
    seconds: float
    scatter_mm: float
    noise_mm: Both[float]
    place_mm: Both[float]
    dof: float
    odd_mm: float
    odd_deg: float
    odd_times: float

    def level_mm(self, azimuth_deg: float, at_s: float) -> float:
        """What the gauge would read standing still there, so long after the turn began."""
        phi = math.radians(azimuth_deg)
        lean = self.radius_mm * (self.a * math.cos(phi) + self.b * math.sin(phi))
        pairs = zip(self.wave_mm[::2], self.wave_mm[1::2], strict=True)
        form = sum(
            c * math.cos(k * phi) + s * math.sin(k * phi)
            for k, (c, s) in enumerate(pairs, start=WAVES[0])
        )
        return self.c_mm + self.drift_mm_s * at_s + lean + form

    @property
    def of_point_mm(self) -> float:
        """The standard uncertainty of what it tells of one place: two make a difference."""
        d_mm = Both(2.0 * self.radius_mm * self.a, -2.0 * self.radius_mm * self.b)
        each = (math.hypot(self.noise_mm[a], self.place_of(d_mm, a)) for a in AXES)
        return max(each) / math.sqrt(2.0)

    def place_of(self, d_mm: Both[float], axis: Axis) -> float:
        """What an axis's difference is in doubt of as the place of each number is, mm.

        A display that averages, where it were not just late, would show a wave once a turn so
        much smaller as well: the rest of 1/√(1 + (2π lag/turn)²) of a first order (textbook).
        """
        late = math.tau * self.lag_s / (0.5 * self.seconds)
        return math.hypot(self.place_mm[axis], 0.5 * late * late * abs(d_mm[axis]) / math.sqrt(3.0))

    def stood_out(self, limit_mm: float, unit: Unit) -> Finding | None:
        """What to say of a stretch that stands off the circle as a chip or a slot does."""
        if abs(self.odd_mm) <= limit_mm + SLACK_MM or self.odd_times < _CLEARLY:
            return None
        place = place_at(math.radians(self.odd_deg))
        say = said("slow-turn-odd", place=place, found=size(self.odd_mm, unit), unit=unit)
        return Finding(say, True, self.odd_mm, limit_mm)

    @property
    def second(self) -> Second:
        """The saddle or ridge of the surface: pushed in most where it stands highest."""
        along, askew = self.wave_mm[:2]
        direction = math.degrees(math.atan2(askew, along)) / 2.0 % 180.0
        return Second(math.hypot(along, askew), direction, self.scatter_mm)


def swept(
    times_s: Sequence[float],
    pushed_mm: Sequence[float],
    legs: tuple[Leg, Leg],
    marks: Marks,
    radius_mm: float,
) -> SlowTurn:
    """Fit the circle to the samples on both ways; `times_s` as those of the legs.

    Raises:
        TooFewError: too few samples on the way, or none of a quarter of it.
    """
    turned = OnTheWay.of(np.array(times_s), np.array(pushed_mm), legs)
    if len(turned.mm) < LEAST_SAMPLES:
        raise TooFewError(said("round-few-samples", samples=len(turned.mm), least=LEAST_SAMPLES))
    unknowns = Unknowns.of(legs, marks)
    found, scales, noise = unknowns.mean.copy(), Scales(), Noise(_START_MM**2, 1.0, _START_MM)
    found[0] = turned.mm.mean()
    for _ in range(_ROUNDS):
        model, follows, phi = unknowns.model(turned, found)
        prior = unknowns.precision(scales)
        held = _inverse(follows.T @ follows / noise.variance + np.diag(prior))
        pull = follows.T @ (turned.mm - model) / noise.variance + prior * (unknowns.mean - found)
        step = held @ pull
        rest = turned.mm - model - follows @ step
        noise = _noise(rest, follows, phi, held / noise.variance)
        found = found + step
        scales = unknowns.scales(found, held)
    return _result(unknowns, turned, found, scales, noise, radius_mm)


def _inverse(matrix: Array) -> Array:
    return np.asarray(np.linalg.inv(matrix), dtype=np.float64)


@dataclass(frozen=True, slots=True)
class Noise:
    """What a sample counts as scattering by, squared, with its degrees of freedom; and scatters.

    `odd_mm`: the mean that stands off most of a stretch of the circle, whose middle is `odd_deg`;
    it is `odd_times` the middle one of all.
    """

    variance: float
    dof: float
    scatter_mm: float
    odd_mm: float = 0.0
    odd_deg: float = 0.0
    odd_times: float = 1.0


def _noise(rest: Array, follows: Array, phi: Array, solved: Array) -> Noise:
    """From sums over stretches of the circle: what errs alike in a stretch adds up there.

    `rest`: what the fit leaves; `solved`: how its unknowns follow the sums of `follows`.
    """
    stretch = np.floor(phi / (2.0 * np.pi) * _STRETCHES).astype(int) % _STRETCHES
    there = stretch == np.arange(_STRETCHES)[:, None]
    middles = (np.arange(_STRETCHES) + 0.5)[there.any(axis=1)] * 360.0 / _STRETCHES
    there = there[there.any(axis=1)]
    count = there.sum(axis=1)
    sums = there / np.sqrt(count)[:, None]
    means = (there @ rest) / count
    odd = int(np.abs(means).argmax())
    left = sums - (sums @ follows) @ solved @ follows.T
    shares = left @ left.T
    spread = float(np.trace(shares))
    by_sums = float(((sums @ rest) ** 2).sum()) / spread
    free = len(rest) - float(np.trace(solved @ (follows.T @ follows)))
    each = float(rest @ rest) / free
    dof = spread**2 / float((shares * shares).sum())
    usual = float(np.median(np.abs(means))) or _NOTHING_MM
    off = float(means[odd]), float(middles[odd]), abs(float(means[odd])) / usual
    return Noise(max(by_sums, each, _LEAST_MM**2), dof, math.sqrt(each), *off)


def _result(
    unknowns: Unknowns,
    turned: OnTheWay,
    found: Array,
    scales: Scales,
    noise: Noise,
    radius_mm: float,
) -> SlowTurn:
    _, follows, _ = unknowns.model(turned, found)
    tells, prior = follows.T @ follows / noise.variance, unknowns.precision(scales)
    held = _inverse(tells + np.diag(prior))
    # What of a difference, 2 × R·a or 2 × R·b, the samples leave, and what the places do.
    by_noise = 2.0 * np.sqrt(np.diag(held @ tells @ held)[1:3])
    by_place = 2.0 * CURVED[unknowns.marks] * np.sqrt(np.diag((held * prior) @ held)[1:3])
    c_mm, right, away, drift = found[:4].tolist()
    return SlowTurn(
        radius_mm,
        right / radius_mm,
        away / radius_mm,
        c_mm,
        drift,
        unknowns.form(found),
        unknowns.lag(found),
        math.sqrt(unknowns.lag(np.diag(held))),
        scales.hand * UNEVEN,
        len(turned.mm),
        sum(leg.seconds for leg in unknowns.legs),
        noise.scatter_mm,
        Both(*by_noise.tolist()),
        Both(*by_place.tolist()),
        noise.dof,
        noise.odd_mm,
        noise.odd_deg,
        noise.odd_times,
    )
