"""Sudden changes of a number that ought to move slowly or stand still.

All values are on the gauge's own face, mm. Only samples of the newest run are
looked at, in order of time.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import median

from daq.metrology.run import newest_run
from daq.units import SLACK_MM
from daq.words import Sample

_NEAR_COUNTS = 2
_LEAST_COUNTS = 10
_STEPS = 6.0
"""A jump's share a frame against the steps before it: turning gains speed less abruptly."""
_FURTHER = 3
_BEFORE = 9
_LEAST_BEFORE = 4
_LAST_FEW = 5
_STILL = 10
_STILL_COUNTS = 3
_PRESET_COUNTS = 100
_PRESET_MM = 0.25
"""A head that drops as its bolts are cracked falls less, or not from one frame to the next."""


@dataclass(frozen=True, slots=True)
class Jump:
    """A number that changed at once and stayed: medians before and after, face, mm.

    `n` is the first sample after the jump, `took_ns` the time since the last one before it.
    """

    before_mm: float
    after_mm: float
    n: int
    took_ns: int = field(default=0, compare=False)


def zero_noticed(samples: Sequence[Sample], resolution_mm: float) -> Jump | None:
    """Return the first place where the gauge was zeroed, or None.

    Zeroing looks like this: within one frame, or two when a frame catches it half way,
    the number comes to within two counts of zero and stays there for three more
    samples. For each frame it took, the jump is at least ten counts and six times the
    steps just before it. An adjuster turned through zero does not stay; one turned to
    zero comes there in steps like those before.

    Below about 10 samples a second a whole turn fits between two frames, and one that
    happens to end on zero looks the same. A gauge whose free reading is zero also lands
    there when its contact leaves the surface. The caller, who knows what is to be expected
    of the spots and of the free reading, tells these apart.
    """
    run = newest_run(samples)
    values = [s.value_mm for s in run]
    near_mm = _NEAR_COUNTS * resolution_mm + SLACK_MM
    for at in range(_LEAST_BEFORE, len(run) - _FURTHER):
        came_from_mm = max(abs(values[at - 1]), abs(values[at - 2]))
        if abs(values[at]) > near_mm or came_from_mm <= near_mm:
            continue
        for frames in (1, 2):
            jump = _zeroed(values, at, frames, resolution_mm)
            if jump is not None:
                took_ns = run[at].mono_ns - run[at - frames].mono_ns
                return Jump(jump[0], jump[1], run[at].n, took_ns)
    return None


def _zeroed(
    values: Sequence[float], at: int, frames: int, resolution_mm: float
) -> tuple[float, float] | None:
    """Return before and after if the number came to zero at `at` within `frames` frames."""
    before = values[max(0, at - frames + 1 - _BEFORE) : at - frames + 1]
    if len(before) < _LEAST_BEFORE:
        return None
    after = values[at : at + 1 + _FURTHER]
    landed_mm = median(after)
    change_mm = landed_mm - before[-1]
    steps = [later - earlier for earlier, later in pairwise(before)]
    noise_mm = median(abs(step) for step in steps)
    toward_mm = max(step if change_mm > 0 else -step for step in steps[-_FURTHER:])
    least_mm = max(_LEAST_COUNTS * resolution_mm, _STEPS * max(noise_mm, toward_mm))
    if abs(change_mm) < frames * least_mm - SLACK_MM:
        return None
    near_mm = _NEAR_COUNTS * resolution_mm + SLACK_MM
    stay_mm = max(near_mm, 3 * noise_mm)
    if abs(landed_mm) > near_mm or any(abs(value) > stay_mm for value in after):
        return None
    return median(before[-_LAST_FEW:]), landed_mm


def zeroed_at_rest(samples: Sequence[Sample], resolution_mm: float, most_mm: float) -> Jump | None:
    """Return the last place where a number at rest was zero from one frame to the next, or None.

    It stood still within a count for ten samples, two counts to `most_mm` from zero, and stands
    still at zero for ten more: too little for a jump that nothing else makes, so it is to be asked.
    """
    run = newest_run(samples)
    values = [s.value_mm for s in run]
    still_mm = resolution_mm + SLACK_MM
    for at in range(len(run) - _STILL, _STILL - 1, -1):
        before, after = values[at - _STILL : at], values[at : at + _STILL]
        was_mm = median(before)
        near = 2.0 * resolution_mm - SLACK_MM <= abs(was_mm) <= most_mm
        if not near or abs(after[0]) > SLACK_MM or abs(values[at - 1] - was_mm) > SLACK_MM:
            continue
        if max(before) - min(before) <= still_mm and max(map(abs, after)) <= still_mm:
            return Jump(was_mm, median(after), run[at].n)
    return None


def preset_noticed(samples: Sequence[Sample], resolution_mm: float) -> Jump | None:
    """Return the last place where the gauge was preset to some number, or None.

    Presetting looks like this: the number stands still, is another one in the next
    frame, at least a hundred counts and 0.25 mm away (common practice, no source), and
    stands still again for ten samples. Nothing that moves by itself does that.
    """
    run = newest_run(samples)
    values = [s.value_mm for s in run]
    least_mm = max(_PRESET_COUNTS * resolution_mm, _PRESET_MM)
    still_mm = _STILL_COUNTS * resolution_mm + SLACK_MM
    for at in range(len(run) - _STILL, _LEAST_BEFORE - 1, -1):
        if abs(values[at] - values[at - 1]) < least_mm:
            continue
        before, after = values[at - _LEAST_BEFORE : at], values[at : at + _STILL]
        if max(before) - min(before) <= still_mm and max(after) - min(after) <= still_mm:
            took_ns = run[at].mono_ns - run[at - 1].mono_ns
            return Jump(median(before), median(after), run[at].n, took_ns)
    return None
