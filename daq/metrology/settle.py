"""From samples to a settled value: the newest window whose spread is only noise."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from daq.metrology.run import newest_run
from daq.units import SLACK_MM, places
from daq.words import Figure, Said, Sample, Shown, said

_NS = 1_000_000_000


@dataclass(frozen=True, slots=True)
class SettleRules:
    """How long to wait and to look, seconds.

    `wait_s` passes after the take before anything counts (hand and spindle come to
    rest). `window_s` is the window of a gauge fast enough to put `min_samples` in it;
    a slower one gets at least `slow_window_s` and `min_samples`. After `timeout_s` the
    take has expired.
    """

    wait_s: float = 0.3
    window_s: float = 0.5
    slow_window_s: float = 1.0
    min_samples: int = 5
    timeout_s: float = 10.0


@dataclass(frozen=True, slots=True)
class Window:
    """The settled samples first_n..last_n of one run, on the gauge's own face, mm.

    `sd_mm` is their standard deviation (n − 1), `spread_mm` the largest less the
    smallest, `mid_ns` the monotonic time of the middle of the window.
    """

    run: str
    first_n: int
    last_n: int
    mean_mm: float
    sd_mm: float
    spread_mm: float
    count: int
    mid_ns: int


@dataclass(frozen=True, slots=True)
class Unsettled:
    """Why there is no settled value yet; `expired` once the take has timed out."""

    why: Said
    expired: bool


def settle(
    samples: Sequence[Sample], take_ns: int, now_ns: int, rules: SettleRules, spread_mm: float
) -> Window | Unsettled:
    """Return the newest settled window after a take, or why there is none.

    `samples` are in order of time; only those of the newest run stamped later than
    `take_ns` + wait count. Settled means a spread of at most `spread_mm`, the gauge's
    noise on this arm and machine. Times are monotonic nanoseconds.
    """
    expired = now_ns - take_ns > rules.timeout_s * _NS
    begin_ns = take_ns + round(rules.wait_s * _NS)
    counted = [s for s in newest_run(samples) if s.mono_ns > begin_ns]
    if not counted:
        return Unsettled(said("no-samples"), expired)
    window = _window(counted, rules)
    if not window:
        return Unsettled(said("not-long-enough", samples=len(counted)), expired)
    found = window_of(window)
    if found.spread_mm > spread_mm + SLACK_MM:
        return Unsettled(_moving(window, found.spread_mm, spread_mm), expired)
    return found


def window_of(samples: Sequence[Sample]) -> Window:
    """Return these samples of one run, at least one, as a window, settled or not."""
    values = [s.value_mm for s in samples]
    return Window(
        run=samples[0].run,
        first_n=samples[0].n,
        last_n=samples[-1].n,
        mean_mm=fmean(values),
        sd_mm=stdev(values) if len(values) > 1 else 0.0,
        spread_mm=max(values) - min(values),
        count=len(values),
        mid_ns=(samples[0].mono_ns + samples[-1].mono_ns) // 2,
    )


def _window(counted: Sequence[Sample], rules: SettleRules) -> Sequence[Sample]:
    """Return the newest full window of `counted`, or nothing while it is not full."""
    fast = _newest(counted, rules.window_s)
    if len(fast) >= rules.min_samples:
        return fast
    slow = _newest(counted, rules.slow_window_s)
    if not slow or len(slow) >= rules.min_samples:
        return slow
    return counted[-rules.min_samples :] if len(counted) >= rules.min_samples else ()


def _newest(counted: Sequence[Sample], window_s: float) -> Sequence[Sample]:
    """Return the samples of the newest `window_s`, or nothing if they do not reach back so far."""
    start_ns = counted[-1].mono_ns - round(window_s * _NS)
    if counted[0].mono_ns > start_ns:
        return ()
    return [s for s in counted if s.mono_ns >= start_ns]


def _moving(window: Sequence[Sample], found_mm: float, allowed_mm: float) -> Said:
    """By how much the number still moves, in the gauge's own unit and decimals."""
    newest = window[-1]
    found, allowed = (as_sent(mm, newest) for mm in (found_mm, allowed_mm))
    seconds = Figure((newest.mono_ns - window[0].mono_ns) / _NS, 1)
    return said("still-moving", found=found, unit=newest.unit, seconds=seconds, allowed=allowed)


def as_sent(mm: float, sample: Sample) -> Shown:
    """A length in the unit and with the decimals in which the gauge sends its numbers."""
    return Shown(mm, sample.unit, places(sample.text))
