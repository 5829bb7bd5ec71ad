"""What is sent to a gauge and when, and what of that comes back before its answer.

Pure but for what it keeps. Times are in ns of one clock.
"""

from collections import deque
from collections.abc import Sequence
from typing import Final

from daq.gauges.asking import Requester
from daq.gauges.talk import Talk

_NS: Final = 1_000_000_000


class Sender:
    """One opening's sendings: the start-up commands, then each request with its steps before it.

    What comes while steps follow each other answers them, and is no frame. A gauge that is
    silent for as long as its value may be shown is started again: it may have been off.
    """

    def __init__(self, talk: Talk, now_ns: int) -> None:
        """Begin with the start-up commands."""
        self._start = talk.started
        self._steps = (*talk.stepped, talk.asked) if talk.mode == "asks" else ()
        self._step_ns = round(talk.step * _NS)
        self._silent_ns = round((talk.stale_s or 0.0) * _NS)
        self._echoes = bool(talk.echo)
        self._echo = b""
        self._last_ns = now_ns
        self._queue: deque[tuple[int, bytes]] = deque()
        self._follow(self._start, now_ns)
        self.asker: Requester | None = None
        if talk.mode == "asks" and talk.interval is not None:
            self.asker = Requester(talk.interval, talk.answer_s, talk.pause, now_ns)

    @property
    def sends(self) -> bool:
        """Whether anything is ever sent."""
        return self.asker is not None or bool(self._start)

    def due(self, now_ns: int) -> bytes:
        """Return what is to be sent now; mostly nothing. It then counts as sent."""
        if not self._queue:
            if self._start and 0 < self._silent_ns <= now_ns - self._last_ns:
                self._last_ns = now_ns
                self._follow(self._start, now_ns)
            elif self.asker is not None and self.asker.due(now_ns):
                self._follow(self._steps, now_ns)
        if not self._queue or now_ns < self._queue[0][0]:
            return b""
        sent = self._queue.popleft()[1]
        self._echo = sent if self._echoes else b""
        return sent

    def wait_ns(self, now_ns: int, most_ns: int) -> int:
        """Return how long from now nothing is due, unless something comes; `most_ns` at most."""
        if self._queue:
            return min(most_ns, max(0, self._queue[0][0] - now_ns))
        return most_ns if self.asker is None else min(most_ns, self.asker.wait_ns(now_ns))

    def heard(self, block: bytes, now_ns: int) -> bytes:
        """Return what of the bytes that came is no echo, and no answer to a step."""
        if block:
            self._last_ns = now_ns
        if self._queue:
            return b""
        if self._echo:
            both = min(len(self._echo), len(block))
            if block[:both] == self._echo[:both]:
                self._echo, block = self._echo[both:], block[both:]
            else:  # something else came in its place
                self._echo = b""
        return block

    def _follow(self, steps: Sequence[bytes], now_ns: int) -> None:
        self._queue.extend((now_ns + n * self._step_ns, step) for n, step in enumerate(steps))
