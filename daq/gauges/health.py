"""Whether a gauge on an open port is well, judged from what came and when."""

from collections.abc import Iterable, Mapping
from typing import Final

from daq.gauges.misfits import Misfit
from daq.words import Said, said

_NS: Final = 1_000_000_000
_RECENT_NS: Final = 5 * _NS
_FLAG_NS: Final = 10 * _NS
_KEY_NS: Final = 2 * _NS
"""How long after its first byte a frame that a key sent must have come whole."""

_NO_VALUE_NS: Final = 1 * _NS
"""How long a number that means nothing is told of, with others in between."""

_NOISE: Final = 2
"""So many bytes, as a plug sends when it goes in, are not yet a wrong frame."""

Verdict = tuple[str, Said | None]
"""A status code, and what there is to say."""

NO_VALUE: Final[Mapping[str, Verdict]] = {
    "error": ("gauge-error", said("gauge-reports-an-error")),
    "over-travel": ("over-travel", said("beyond-its-travel")),
    "no-contact": ("no-contact", said("contact-is-off")),
    "battery-empty": ("battery-empty", said("battery-is-empty")),
}
"""Flags with which a frame's number means nothing."""

UNDECODED: Final = ("garbled", "wrong-settings")
"""Status codes with which bytes come, but no good frame."""

AMISS: Final[Mapping[Misfit, Verdict]] = {
    "number": ("no-number", said("number-is-missing")),
    "unit": ("other-unit", said("unit-is-another")),
    "check": ("damaged", said("check-value-is-wrong")),
    "channel": ("other-channel", said("none-of-its-channel")),
    "digits": ("other-digits", said("digits-are-missing")),
    "other": ("other-frames", said("frames-are-others")),
    "other-unchecked": ("other-frames", said("frames-are-others-or-unchecked")),
}
"""What is said instead when the bytes are frames that are right but for that."""

COARSE: Final = "fewer-digits"
"""What is warned of where the number has fewer digits than the file's resolution."""

WARNINGS: Final[Mapping[str, Said]] = {
    "weak-battery": said("battery-is-weak"),
    "weak-link": said("link-is-weak"),
    COARSE: said("digits-are-coarse"),
}
"""Flags that leave the number good, and what is to be done."""

_OK: Final[Verdict] = ("ok", None)


class Health:
    """Counts what came in one opening of a port.  Times are in ns of one clock."""

    def __init__(self, stale_s: float | None, now_ns: int, most_missing: int | None = None) -> None:
        """Start counting.

        A gauge is given `stale_s` seconds for each good frame, or (None) all the time it
        likes; one that is asked may leave fewer than `most_missing` requests unanswered.
        """
        self.good = 0
        self.bad = 0
        self._stale_ns = None if stale_s is None else round(stale_s * _NS)
        self._most_missing = most_missing
        self._missing = 0
        self._unasked = 0
        self._came = 0
        self._before = (0, 0, 0)  # bad frames, bytes and unasked frames at the last good frame
        self._good_ns = now_ns
        self._byte_ns = now_ns - _RECENT_NS
        self._first_ns = now_ns  # of the bytes since the last good frame
        self._no_value = _OK
        self._no_value_ns = now_ns - _NO_VALUE_NS
        self.is_value = True
        """Whether the last good frame's number is one."""
        self._warned: dict[str, int] = {}

    def heard(self, good: tuple[int, int], bad: int, came: tuple[int, int]) -> None:
        """Take note of what was counted up to now in this opening.

        Good frames and bytes, each with when the last of them came, and bad frames. To be
        called some times a second: what came since then counts as come together.
        """
        if came[0] != self._came:
            if self._came == self._before[1] or came[1] - self._byte_ns >= _FLAG_NS:
                self._first_ns = came[1]
            self._came, self._byte_ns = came
        self.bad = bad
        if good[0] != self.good:
            self.good, self._good_ns = good
            self._before = (bad, self._came, self._unasked)

    def asked(self, missing: int, unasked: int) -> None:
        """Take note of the requests unanswered in a row, and of all the answers to none."""
        self._missing, self._unasked = missing, unasked

    def flagged(self, flags: Iterable[str], now_ns: int) -> bool:
        """Take note of a good frame's flags; return whether its number is a value."""
        self.is_value = True
        for flag in flags:
            if flag in NO_VALUE:
                self._no_value, self._no_value_ns = NO_VALUE[flag], now_ns
                self.is_value = False
            elif flag in WARNINGS:
                self.warn(flag, now_ns)
        return self.is_value

    def warn(self, flag: str, now_ns: int) -> None:
        """Take note of what leaves the number good."""
        self._warned[flag] = now_ns

    def warnings(self, now_ns: int) -> tuple[Said, ...]:
        """Return what the gauge has warned of lately."""
        if not self._warned:
            return ()
        return tuple(WARNINGS[flag] for flag, at in self._warned.items() if now_ns - at < _FLAG_NS)

    def judge(self, now_ns: int) -> Verdict | None:
        """Return the verdict, or None before anything can be said."""
        if self._most_missing is not None:
            found = self._unanswered(now_ns)
        elif self._stale_ns is None:
            found = self._keyed(now_ns)
        else:
            found = self._streamed(now_ns, self._stale_ns)
        lately = now_ns - self._no_value_ns < _NO_VALUE_NS
        if found == _OK and (lately or not self.is_value):
            return self._no_value
        return found

    def _streamed(self, now_ns: int, stale_ns: int) -> Verdict | None:
        if now_ns - self._good_ns < stale_ns:
            return _OK if self.good else None
        recent_ns = stale_ns if self.good else max(stale_ns, _RECENT_NS)
        if self._not_noise() and now_ns - self._byte_ns < recent_ns:
            return self._undecoded(now_ns)
        return self._silent(now_ns)

    def _keyed(self, now_ns: int) -> Verdict:
        late = now_ns - self._first_ns >= _KEY_NS and now_ns - self._byte_ns < _FLAG_NS
        return self._undecoded(now_ns) if late and self._not_noise() else _OK

    def _unanswered(self, now_ns: int) -> Verdict | None:
        if self._missing >= (self._most_missing or 0):
            if self._not_noise() and now_ns - self._byte_ns < _RECENT_NS:
                if self._unasked > self._before[2]:
                    return "silent", said("answers-too-late")
                return self._undecoded(now_ns)
            return "silent", said("requests-unanswered", n=self._missing)
        if now_ns - self._good_ns < (self._stale_ns or 0):
            return _OK if self.good else None
        if self._unasked > self._before[2]:
            return "unasked", said("sends-unasked")
        return self._undecoded(now_ns) if self._not_noise() else self._silent(now_ns)

    def _not_noise(self) -> bool:
        return self._came - self._before[1] > _NOISE

    def _undecoded(self, now_ns: int) -> Verdict:
        """Say that bytes come, but no good frame."""
        seconds = (now_ns - self._good_ns) // _NS
        bad, came = self.bad - self._before[0], self._came - self._before[1]
        what = said("bad-frames", n=bad) if bad else said("bytes-came", n=came)
        if self.good:
            return "garbled", said("garbled", what=what, seconds=seconds)
        return "wrong-settings", said("none-good", what=what, seconds=seconds)

    def _silent(self, now_ns: int) -> Verdict:
        seconds = (now_ns - self._good_ns) // _NS
        if self.good:
            return "silent", said("silent-since", seconds=seconds)
        return "silent", said("silent-from-the-first", seconds=seconds)
