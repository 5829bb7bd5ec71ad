"""The thread that reads a port, from its bytes to the ring of each gauge on it."""

import logging
import threading
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from daq.gauges.config import GaugeConfig, SerialLine
from daq.gauges.errors import LinkError
from daq.gauges.hearing import Hearing
from daq.gauges.identity import SYSFS, identity
from daq.gauges.link import Link
from daq.gauges.ring import Ring
from daq.gauges.sending import InTurn
from daq.gauges.talk import Talk
from daq.gauges.wire import Wire
from daq.words import GaugeStatus, Sample, said

_LONGEST_WAIT_S: Final = 0.2
"""How long a port that is no file of this machine is listened to at a time."""

STUCK: Final = "stuck"
"""The code of a gauge whose reader stands still: its own thread can say nothing then."""

SHARED: Final = "shared"
"""The code of a gauge whose port another program uses, too."""

_STUCK_S: Final = 4.0
"""Longer than anything a reader waits for, and soon enough to be told of within 5 s."""

_OPENS_S: Final = 20.0
"""A serial server in the network is given longer to answer that a port of it is open."""

_STOPS_S: Final = 1.0
"""How long its end may hold up whoever stops it; what is held in a port is left behind."""

_WORDED: Final = ("mixed-up", "busy", "cannot-open")
"""Faults of which the words say what to do: new words are passed on like a new fault."""

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Retry:
    """How long to wait before a port is tried again, seconds: twice as long each time."""

    first_s: float = 0.2
    last_s: float = 2.0


class Reader:
    """One gauge's readings: its samples and how it is doing, as its port's thread hears them.

    Each opening of the port is a run with an id of its own. `on_sample` and
    `on_status` are called from the port's thread and must not block; `on_status`
    when the code, the run, the warnings or what is to be done change. `ring`, `status`
    and `wire` may be looked at any time; a thread that stands still shows in `status` alone.
    """

    def __init__(
        self,
        gauge: str,
        config: GaugeConfig,
        port: "PortReader",
        *,
        on_sample: Callable[[Sample], None],
        on_status: Callable[[GaugeStatus], None],
        new_run: Callable[[], str],
    ) -> None:
        """Prepare to read `gauge` from `port`, where others may be, too."""
        self.ring = Ring()
        say = said("not-yet-opened", gauge=config.name)
        self._told = GaugeStatus(gauge, "silent", say, "", 0, 0, 0)
        self.wire = Wire()
        self.gauge = gauge
        self.config = config
        self._port = port
        self._on_sample = on_sample
        self._on_status = on_status
        self._new_run = new_run
        port.readers.append(self)

    @property
    def status(self) -> GaugeStatus:
        """How the gauge is doing as told last, unless its port's thread stands still."""
        if not self.still:
            return self._told
        say = said("port-holds-up-the-pi", gauge=self.config.name)
        return replace(self._told, code=STUCK, say=say, in_full=None)

    @property
    def beside(self) -> tuple[str, ...]:
        """The names of the other gauges on its port."""
        return tuple(each.config.name for each in self._port.readers if each is not self)

    @property
    def still(self) -> bool:
        """Whether the thread of its port stands still."""
        return self._port.still

    def start(self) -> None:
        """Begin to read its port, unless that has begun for another gauge."""
        self._port.start()

    def end(self) -> None:
        """Begin to stop the reading of its port, without waiting for it."""
        self._port.end()

    def stop(self) -> None:
        """End the reading of its port."""
        self._port.stop()

    def opened(self, now_ns: int, shared: bool) -> Hearing:
        """Hear that the port was opened; return what is to be made of its bytes."""
        return Hearing(self.gauge, self.config, self._new_run(), now_ns, shared)

    def take(self, hearing: Hearing, block: bytes, now_ns: int) -> None:
        """Take the bytes that came up to now, or none."""
        append, publish = self.ring.append, self._on_sample
        for sample in hearing.take(block, now_ns):
            append(sample)
            publish(sample)
        if now_ns >= hearing.look_ns:
            status = hearing.status(now_ns)
            self.wire = hearing.wire()
            if status is not None:
                self._heard(status)

    def fault(self, error: LinkError) -> None:
        """The port itself fails: said with the gauge's name and, in full, with the port's."""
        name = self.config.name
        in_full = said("of-gauge", gauge=name, say=error.say)
        self._tell(replace(self._told, code=error.code, say=error.of(name), in_full=in_full))

    def _heard(self, status: GaugeStatus) -> None:
        """What comes, or does not, from an open port: said with the gauge's name."""
        name = self.config.name
        say = None if status.say is None else said("of-gauge", gauge=name, say=status.say)
        warnings = tuple(said("of-gauge", gauge=name, say=each) for each in status.warnings)
        self._tell(replace(status, say=say, warnings=warnings))

    def _tell(self, status: GaugeStatus) -> None:
        """Keep the newest status; pass on what changed."""
        before, self._told = self._told, status
        what = (before.code, before.run, before.warnings)
        changed = what != (status.code, status.run, status.warnings)
        words = (before.say, before.in_full) != (status.say, status.in_full)
        if changed or (status.code in _WORDED and words):
            self._on_status(status)


