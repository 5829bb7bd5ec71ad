"""Samples of one opening of the port: the only ones that may be compared."""

from collections.abc import Sequence

from daq.words import Sample


def newest_run(samples: Sequence[Sample]) -> Sequence[Sample]:
    """Return the samples at the end of `samples` that share the newest run.

    Whatever happened to the gauge while its port was closed is unknown, so samples of
    an earlier opening say nothing about later ones.
    """
    if not samples:
        return samples
    run = samples[-1].run
    start = len(samples) - 1
    while start and samples[start - 1].run == run:
        start -= 1
    return samples[start:]
