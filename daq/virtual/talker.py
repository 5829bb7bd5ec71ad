"""The thread in which a gauge talks."""

import threading
import time
from collections.abc import Callable
from typing import Final

from daq.virtual.model import WireEnd
from daq.virtual.talk import OnKey, OnRequest, StartedStream, Streaming, Talk

TEND_S: Final = 0.05
"""How often the port is looked after, at the least."""


class Talker:
    """Calls `say` whenever a gauge with this `talk` sends.

    Requests are read from the `port`; `heard` turns the bytes there into those that
    arrive at the gauge.
    """

    def __init__(
        self,
        talk: Talk,
        port: WireEnd,
        *,
        say: Callable[[], None],
        heard: Callable[[bytes], bytes],
    ) -> None:
        """Be ready to `start`."""
        self._port = port
        self._say = say
        self._heard = heard
        self._wake = threading.Condition()
        self._stopping = False
        self._presses = 0
        self._thread: threading.Thread | None = None
        self._talk = talk

    def start(self) -> None:
        """Begin; nothing happens when it runs already."""
        if self._thread is None:
            self._stopping = False
            self._thread = threading.Thread(target=self._run, name="virtual-gauge", daemon=True)
            self._thread.start()

    def stop(self) -> None:
        """Come to an end, at once."""
        with self._wake:
            self._stopping = True
            self._wake.notify_all()
        if self._thread is not None:
            self._thread.join()
            self._thread = None

    def press(self) -> None:
        """Press the key that sends; without effect on a gauge that has none."""
        with self._wake:
            self._presses += 1
            self._wake.notify_all()

    def _run(self) -> None:
        match self._talk:
            case Streaming():
                self._stream(self._talk)
            case OnRequest():
                self._answer(self._talk)
            case OnKey():
                self._key(self._talk)
            case StartedStream():
                self._begin(self._talk)

    def _stream(self, talk: Streaming) -> None:
        due = time.monotonic()
        while self._rest(due - time.monotonic()):
            self._say()
            # A late frame is made up for, a long sleep is not: no burst of old news.
            due = max(due, time.monotonic() - 2.0 * talk.interval_s) + talk.interval_s

    def _begin(self, talk: StartedStream) -> None:
        came, runs = b"", False
        due = time.monotonic()
        while self._rest(due - time.monotonic()):
            came = (came + self._heard(self._port.receive(0.0)))[-len(talk.request) :]
            runs = (runs or came == talk.request) and self._port.plugged
            if runs:
                self._say()
            due = max(due, time.monotonic() - 2.0 * talk.interval_s) + talk.interval_s

    def _answer(self, talk: OnRequest) -> None:
        unfinished = b""
        while not self._stopping:
            self._port.tend()
            came = self._port.receive(TEND_S)
            # What a request's first bytes are followed by only after a pause is another one.
            times, unfinished = talk.asked(unfinished + self._heard(came)) if came else (0, b"")
            for _ in range(times):
                if not self._rest(talk.latency_s):
                    return
                self._say()

    def _key(self, talk: OnKey) -> None:
        while True:
            with self._wake:
                self._wake.wait_for(lambda: self._stopping or self._presses, TEND_S)
                if self._stopping:
                    return
                pressed, self._presses = self._presses > 0, max(0, self._presses - 1)
            self._port.tend()
            for time_round in range(talk.times if pressed else 0):
                if time_round and not self._rest(talk.pause_s):
                    return
                self._say()

    def _rest(self, seconds: float) -> bool:
        """Wait, looking after the port; return False when it is time to stop."""
        due = time.monotonic() + seconds
        while not self._stopping:
            self._port.tend()
            left = due - time.monotonic()
            if left <= 0.0:
                return True
            with self._wake:
                self._wake.wait_for(lambda: self._stopping, min(left, TEND_S))
        return False
