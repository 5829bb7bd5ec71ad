"""From presses of a gauge's own key to a value: a frame for each press, none in between."""

from collections.abc import Sequence

from daq.metrology.run import newest_run
from daq.metrology.settle import SettleRules, Unsettled, Window, as_sent, window_of
from daq.units import SLACK_MM
from daq.words import Sample, said

GAP_S = 0.25
"""Frames closer together than this belong to one press: some gauges send several for one, or
repeat while the key is down. A finger does not press twice in less."""

_NS = 1_000_000_000


def pressed(
    samples: Sequence[Sample],
    take_ns: int,
    now_ns: int,
    rules: SettleRules,
    spread_mm: float,
    presses: int,
) -> Window | Unsettled:
    """Return the newest `presses` presses after a take as one window, or why there is none.

    The key shakes the gauge, so nothing counts before the last press is over (no frame
    for `GAP_S`), and of each press its last frame does. The window reaches from the last
    frame of the first press to the last frame of the last, in one run; with several
    presses its spread must be at most `spread_mm`. Of `rules` only the time-out is used.
    """
    expired = now_ns - take_ns > rules.timeout_s * _NS
    after = [s for s in newest_run(samples) if s.mono_ns > take_ns]
    if not after:
        return Unsettled(said("key-not-pressed"), expired)
    ends = _ends(after)
    if now_ns - after[-1].mono_ns < GAP_S * _NS:
        return Unsettled(said("key-down"), expired)
    if len(ends) < presses:
        return Unsettled(said("key-presses", pressed=len(ends), of=presses), expired)
    window = after[ends[-presses] :]
    found = window_of(window)
    if found.spread_mm > spread_mm + SLACK_MM:
        differ, allowed = (as_sent(mm, window[-1]) for mm in (found.spread_mm, spread_mm))
        why = said(
            "presses-apart",
            presses=presses,
            found=differ,
            unit=window[-1].unit,
            allowed=allowed,
        )
        return Unsettled(why, expired)
    return found


def _ends(samples: Sequence[Sample]) -> list[int]:
    """Return where each press's last frame stands."""
    gap_ns = GAP_S * _NS
    last = len(samples) - 1
    return [
        i
        for i in range(last + 1)
        if i == last or samples[i + 1].mono_ns - samples[i].mono_ns >= gap_ns
    ]
