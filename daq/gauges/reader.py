"""The thread that reads one gauge, from its port to its ring."""

import logging
import threading
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from daq.gauges.config import GaugeConfig
from daq.gauges.errors import LinkError
from daq.gauges.hearing import Hearing
from daq.gauges.identity import SYSFS, identity
from daq.gauges.link import Link
from daq.gauges.ring import Ring
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
    """Keeps one gauge's port open, come what may, and its samples flowing.

    Each opening of the port is a run with an id of its own. `on_sample` and
    `on_status` are called from the reader's thread and must not block; `on_status`
    when the code, the run, the warnings or what is to be done change. `ring`, `status`
    and `wire` may be looked at any time; a reader that stands still shows in `status` alone.
    """

    def __init__(
        self,
        gauge: str,
        config: GaugeConfig,
        url: str,
        *,
        on_sample: Callable[[Sample], None],
        on_status: Callable[[GaugeStatus], None],
        new_run: Callable[[], str],
        now_ns: Callable[[], int] = time.monotonic_ns,
        retry: Retry = Retry(),
        sysfs: Path = SYSFS,
    ) -> None:
        """Prepare to read `gauge` at `url` (`SerialLine.url`); nothing is opened before `start`."""
        self.ring = Ring()
        say = said("not-yet-opened", gauge=config.name)
        self._told = GaugeStatus(gauge, "silent", say, "", 0, 0, 0)
        self.wire = Wire()
        self._gauge = gauge
        self._config = config
        self._url = url
        self._identity = identity(url, sysfs)
        self._on_sample = on_sample
        self._on_status = on_status
        self._new_run = new_run
        self._now_ns = now_ns
        self._retry = retry
        self._turned_ns = now_ns()
        self._within_s = _STUCK_S
        self._ends_s = 0.0
        self._stopping = threading.Event()
        self._thread = threading.Thread(target=self._work, name=f"gauge-{gauge}", daemon=True)

    @property
    def status(self) -> GaugeStatus:
        """How the gauge is doing as told last, unless the reader itself stands still."""
        if not self.still:
            return self._told
        say = said("port-holds-up-the-pi", gauge=self._config.name)
        return replace(self._told, code=STUCK, say=say, in_full=None)

    @property
    def still(self) -> bool:
        """Whether the reader itself stands still."""
        started = self._thread.ident is not None and not self._stopping.is_set()
        return started and self._now_ns() - self._turned_ns >= self._within_s * 1e9

    def start(self) -> None:
        """Begin to read, in a thread of its own."""
        self._turned_ns = self._now_ns()
        self._thread.start()

    def end(self) -> None:
        """Begin to stop, without waiting for it."""
        self._ends_s = self._ends_s or time.monotonic() + _STOPS_S
        self._stopping.set()

    def stop(self) -> None:
        """End the reading and give the port back; a reader held in its port is left behind."""
        self.end()
        if self._thread.is_alive():
            self._thread.join(max(0.0, self._ends_s - time.monotonic()))
            if self._thread.is_alive():
                _log.warning("gauge %s: its reader is held in %s", self._gauge, self._url)

    def _work(self) -> None:
        talk = self._config.talk
        step_s = talk.step if talk.start or talk.steps else None
        waits = (_LONGEST_WAIT_S, talk.pause, talk.interval, talk.timeout, step_s)
        wait_s = min(wait for wait in waits if wait is not None)
        retry_s = self._retry.first_s
        while not self._stopping.is_set():
            self._turned_ns = self._now_ns()
            self._within_s = _OPENS_S if "://" in self._url else _STUCK_S
            try:
                with closing(Link(self._config.line, self._url, wait_s, self._identity)) as link:
                    retry_s = self._retry.first_s
                    self._turned_ns, self._within_s = self._now_ns(), _STUCK_S
                    self._listen(link)
            except LinkError as error:
                self._fault(error)
                if error.code == SHARED:  # it would be so again at once
                    retry_s = self._retry.last_s
            except Exception as error:  # whatever it is, the gauge is tried again
                _log.exception("gauge %s", self._gauge)
                say = said("reading-failed", port=self._url)
                in_full = said("reading-failed-in-full", port=self._url, error=str(error))
                self._fault(LinkError("cannot-open", say, in_full))
            self._stopping.wait(retry_s)
            retry_s = min(2.0 * retry_s, self._retry.last_s)

    def _listen(self, link: Link) -> None:
        """Read one opening of the port until it goes or the reader is stopped."""
        now_ns = self._now_ns()
        hearing = Hearing(self._gauge, self._config, self._new_run(), now_ns)
        append, publish, stopped = self.ring.append, self._on_sample, self._stopping.is_set
        read, look, take = link.read, link.look, hearing.take
        sends, wait_s = hearing.sends, hearing.wait_s(now_ns)
        while not stopped():
            if sends:
                if request := hearing.request(now_ns):
                    link.write(request)
                wait_s = hearing.wait_s(now_ns)
            block = read(wait_s)
            self._turned_ns = now_ns = self._now_ns()
            look()  # before anything is believed
            for sample in take(block, now_ns):
                append(sample)
                publish(sample)
            if now_ns >= hearing.look_ns:
                status = hearing.status(now_ns)
                self.wire = hearing.wire()
                if status is not None:
                    self._heard(status)

    def _fault(self, error: LinkError) -> None:
        """The port itself fails: said with the gauge's name and, in full, with the port's."""
        name = self._config.name
        in_full = said("of-gauge", gauge=name, say=error.say)
        self._tell(replace(self._told, code=error.code, say=error.of(name), in_full=in_full))

    def _heard(self, status: GaugeStatus) -> None:
        """What comes, or does not, from an open port: said with the gauge's name."""
        name = self._config.name
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
