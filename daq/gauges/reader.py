"""The thread that reads one gauge, from its port to its ring."""

import logging
import threading
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from typing import Final

from daq.gauges import frames
from daq.gauges.config import GaugeConfig
from daq.gauges.health import Health
from daq.gauges.link import Link, LinkError
from daq.gauges.ring import Ring
from daq.units import MM_PER
from daq.words import GaugeStatus, Sample

_WAIT_S: Final = 0.2
"""How long the line is listened to at a time: a pause of this length breaks a frame off."""

_WAIT_NS: Final = round(_WAIT_S * 1e9)
_FIRST_RETRY_S: Final = 0.2
_LAST_RETRY_S: Final = 2.0

_log = logging.getLogger(__name__)


class Reader:
    """Keeps one gauge's port open, come what may, and its samples flowing.

    Each opening of the port is a run with an id of its own. `on_sample` and
    `on_status` are called from the reader's thread and must not block; `on_status`
    when the code or the run changes. `ring` and `status` may be looked at any time.
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
    ) -> None:
        """Prepare to read `gauge` at `url` (see `Line.url`); nothing is opened before `start`."""
        self.ring = Ring()
        self.status = GaugeStatus(gauge, "silent", f"{config.name}: not yet opened.", "", 0, 0, 0)
        self._gauge = gauge
        self._config = config
        self._url = url
        self._on_sample = on_sample
        self._on_status = on_status
        self._new_run = new_run
        self._now_ns = now_ns
        self._stopping = threading.Event()
        self._thread = threading.Thread(target=self._work, name=f"gauge-{gauge}", daemon=True)

    def start(self) -> None:
        """Begin to read, in a thread of its own."""
        self._thread.start()

    def stop(self) -> None:
        """End the reading and give the port back; returns when it is done."""
        self._stopping.set()
        if self._thread.is_alive():
            self._thread.join()

    def _work(self) -> None:
        retry_s = _FIRST_RETRY_S
        while not self._stopping.is_set():
            try:
                with closing(Link(self._config.line, self._url, _WAIT_S)) as link:
                    retry_s = _FIRST_RETRY_S
                    self._listen(link)
            except LinkError as error:
                self._tell(replace(self.status, code=error.code, say=error.say))
            except Exception as error:  # whatever it is, the gauge is tried again
                _log.exception("gauge %s", self._gauge)
                say = f"reading failed: {error}"
                self._tell(replace(self.status, code="cannot-open", say=say))
            self._stopping.wait(retry_s)
            retry_s = min(2.0 * retry_s, _LAST_RETRY_S)

    def _listen(self, link: Link) -> None:
        """Read one opening of the port until it goes or the reader is stopped."""
        gauge, run, n, last_ns = self._gauge, self._new_run(), 0, 0
        decoder = frames.decoder(self._config.frame, gauge)
        look_ns = self._now_ns()
        health = Health(self._config.talk.stale_s, look_ns)
        append, publish = self.ring.append, self._on_sample
        while not self._stopping.is_set():
            block = link.read()
            now_ns = self._now_ns()
            if not block:
                decoder.gap()
            for text, value, unit, flags, raw in decoder.feed(block):
                value_mm = value * MM_PER[unit]
                sample = Sample(gauge, run, n, now_ns, text, unit, value_mm, flags, raw)
                n, last_ns = n + 1, now_ns
                append(sample)
                publish(sample)
            first = n and not health.good
            health.heard(n, decoder.bad, now_ns)
            if first or now_ns >= look_ns:
                look_ns = now_ns + _WAIT_NS
                if verdict := health.judge(now_ns):
                    self._tell(GaugeStatus(gauge, *verdict, run, n, decoder.bad, last_ns))

    def _tell(self, status: GaugeStatus) -> None:
        """Keep the newest status, with the gauge's name said; pass on what changed."""
        before = self.status
        say = f"{self._config.name}: {status.say}" if status.say else ""
        self.status = replace(status, say=say)
        if (before.code, before.run) != (status.code, status.run):
            self._on_status(self.status)
