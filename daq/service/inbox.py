"""The queue of what is handed in, and the one thread that works through it."""

import queue
import threading
import time
from collections.abc import Callable
from concurrent.futures import Future, TimeoutError
from contextlib import suppress
from dataclasses import dataclass

from daq.service.decider import Decider
from daq.service.writer import Made
from daq.words import Ack, Command, GaugeStatus, Said, said

ANSWER_S = 20.0
"""Longer than any take may need to settle; past this its thread itself stands still."""

STOPS_S = 1.5
"""How long a commit under way may hold up the end: it was not answered yet."""

STOPPING = said("stopping")

BUSY_S = 0.02
IDLE_S = 0.1


def unanswered(command: Command) -> Ack:
    """What is to be said of a command that got no answer in `ANSWER_S`."""
    return Ack(command.id, False, (), "not-recorded", said("service-silent"))


def _stopping(command: Command) -> Ack:
    return Ack(command.id, False, (), "refused", STOPPING)


@dataclass(frozen=True)
class Wish:
    """A command and where its answer goes."""

    command: Command
    arrived_ns: int
    reply: "Future[Ack]"
    make: Made | None = None
    """What makes the row that it brings, where it is made already."""


class Inbox:
    """A queue in front of the decider, and the thread that works through it."""

    def __init__(self, decider: Decider, mono_ns: Callable[[], int] = time.monotonic_ns) -> None:
        """Nothing runs before `start`."""
        self._decider = decider
        self._mono_ns = mono_ns
        self._queue: queue.SimpleQueue[Wish | GaugeStatus | None] = queue.SimpleQueue()
        self._thread = threading.Thread(target=self._work, name="inbox", daemon=True)
        self._ending = self._ended = False
        self.failed: BaseException | None = None
        self.when_failed: Callable[[], None] = lambda: None
        """Called once if it cannot go on: nothing is decided or recorded after that."""

        self.refusal: Callable[[], Said | None] = lambda: None
        """Why nothing may be handed in just now, if that is so."""

        self.answered: Callable[[Command, Ack], None] = lambda command, ack: None
        """Told of every answer; must neither wait nor fail."""

    def start(self) -> None:
        """Begin working."""
        self._thread.start()

    def end(self) -> None:
        """Begin to stop, without waiting for it: may be called by a signal handler."""
        self._ending = True
        self._queue.put(None)

    def stop(self) -> None:
        """Finish what is in the queue and stop; unanswered takes are refused.

        A thread that is held by its disk is left behind.
        """
        if self._thread.is_alive():
            self.end()
            self._thread.join(STOPS_S)

    def submit(self, command: Command, at_ns: int | None = None) -> Ack:
        """Hand in a command; returns when it is committed, refused or not recorded.

        `at_ns`: when it was given, if that was before now: a press of the gauge's own key
        is heard only by the frame that it sends, and that frame counts.
        """
        try:
            return self.hand_in(command, at_ns).result(ANSWER_S)
        except TimeoutError:
            return unanswered(command)

    def hand_in(
        self, command: Command, at_ns: int | None = None, make: Made | None = None
    ) -> "Future[Ack]":
        """Hand in a command without waiting: the answer comes by itself, or never.

        With `make` it is decided already, and brings the row of no machine that is to be recorded.
        """
        reply: Future[Ack] = Future()
        reply.add_done_callback(lambda done: self.answered(command, done.result()))
        if self._ending:
            reply.set_result(_stopping(command))
        elif why := self.refusal():
            reply.set_result(Ack(command.id, False, (), "refused", why))
        else:
            at_ns = self._mono_ns() if at_ns is None else at_ns
            self._queue.put(Wish(command, at_ns, reply, make))
            if self._ended:  # meanwhile
                self._refuse_queued()
        return reply

    def _refuse_queued(self) -> None:
        """Answer those whom nobody works for any more; any thread may."""
        with suppress(queue.Empty):
            while True:
                item = self._queue.get_nowait()
                if isinstance(item, Wish):
                    item.reply.set_result(_stopping(item.command))

    def on_status(self, status: GaugeStatus) -> None:
        """Called by readers when something about a gauge changed."""
        self._queue.put(status)

    def _work(self) -> None:
        try:
            while self._turn():
                pass
        except BaseException as error:
            self.failed = error
            self.when_failed()
            raise
        finally:
            self._ending = True
            self._ended = True
            self._refuse_queued()
            self._decider.close(STOPPING)

    def _turn(self) -> bool:
        try:
            item = self._queue.get(timeout=BUSY_S if self._decider.busy else IDLE_S)
        except queue.Empty:
            self._decider.tick()
            return True
        if item is None:
            return False
        if isinstance(item, Wish):
            self._decider.receive(item.command, item.arrived_ns, item.reply, item.make)
        else:
            self._decider.gauge_status(item)
        self._decider.tick()
        return True
