"""What a person does with the clamp bolts: crack them, pull them up one by one or all."""

from typing import Final

from daq.virtual.bench import Bench
from daq.words import Axis

LOOSEN_S: Final = 2.0
TIGHTEN_S: Final = 4.0
BOLT_S: Final = 1.0


class AtBolts(Bench):
    """Operations on the clamp bolts. Each that may not be possible returns whether it was done."""

    def loosen(self, axis: Axis) -> bool:
        """Crack the bolts of `axis`: the head drops a little."""
        with self._doing():
            joint = self._head.joint(axis)
            if not joint.tight:
                return False
            with self._lock:
                joint.tight = False
                drop_mm = self._head.drop_mm(axis)
            self._over(LOOSEN_S, lambda _, share: self._head.shift(axis, drop_mm * share, 0.0))
        return True

    def tighten(self, axis: Axis) -> bool:
        """Pull up all bolts of `axis` as far as they go: the head shifts a little."""
        with self._doing():
            joint = self._head.joint(axis)
            if joint.tight and joint.pulled >= 1.0:
                return False
            with self._lock:
                self._head.hold(axis)
                left = 1.0 - joint.pulled
            self._over(TIGHTEN_S, lambda _, share: self._head.pull(axis, left * share))
            with self._lock:
                self._head.settle(axis, 0.0)
        return True

    def tighten_bolt(self, axis: Axis, bolt: str, share: float | None = None) -> None:
        """Pull up one bolt of `axis` by one step: a part of the whole shift comes.

        `share` is that part of the whole, from 0 to 1, as far as there is any left; half
        of what is left without one. Raises ValueError for another share.
        """
        if share is not None and not 0.0 <= share <= 1.0:
            raise ValueError(f"share: found {share}; allowed: from 0 to 1")
        with self._doing():
            with self._lock:
                self._head.hold(axis)
                left = 1.0 - self._head.joint(axis).pulled
                part = left / 2.0 if share is None else min(share, left)
                own_mm = self._head.take_up(axis, bolt)
            self._over(BOLT_S, lambda _, done: self._head.pull(axis, part * done, own_mm * done))
            with self._lock:
                self._head.settle(axis, left - part)
