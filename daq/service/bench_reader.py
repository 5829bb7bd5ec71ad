"""One gauge on its own, read at the bench through its port: no machine and no audit."""

import threading
import uuid
from pathlib import Path

from daq.gauges.config import GaugeConfig
from daq.gauges.reader import PortReader, Reader
from daq.gauges.wire import openings
from daq.metrology.settle import SettleRules
from daq.service.bench_ring import RingBench
from daq.service.clock import Clock


class BenchReader(RingBench):
    """Reads one gauge through its real port, until closed."""

    def __init__(
        self, key: str, gauge: GaugeConfig, data: Path, rules: SettleRules, clock: Clock
    ) -> None:
        """Open the port; a value settles by `rules`."""
        news = threading.Event()
        token = uuid.uuid4().hex[:8]
        self._reader = Reader(
            key,
            gauge,
            PortReader(gauge.line, gauge.line.url(data), now_ns=clock.mono_ns),
            on_sample=lambda _: news.set(),
            on_status=lambda _: news.set(),
            new_run=openings(f"{token}-{key}"),
        )
        super().__init__(gauge, self._reader.ring, lambda: self._reader.status, rules, clock, news)
        self._reader.start()

    def close(self) -> None:
        """Give the port back."""
        self._reader.stop()
