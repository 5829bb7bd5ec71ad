"""What must have happened when readings do not fit: each guess a model, with its share.

Every guess tells the story otherwise, or starts from another head; all are fitted to the same
readings by the same maximum posterior (`stand`), and weighed by their marginal likelihood
(Laplace's method, a textbook method) times how often such a thing happens. Which of them is the
likeliest is named; whether the plain picture is believed at all is not asked here.

Lengths mm, across the sweep where they are of a lean; angles rad.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import takewhile
from typing import Literal

import numpy as np

from daq.squaring.equations import FIRST, PARAMETERS, Doubt, Matrix, Scatter
from daq.squaring.learned import ANYWHERE_MM, swung, swung_by
from daq.squaring.response import Answering, Standing, stand
from daq.squaring.resting import share
from daq.squaring.story import Happened, Seen, Story
from daq.squaring.whereabouts import mirrored
from daq.words import AXES, OPPOSITE, OTHER, Axis

Kind = Literal[
    "knocked",
    "swung",
    "other-side",
    "elsewhere",
    "fell-back",
    "crept",
    "other-adjuster",
    "exchanged",
    "other-way",
    "zeroed",
]
_OFTEN: Mapping[Kind, float] = {
    "knocked": 0.5,
    "swung": 0.1,
    "other-side": 0.1,
    "elsewhere": 0.05,
    "fell-back": 0.5,
    "crept": 0.2,
    "other-adjuster": 0.1,
    "exchanged": 0.05,
    "other-way": 0.05,
    "zeroed": 0.05,
}
"""How often each is what happened, for its share of all of them (common practice, no source)."""

_KNOCKS = ((0.8, 0.05), (0.2, 0.5))
"""Knocks by how many of them, and how far they move leans and middle, one standard deviation,
mm (common practice, no source)."""
_CREPT_MM = 0.01
"""How far a head may go back that nothing is known of, one standard deviation (as above)."""
_RAM_SD = math.radians(20.0)
_RAM_MOST = math.radians(60.0)
_RAM_STEP = math.radians(6.0)
"""A ram is swung by anything, mostly less than this; how far, and how near, it is sought."""
_NEARER = 3
_UNSEEN = 0.25
"""A lean in more doubt, one standard deviation, hangs on a turn that no reading tells of."""
_TURN = 0.005
"""A turn moves a lean by less, one standard deviation, slope (common practice, no source)."""
_SURELY_ONE_SIDE = 2.0
"""A pivot so many doubts from the spindle or nearer has no other side to be on."""


@dataclass(frozen=True, slots=True)
class Guess:
    """One thing that may have happened, and its share of all that were weighed.

    `figure`: "swung": the angle of the ram, rad, anticlockwise from above; "other-side" and
    "elsewhere": where the pivot acts, mm; "fell-back" and "crept": by how much, mm; else 0.
    """

    kind: Kind
    share: float
    figure: float = 0.0


@dataclass(frozen=True, slots=True)
class Riddle:
    """Readings that do not fit: the story up to them, from the first of them on, what was known.

    `turned`: the axis whose turn they follow, None when they follow none; `turn_mm`: what that
    was to do to its lean; `back_mm`: how far its adjuster may let it fall back, 0 if nothing is
    known of that.
    """

    story: Story
    since: Story
    prior: Answering
    radius_mm: float
    doubt: Doubt
    scatter: Mapping[Axis, Scatter]
    turned: Axis | None = None
    turn_mm: float = 0.0
    back_mm: float = 0.0

    def fit(self, story: Story, prior: Answering | None = None, rest_mm: float = 0.0) -> Standing:
        """Where the head would stand; `rest_mm`: how far it may have gone back besides."""
        known, scatter = prior or self.prior, dict(self.scatter)
        if rest_mm and self.turned is not None:
            own = scatter[self.turned]
            here = 2.0 * self.radius_mm * share(self.radius_mm, known.pivot_mm(self.turned))
            scatter[self.turned] = replace(own, rest=math.hypot(own.rest, rest_mm / here))
        return stand(story, known, self.radius_mm, self.doubt, scatter, weighs=True)


@dataclass(frozen=True, slots=True)
class _Weighed:
    kind: Kind
    evidence: float
    figure: float = 0.0


def surmise(riddle: Riddle) -> tuple[Guess, ...]:
    """Return what may have happened, the likeliest first; their shares are one together.

    Of a head that was turned where no gauge saw it nothing but a knock is told.
    """
    before = riddle.fit(riddle.story)
    if not _is_seen(before):
        return (Guess("knocked", 1.0),)
    weighed = list(_weighed(riddle, before))
    most = max(each.evidence + math.log(_OFTEN[each.kind]) for each in weighed)
    shares = [_OFTEN[each.kind] * math.exp(each.evidence - most) for each in weighed]
    guesses = [
        Guess(each.kind, share / sum(shares), each.figure)
        for each, share in zip(weighed, shares, strict=True)
    ]
    return tuple(sorted(guesses, key=lambda guess: -guess.share))


def as_if(kind: Kind, story: Story, since: Story) -> Story:
    """The whole story as it must be told if that happened before, or to, its last readings."""
    if kind == "zeroed":
        return (*story, Happened("zeroed"), *since)
    if kind == "exchanged":
        return (*story, *(_across(entry) for entry in since))
    if kind == "other-way":
        return (*_other_way(story), *since)
    return (*story, *since)


def _is_seen(standing: Standing) -> bool:
    """Whether readings tell how far each turn went, so that its density can be left out."""
    return all(standing.lean_doubt(axis) < _UNSEEN for axis in AXES)


def _weighed(riddle: Riddle, before: Standing) -> Iterator[_Weighed]:
    told = (*riddle.story, *riddle.since)
    yield _Weighed("knocked", _knocked(riddle, before))
    yield _swung(riddle, told)
    yield from (_retold(riddle, kind) for kind in ("zeroed", "exchanged", "other-way"))
    axis = riddle.turned
    if axis is None:
        return
    if not any(isinstance(each, Happened) and each.what == "moved" for each in riddle.story):
        return
    other = riddle.fit((*_by_other(riddle.story, axis), *riddle.since))
    # How far the other one was turned hardly any gauge sees; but it was by no more than a turn.
    unseen = math.hypot(other.lean(OTHER[axis]), other.lean_doubt(OTHER[axis])) / _TURN
    if _is_seen(other):
        yield _Weighed("other-adjuster", other.evidence - 0.5 * unseen**2)
    yield _went_back(riddle, told, axis, before)
    yield _pivoted(riddle, told, axis, "elsewhere")
    if abs(riddle.prior.pivot_mm(axis)) > _SURELY_ONE_SIDE * riddle.prior.pivot_doubt_mm(axis):
        yield _pivoted(riddle, told, axis, "other-side")


def _knocked(riddle: Riddle, before: Standing) -> float:
    """The leans and the middle moved by anything between: what that leaves of the readings."""
    seen = [entry for entry in riddle.since if isinstance(entry, Seen)]
    means, rows = zip(*(before.weights(entry.position) for entry in seen), strict=True)
    off = np.array([entry.pushed_mm for entry in seen]) - np.array(means)
    across = 2.0 * riddle.radius_mm
    by = [
        math.log(part) + _normal(off, _spread(riddle, before, np.array(rows), sd_mm, across))
        for part, sd_mm in _KNOCKS
    ]
    return before.evidence + float(np.logaddexp.reduce(by))


def _spread(riddle: Riddle, before: Standing, rows: Matrix, sd_mm: float, across: float) -> Matrix:
    wider = before.covariance.copy()
    for i, sd in enumerate((sd_mm / across, sd_mm / across, sd_mm)):
        wider[PARAMETERS + i, PARAMETERS + i] += sd * sd
    spread: Matrix = rows @ wider @ rows.T + np.eye(len(rows)) * riddle.doubt.reading_mm**2
    return spread


def _normal(off: Matrix, spread: Matrix) -> float:
    """The log of the normal density there, less 2π as `stand` leaves it out."""
    return -0.5 * float(off @ np.linalg.solve(spread, off) + np.linalg.slogdet(spread)[1])


def _swung(riddle: Riddle, told: Story) -> _Weighed:
    """The ram swung by an unknown angle: as free couplings fit, then Laplace about the best."""

    def height(angle: float) -> float:
        fits = riddle.fit(told, swung(riddle.prior, angle)).evidence
        return fits - 0.5 * (angle / _RAM_SD) ** 2

    free = riddle.fit(told, swung(riddle.prior, 0.0, _RAM_SD)).answering
    best = max(-_RAM_MOST, min(_RAM_MOST, swung_by(riddle.prior, free)))
    step, bend = _RAM_STEP, -1.0
    for _ in range(_NEARER):
        low, here, high = height(best - step), height(best), height(best + step)
        bend = (low - 2.0 * here + high) / step**2
        slope = (high - low) / (2.0 * step)
        # Not yet on the top's own parabola, it is at least that way.
        onward = math.copysign(step, slope) if bend >= 0.0 else -slope / bend
        best += max(-step, min(step, onward))
        step = min(step, 1.0 / math.sqrt(-bend)) if bend < 0.0 else step
    width = math.sqrt(-1.0 / bend) / _RAM_SD if bend < 0.0 else 1.0
    return _Weighed("swung", height(best) + math.log(min(1.0, width)), best)


def _retold(riddle: Riddle, kind: Kind) -> _Weighed:
    return _Weighed(kind, riddle.fit(as_if(kind, riddle.story, riddle.since)).evidence)


def _went_back(riddle: Riddle, told: Story, axis: Axis, before: Standing) -> _Weighed:
    """The axis went back when it was let go: against its turn, and no further than it may."""
    kind: Kind = "fell-back" if riddle.back_mm else "crept"
    may_mm = 0.5 * riddle.back_mm or _CREPT_MM
    fits = riddle.fit(told, rest_mm=may_mm)
    across = 2.0 * riddle.radius_mm
    back_mm = (fits.lean(axis) - before.lean(axis)) * across
    against = back_mm * riddle.turn_mm < 0.0
    # Only one of both ways is back: what is left of the density is twice as high.
    return _Weighed(kind, fits.evidence + math.log(2.0) if against else -math.inf, abs(back_mm))


def _pivoted(riddle: Riddle, told: Story, axis: Axis, kind: Kind) -> _Weighed:
    """The pivot acts across the spindle, or anywhere: a fit from there, not from the file."""
    mean, rows = list(riddle.prior.mean), [list(row) for row in riddle.prior.covariance]
    at = FIRST[axis]
    if kind == "elsewhere":
        for i in range(len(rows)):
            rows[at][i] = rows[i][at] = 0.0
        rows[at][at] = ANYWHERE_MM**2
    mean[at] = -mean[at] if kind == "other-side" else 0.0
    fits = riddle.fit(told, Answering(tuple(mean), tuple(map(tuple, rows))))
    return _Weighed(kind, fits.evidence, fits.answering.pivot_mm(axis))


def _by_other(story: Story, axis: Axis) -> Story:
    """The story with its latest turn made at the other axis's adjuster."""
    turns = [i for i, e in enumerate(story) if isinstance(e, Happened) and e.what == "moved"]
    last = turns[-1]
    other = (
        replace(entry, axis=OTHER[axis])
        if isinstance(entry, Happened) and entry.what in ("moved", "rested")
        else entry
        for entry in story[last:]
    )
    return (*story[:last], *other)


def _across(entry: Seen | Happened) -> Seen | Happened:
    return replace(entry, position=OPPOSITE[entry.position]) if isinstance(entry, Seen) else entry


def _other_way(story: Story) -> Story:
    """The story with its first sweep walked the other way round from where it began.

    A sweep is told from its second place on, so that it ends where it began.
    """
    places = list(takewhile(lambda entry: isinstance(entry, Seen), story))
    swept: list[Seen] = []
    for entry in places:
        if not isinstance(entry, Seen) or entry.position in [seen.position for seen in swept]:
            break
        swept.append(entry)
    start = swept[-1].position
    walked = (replace(entry, position=mirrored(entry.position, start)) for entry in swept)
    return (*walked, *story[len(swept) :])
