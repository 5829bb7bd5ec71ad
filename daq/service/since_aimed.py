"""What a machine's number did since there is a stop-at to hold it against."""

from collections import deque
from typing import Final

from daq.audit.aim import Aim
from daq.metrology.creeping import LONG_S
from daq.words import Against, Sample

_EVERY_NS: Final = 500_000_000
"""So often a creep is looked for, by the samples' own clock: it lasts for seconds."""
_LOOK: Final = 0.1
"""So much each further look counts against those before."""
_LEAST_S: Final = 1.0
"""While it creeps, so long is left at least."""
_LONG_NS: Final = round(LONG_S * 1e9)


class SinceAimed:
    """The number since this aim was set; told of each sample on the thread of its reader."""

    def __init__(self, aim: Aim) -> None:
        """Nothing of it was heard yet."""
        self.aim = aim
        self._been = self._there = False
        self._samples: deque[Sample] = deque()
        self._due_ns = 0
        self._ends_ns: float | None = None
        """When it will have crept its way; None: it does not."""

    def went(self, sample: Sample) -> None:
        """One sample more: whether it went past, where it is to, was there, and creeps since."""
        face_mm = sample.value_mm
        self._been = self.aim.been(face_mm, self._been)
        self._there = self._there or self.aim.is_there(face_mm, self._been)
        self._samples.append(sample)
        while self._samples[0].mono_ns < sample.mono_ns - _LONG_NS:
            self._samples.popleft()
        if self._there and sample.mono_ns >= self._due_ns:
            self._due_ns = sample.mono_ns + _EVERY_NS
            self._ends_ns = self._ends(sample.mono_ns)

    def _ends(self, now_ns: int) -> float | None:
        """One look tells the end of a creep by few counts and is far off: each counts a little."""
        wait_s = self.aim.creeps_s(tuple(self._samples))
        if not wait_s:
            return None
        seen_ns, before_ns = now_ns + wait_s * 1e9, self._ends_ns
        return seen_ns if before_ns is None else before_ns + _LOOK * (seen_ns - before_ns)

    def against(self, sample: Sample, *, keyed: bool) -> Against:
        """What the number says now, held against the aim."""
        ends_ns, creeps_s = self._ends_ns, 0.0
        if ends_ns is not None:
            creeps_s = max((ends_ns - sample.mono_ns) / 1e9, _LEAST_S)
        held = self.aim.against
        return held(sample.value_mm, been=self._been, keyed=keyed, creeps_s=creeps_s)
