"""What is sent to the gauges of a port and when, and what of that comes back before an answer.

Pure but for what it keeps. Times are in ns of one clock.
"""

from collections import deque
from collections.abc import Iterable, Sequence
from typing import Final

from daq.gauges.asking import Requester
from daq.gauges.talk import Talk

_NS: Final = 1_000_000_000
_NEVER: Final = 1 << 62


class Sender:
    """One gauge's sendings: the start-up commands, then each request with its steps before it.

    What comes while steps follow each other answers them, and is no frame. A gauge that is
    silent for as long as its value may be shown is started again: it may have been off.
    """

    def __init__(self, talk: Talk, now_ns: int, shared: bool = False) -> None:
        """Begin with the start-up commands; `shared`: other gauges are asked on the same line."""
        self._start = talk.started
        self._steps = (*talk.stepped, talk.asked) if talk.mode == "asks" else ()
        self._step_ns = round(talk.step * _NS)
        self._silent_ns = round((talk.stale_s or 0.0) * _NS)
        self._echoes = bool(talk.echo)
        self._echo = b""
        self._shared = shared
        self._started = False
        self._queue: deque[tuple[int, bytes]] = deque()
        self._start_ns = now_ns if self._start else _NEVER
        self._clear_ns = now_ns
        self.asker: Requester | None = None
        if talk.mode == "asks" and talk.interval is not None:
            rests = (talk.most_missing, talk.patience_s) if shared else None
            self.asker = Requester(talk.interval, talk.answer_s, talk.pause, now_ns, rests)

    @property
    def sends(self) -> bool:
        """Whether anything is ever sent."""
        return self.asker is not None or bool(self._start)

    @property
    def due_ns(self) -> int:
        """When something is to be sent next, unless something comes before."""
        if self._queue:
            return self._queue[0][0]
        asks_ns = _NEVER if self.asker is None else self.asker.due_ns
        return min(asks_ns, self._start_ns)

    def talks(self, now_ns: int) -> bool:
        """Return whether what is being sent is not all sent, or not answered yet."""
        awaited = self.asker is not None and self.asker.waits
        return awaited or bool(self._queue) or now_ns < self._clear_ns

    def due(self, now_ns: int, hushed: bool = False) -> bytes:
        """Return what is to be sent now; mostly nothing. It then counts as sent.

        While it is `hushed` nothing new is asked.
        """
        if not self._queue:
            if self._start_ns <= now_ns:
                self._started = True
                self.spoke(now_ns)
                self._clear_ns = now_ns + len(self._start) * self._step_ns
                self._follow(self._start, now_ns)
            elif self.asker is not None and not hushed and self.asker.due(now_ns):
                self._follow(self._steps, now_ns)
        if not self._queue or now_ns < self._queue[0][0]:
            return b""
        sent = self._queue.popleft()[1]
        self._echo = sent if self._echoes else b""
        return sent

    def wait_ns(self, now_ns: int, most_ns: int) -> int:
        """Return how long from now nothing is due, unless something comes; `most_ns` at most."""
        return min(most_ns, max(0, self.due_ns - now_ns)) if self.sends else most_ns

    def heard(self, block: bytes, now_ns: int) -> bytes:
        """Return what of the bytes that came is no echo, and no answer to a step."""
        if block and not self._shared:
            self.spoke(now_ns)
        if self._queue:
            return b""
        if self._echo:
            both = min(len(self._echo), len(block))
            if block[:both] == self._echo[:both]:
                self._echo, block = self._echo[both:], block[both:]
            else:  # something else came in its place
                self._echo = b""
        return block

    def spoke(self, now_ns: int) -> None:
        """Hear that the gauge is well: it is started again only after a silence from now on."""
        if self._started:
            self._start_ns = now_ns + self._silent_ns if self._silent_ns else _NEVER

    def _follow(self, steps: Sequence[bytes], now_ns: int) -> None:
        self._queue.extend((now_ns + n * self._step_ns, step) for n, step in enumerate(steps))


class InTurn:
    """What the gauges of one port are sent, one after the other in the order in which it is due.

    While an answer is awaited, what comes is for the gauge that was asked and for no other.
    """

    def __init__(self, senders: Iterable[Sender]) -> None:
        """Begin with what is due first."""
        self._senders = [each for each in senders if each.sends]
        self.sends = bool(self._senders)
        """Whether anything is ever sent."""

    def asked(self, now_ns: int) -> Sender | None:
        """Return the one whose answer may come now, and no other's."""
        return next((s for s in self._senders if s.asker is not None and s.talks(now_ns)), None)

    def due(self, now_ns: int) -> bytes:
        """Return what is to be sent now; mostly nothing. It then counts as sent."""
        talking = self._talking(now_ns)
        if talking is not None:
            return talking.due(now_ns)
        first = min(self._senders, key=lambda each: each.due_ns)
        return first.due(now_ns, hushed=bool(self._hushed(now_ns)))

    def wait_ns(self, now_ns: int, most_ns: int) -> int:
        """Return how long from now nothing is due, unless something comes; `most_ns` at most."""
        talking = self._talking(now_ns)
        waits = [talking] if talking is not None else self._hushed(now_ns) or self._senders
        return min(each.wait_ns(now_ns, most_ns) for each in waits)

    def _talking(self, now_ns: int) -> Sender | None:
        return next((each for each in self._senders if each.talks(now_ns)), None)

    def _hushed(self, now_ns: int) -> list[Sender]:
        """Those for whose late answers the line is kept quiet."""
        return [s for s in self._senders if s.asker is not None and s.asker.quiet(now_ns)]
