"""Whether a gauge on an open port is well, judged from what came and when."""

from typing import Final

_RECENT_NS: Final = 5_000_000_000
_NS: Final = 1_000_000_000


class Health:
    """Counts the good and bad frames of one opening of a port."""

    def __init__(self, stale_s: float, now_ns: int) -> None:
        """Start counting; a gauge is given `stale_s` seconds for each good frame."""
        self.good = 0
        self.bad = 0
        self._stale_ns = round(stale_s * _NS)
        self._bad_before = 0  # as it stood at the last good frame
        self._good_ns = now_ns
        self._bad_ns = now_ns - _RECENT_NS

    def heard(self, good: int, bad: int, now_ns: int) -> None:
        """Take note of the frames counted up to now in this opening."""
        if bad != self.bad:
            self._bad_ns = now_ns
        if good != self.good:
            self._good_ns, self._bad_before = now_ns, bad
        self.good, self.bad = good, bad

    def judge(self, now_ns: int) -> tuple[str, str] | None:
        """Return a status code and a plain sentence, or None before anything can be said."""
        silent_ns = now_ns - self._good_ns
        if silent_ns < self._stale_ns:
            return ("ok", "") if self.good else None
        seconds = silent_ns // _NS
        bad = self.bad - self._bad_before
        if bad and now_ns - self._bad_ns < _RECENT_NS:
            return (
                "garbled",
                f"garbled: {bad} bad frames in the last {seconds} s, none good: "
                "wrong speed or framing?",
            )
        return "silent", f"silent for {seconds} s: check its cable and battery."
