"""When a gauge that answers is asked, and which of its answers count.

Nothing in an answer tells which request it belongs to. So an answer counts only
if, at the time of its request, no other one could still be owed: never more than one
request is on its way, and after one that was not answered in time the conversation is
out of step. It is in step again after an answer came, is thrown away, and the line was
then quiet for longer than any answer may be late behind the other.

On a line with other gauges that are asked, an answer could be taken for one of theirs. So
after one that was not answered nobody is asked until the line was quiet for as long again
twice; an answer that comes later still is taken for none that ever comes.
"""

from collections.abc import Sequence
from typing import Final, Literal, TypeVar

Answer = TypeVar("Answer")
State = Literal["quiet", "ready", "waiting", "out-of-step"]

_NS: Final = 1_000_000_000
_TIMEOUTS_QUIET: Final = 2  # unanswered requests go out a time-out apart, and so do late answers


class Requester:
    """One conversation, from the opening of a port.  All times are in ns of one clock."""

    def __init__(
        self,
        interval_s: float,
        timeout_s: float,
        pause_s: float,
        now_ns: int,
        rests: tuple[int, float] | None = None,
    ) -> None:
        """Listen first: what was asked before this opening may still be answered.

        `rests`: others are asked on the same line; after so many requests without an answer
        this one is asked only every so many seconds.
        """
        self.missing = 0
        """Requests without a timely answer since the last answer that counted."""
        self.discarded = 0
        """Answers that came late or without having been asked for."""
        self._interval_ns = round(interval_s * _NS)
        self._timeout_ns = round(timeout_s * _NS)
        self._quiet_ns = round(quiet_s(timeout_s, pause_s) * _NS)
        self._rests = rests
        self._rested_ns = now_ns
        self._state: State = "quiet"
        self._until_ns = now_ns + self._quiet_ns

    @property
    def waits(self) -> bool:
        """Whether an answer is awaited."""
        return self._state == "waiting"

    def quiet(self, now_ns: int) -> bool:
        """Return whether the line must be quiet now before anybody is asked."""
        return self._state == "quiet" and now_ns < self._until_ns

    @property
    def due_ns(self) -> int:
        """When the request is due, unless something comes before."""
        return self._until_ns

    def due(self, now_ns: int) -> bool:
        """Return whether the request is to be sent now; it then counts as sent."""
        if now_ns < self._until_ns:
            return False
        if self._state == "quiet":
            self._state, self._until_ns = "ready", max(self._until_ns, self._rested_ns)
            if now_ns < self._until_ns:
                return False
        if self._state == "ready":
            self._state = "waiting"
            self._next_ns = now_ns + self._interval_ns
        elif self._rests is not None:
            self.missing += 1
            self._state, self._until_ns = "quiet", now_ns + self._quiet_ns
            most_missing, rest_s = self._rests
            if self.missing >= most_missing:
                self._rested_ns = now_ns + round(rest_s * _NS)
            return False
        else:
            self._state = "out-of-step"
            self.missing += 1
        self._until_ns = now_ns + self._timeout_ns
        return True

    def wait_ns(self, now_ns: int) -> int:
        """Return how long from now nothing is due, unless an answer comes."""
        return max(0, self._until_ns - now_ns)

    def take(self, answers: Sequence[Answer], heard: bool, now_ns: int) -> Sequence[Answer]:
        """Return those of the answers that count; `heard` tells that bytes came at all."""
        if self._state == "waiting":
            if not answers:
                return answers
            self.missing = 0
            self._state, self._until_ns = "ready", self._next_ns
            if len(answers) > 1:
                self._discard(len(answers) - 1, now_ns)
            return answers[:1]
        if answers or (heard and self._state != "out-of-step"):
            self._discard(len(answers), now_ns)
        return ()

    def _discard(self, count: int, now_ns: int) -> None:
        self.discarded += count
        self._state, self._until_ns = "quiet", now_ns + self._quiet_ns


def quiet_s(timeout_s: float, pause_s: float) -> float:
    """Return how long a line must be quiet before it is in step again, seconds."""
    return max(_TIMEOUTS_QUIET * timeout_s, pause_s)
