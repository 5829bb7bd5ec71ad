"""Settled values of one gauge at the bench, out of the ring that its reader fills."""

import threading
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from daq.gauges.config import GaugeConfig
from daq.gauges.ring import Ring
from daq.metrology.pushed import pushed_in
from daq.metrology.settle import SettleRules, Unsettled, Window, settle
from daq.service.clock import Clock
from daq.words import GaugeStatus, Said, Sample

COUNTS: Final = 5
"""How many of the gauge's counts a settled value may wander, as in an audit's touch test."""

ONE_FRAME: Final = SettleRules(
    wait_s=0.0, window_s=0.0, slow_window_s=0.0, min_samples=1, timeout_s=60.0
)
"""A gauge that sends on its key sends one value, already held still by whoever pressed it."""

_LOOK_S: Final = 0.1


class Unread(Exception):
    """No settled value came; says why."""

    def __init__(self, why: Said) -> None:
        """Keep the reason."""
        self.why = why
        super().__init__(str(why))


@dataclass(frozen=True)
class Settled:
    """A settled value: its window, the samples in it, and how far pushed in that is, mm.

    The stylus is taken as parallel to the blocks: no cosine comes in. `before`: all samples since
    the settled value before it, its own among them.
    """

    window: Window
    samples: tuple[Sample, ...]
    pushed_mm: float
    before: tuple[Sample, ...] = ()


class RingBench:
    """Takes settled values of a gauge out of the ring that its reader fills."""

    def __init__(
        self,
        gauge: GaugeConfig,
        ring: Ring,
        status: Callable[[], GaugeStatus],
        rules: SettleRules,
        clock: Clock,
        news: threading.Event | None = None,
    ) -> None:
        """A value settles by `rules`; `news` is set when there may be one."""
        self._gauge = gauge
        self._ring = ring
        self._status = status
        self._rules = ONE_FRAME if gauge.talk.mode == "key" else rules
        self._clock = clock
        self._news = news or threading.Event()
        self._since_ns = clock.mono_ns()

    def settled(self) -> Settled:
        """Wait for a settled value of samples that come from now on.

        Raises:
            Unread: none came in time; says why.
        """
        take_ns, allowed_mm = self._clock.mono_ns(), COUNTS * self._gauge.resolution
        while True:
            self._news.wait(_LOOK_S)
            self._news.clear()
            samples = self._ring.since(None, take_ns).samples
            found = settle(samples, take_ns, self._clock.mono_ns(), self._rules, allowed_mm)
            if isinstance(found, Window):
                return self._result(found, samples)
            if found.expired:
                raise Unread(self._why(found))

    def _result(self, window: Window, samples: tuple[Sample, ...]) -> Settled:
        within = tuple(
            s for s in samples if s.run == window.run and window.first_n <= s.n <= window.last_n
        )
        pushed_mm = pushed_in(window.mean_mm, self._gauge.counts_up, 1.0)
        before = self._ring.since(window.run, self._since_ns).samples
        self._since_ns = within[-1].mono_ns
        return Settled(window, within, pushed_mm, before)

    def _why(self, found: Unsettled) -> Said:
        status = self._status()
        if status.code == "ok" or not status.say:
            return found.why
        return status.say