class PortReader:
    """The thread that keeps one port open, come what may, for all the gauges on it.

    What comes is heard by each of them, what they are sent goes out in turn, and a fault of the
    port is told of each.
    """

    def __init__(
        self,
        line: SerialLine,
        url: str,
        *,
        now_ns: Callable[[], int] = time.monotonic_ns,
        retry: Retry = Retry(),
        sysfs: Path = SYSFS,
    ) -> None:
        """Prepare to read `url` (`SerialLine.url`); nothing is opened before `start`."""
        self.readers: list[Reader] = []
        self._line = line
        self._url = url
        self._identity = identity(url, sysfs)
        self._now_ns = now_ns
        self._retry = retry
        self._turned_ns = now_ns()
        self._within_s = _STUCK_S
        self._ends_s = 0.0
        self._stopping = threading.Event()
        self._thread: threading.Thread | None = None

    @property
    def _gauges(self) -> str:
        return "+".join(each.gauge for each in self.readers)

    @property
    def still(self) -> bool:
        """Whether the thread stands still."""
        reads = self._thread is not None and not self._stopping.is_set()
        return reads and self._now_ns() - self._turned_ns >= self._within_s * 1e9

    def start(self) -> None:
        """Begin to read, in a thread of its own, unless that has begun."""
        if self._thread is None:
            self._turned_ns = self._now_ns()
            name = f"gauge-{self._gauges}"
            self._thread = threading.Thread(target=self._work, name=name, daemon=True)
            self._thread.start()

    def end(self) -> None:
        """Begin to stop, without waiting for it."""
        self._ends_s = self._ends_s or time.monotonic() + _STOPS_S
        self._stopping.set()

    def stop(self) -> None:
        """End the reading and give the port back; a thread held in its port is left behind."""
        self.end()
        if self._thread is not None and self._thread.is_alive():
            self._thread.join(max(0.0, self._ends_s - time.monotonic()))
            if self._thread.is_alive():
                _log.warning("gauge %s: its reader is held in %s", self._gauges, self._url)

    def _work(self) -> None:
        wait_s = min(_longest_wait_s(each.config.talk) for each in self.readers)
        retry_s = self._retry.first_s
        while not self._stopping.is_set():
            self._turned_ns = self._now_ns()
            self._within_s = _OPENS_S if "://" in self._url else _STUCK_S
            try:
                with closing(Link(self._line, self._url, wait_s, self._identity)) as link:
                    retry_s = self._retry.first_s
                    self._turned_ns, self._within_s = self._now_ns(), _STUCK_S
                    self._listen(link)
            except LinkError as error:
                self._fault(error)
                if error.code == SHARED:  # it would be so again at once
                    retry_s = self._retry.last_s
            except Exception as error:  # whatever it is, the port is tried again
                _log.exception("gauge %s", self._gauges)
                say = said("reading-failed", port=self._url)
                in_full = said("reading-failed-in-full", port=self._url, error=str(error))
                self._fault(LinkError("cannot-open", say, in_full))
            self._stopping.wait(retry_s)
            retry_s = min(2.0 * retry_s, self._retry.last_s)

    def _listen(self, link: Link) -> None:
        """Read one opening of the port until it goes or the thread is stopped."""
        now_ns, shared = self._now_ns(), len(self.readers) > 1
        heard = [(each, each.opened(now_ns, shared)) for each in self.readers]
        for _, hearing in heard if shared else ():
            hearing.beside = tuple(other for _, other in heard if other is not hearing)
        turns = InTurn(hearing.sender for _, hearing in heard)
        read, look, stopped = link.read, link.look, self._stopping.is_set
        most_ns = min(hearing.pause_ns for _, hearing in heard)
        sends, wait_s, asked = turns.sends, most_ns / 1e9, None
        while not stopped():
            if sends:
                if request := turns.due(now_ns):
                    link.write(request)
                wait_s, asked = turns.wait_ns(now_ns, most_ns) / 1e9, turns.asked(now_ns)
            block = read(wait_s)
            self._turned_ns = now_ns = self._now_ns()
            look()  # before anything is believed
            for reader, hearing in heard:
                its = asked is None or asked is hearing.sender
                reader.take(hearing, block if its else b"", now_ns)

    def _fault(self, error: LinkError) -> None:
        for each in self.readers:
            each.fault(error)


def _longest_wait_s(talk: Talk) -> float:
    """How long a port that is no file of this machine is listened to at a time for a gauge."""
    step_s = talk.step if talk.start or talk.steps else None
    waits = (_LONGEST_WAIT_S, talk.pause, talk.interval, talk.timeout, step_s)
    return min(wait for wait in waits if wait is not None)
