"""The newest samples of one gauge, for whoever needs to look back a little."""

from dataclasses import dataclass
from typing import Final

from daq.words import Sample

CAPACITY: Final = 16384


@dataclass(frozen=True, slots=True)
class Slice:
    """Samples in the order they came; `missed` when older ones of them are overwritten."""

    samples: tuple[Sample, ...]
    missed: bool


class Ring:
    """A fixed number of samples, written by one thread and looked at by many.

    The writer never waits: it fills a slot, then counts it. A looker checks the count
    after each slot it looked at, and stops where the writer has come round again.
    """

    def __init__(self, capacity: int = CAPACITY) -> None:
        """Make an empty ring for `capacity` samples."""
        self._size = capacity + 1  # one slot may be in the writer's hands
        self._slots: list[Sample] = []
        self._count = 0

    def append(self, sample: Sample) -> None:
        """Add the newest sample; the oldest makes room."""
        if self._count < self._size:
            self._slots.append(sample)
        else:
            self._slots[self._count % self._size] = sample
        self._count += 1

    def latest(self) -> Sample | None:
        """Return the newest sample, or None before the first."""
        count = self._count
        return self._slots[(count - 1) % self._size] if count else None

    def since(self, run: str | None, mono_ns: int) -> Slice:
        """Return the samples stamped at `mono_ns` or later, of that run or (None) of any.

        `missed` tells that the ring does not reach back so far any more.
        """
        newest_first: list[Sample] = []
        for index in range(self._count - 1, -1, -1):
            sample = self._slots[index % self._size]
            if self._count - index >= self._size:
                return Slice(tuple(reversed(newest_first)), missed=True)
            if sample.mono_ns < mono_ns:
                break
            if run is None or sample.run == run:
                newest_first.append(sample)
        return Slice(tuple(reversed(newest_first)), missed=False)
