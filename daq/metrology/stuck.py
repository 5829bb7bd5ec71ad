"""Whether a gauge's number has stopped: no digit of it changes any more."""

from collections.abc import Sequence

from daq.words import Sample

STILL_NS = 3_000_000_000
STILL_SAMPLES = 20
"""At least so long and so many: four readings' worth. A gauge that flickers in every second
reading is still in all four of them once in 16 times."""


_BY_CHANCE = 0.001
_READING_NS = STILL_NS / 4.0


def never_moved(samples: Sequence[Sample], flickers: float) -> bool:
    """Return whether all samples show one number for so long that it is no chance.

    `flickers`: in how large a part of the gauge's readings a digit changed, above 0 and below 1.
    """
    if len(samples) < STILL_SAMPLES or len({(each.run, each.value_mm) for each in samples}) > 1:
        return False
    readings = (samples[-1].mono_ns - samples[0].mono_ns) / _READING_NS
    return bool((1.0 - flickers) ** readings < _BY_CHANCE)


def stands_still(samples: Sequence[Sample]) -> bool:
    """Return whether the newest samples all show the same number, in one opening of the port.

    `samples` are in order of time, by their stamps. False while there are too few to tell.
    """
    for count, sample in enumerate(reversed(samples), 1):
        newest = samples[-1]
        if (sample.run, sample.value_mm) != (newest.run, newest.value_mm):
            return False
        if count >= STILL_SAMPLES and newest.mono_ns - sample.mono_ns >= STILL_NS:
            return True
    return False
