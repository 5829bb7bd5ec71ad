"""What a monitor is told of the service: numbers of now, by the names of Prometheus's conventions.

Nothing here names a person or says what was measured.
"""

import os
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal

from daq.audit.state import Shop
from daq.gauges.reader import Reader
from daq.service.delivery.courier import WayOut
from daq.service.hub import Hub
from daq.words import Said, said

PROC: Final = Path("/proc")


@dataclass(frozen=True)
class MetricFamily:
    """One number, of each thing that its labels name; a counter only grows while this runs."""

    name: str
    kind: Literal["counter", "gauge"]
    say: Said
    samples: tuple[tuple[Mapping[str, str], float], ...]


@dataclass(frozen=True)
class Metrics:
    """Reads the numbers where they stand; asked by any thread. `rows`: the ledger's last."""

    release: str
    hub: Hub
    readers: Mapping[str, Reader]
    rows: Callable[[], int]
    state: Callable[[], Shop]
    ways: Callable[[], Mapping[str, WayOut]]
    mono_ns: Callable[[], int]

    def families(self, *, well: bool, screens: int) -> Iterator[MetricFamily]:
        """Every number; `well` and how many `screens` are open the pages know."""
        yield _one("headsweep_build_info", said("metric-build"), 1, version=self.release)
        yield _one("headsweep_healthy", said("metric-healthy"), well)
        yield _one("headsweep_screens", said("metric-screens"), screens)
        yield _one("headsweep_threads_held", said("metric-held"), len(self.hub.held))
        yield _one("headsweep_ledger_rows", said("metric-rows"), self.rows())
        yield from self._of_gauges()
        yield from self._of_machines()
        ways = self.ways()
        owed = {way: each.owed for way, each in ways.items()}
        yield _each("headsweep_owed_rows", said("metric-owed"), "way", owed)
        fails = {way: each.why is not None for way, each in ways.items()}
        yield _each("headsweep_way_failing", said("metric-fails"), "way", fails)
        yield from _of_process()

    def _of_gauges(self) -> Iterator[MetricFamily]:
        # A reader's own count begins anew with each opening of its port, as a counter may.
        wires = {key: reader.wire for key, reader in self.readers.items()}
        good = {key: wire.good for key, wire in wires.items()}
        yield _each("headsweep_frames_total", said("metric-frames"), "gauge", good, "counter")
        bad = {key: wire.bad for key, wire in wires.items()}
        yield _each("headsweep_bad_frames_total", said("metric-bad"), "gauge", bad, "counter")
        damaged = {key: wire.damaged for key, wire in wires.items()}
        say = said("metric-damaged")
        yield _each("headsweep_damaged_frames_total", say, "gauge", damaged, "counter")
        reads = {key: reader.status.code == "ok" for key, reader in self.readers.items()}
        yield _each("headsweep_gauge_reading", said("metric-reading"), "gauge", reads)
        latest = {key: reader.ring.latest() for key, reader in self.readers.items()}
        now = self.mono_ns()
        ages = {key: (now - s.mono_ns) / 1e9 for key, s in latest.items() if s is not None}
        yield _each("headsweep_sample_age_seconds", said("metric-age"), "gauge", ages)

    def _of_machines(self) -> Iterator[MetricFamily]:
        keys = [machine.key for machine in self.hub.machines()]
        records = {key: bool(self.hub.snapshot(key).recording["ok"]) for key in keys}
        yield _each("headsweep_recording", said("metric-recording"), "machine", records)
        state = self.state()
        under_way = {key: state.machine(key).job is not None for key in keys}
        yield _each("headsweep_audit_open", said("metric-audit"), "machine", under_way)


def _of_process() -> Iterator[MetricFamily]:
    """What every process has, by the names that all have in common."""
    own = PROC / "self"
    resident = int((own / "statm").read_text("ascii").split()[1]) * os.sysconf("SC_PAGE_SIZE")
    since_boot = int((own / "stat").read_text("utf-8").rpartition(")")[2].split()[19])
    (boot,) = (
        int(line.split()[1])
        for line in (PROC / "stat").read_text("ascii").splitlines()
        if line.startswith("btime ")
    )
    began = boot + since_boot / os.sysconf("SC_CLK_TCK")
    cpu = said("metric-cpu")
    yield MetricFamily("process_cpu_seconds_total", "counter", cpu, (({}, time.process_time()),))
    yield _one("process_resident_memory_bytes", said("metric-memory"), resident)
    yield _one("process_start_time_seconds", said("metric-began"), began)
    yield _one("process_open_fds", said("metric-files"), sum(1 for _ in (own / "fd").iterdir()))


def _one(name: str, say: Said, value: float, **labels: str) -> MetricFamily:
    return MetricFamily(name, "gauge", say, ((labels, value),))


def _each(
    name: str,
    say: Said,
    label: str,
    values: Mapping[str, float],
    kind: Literal["counter", "gauge"] = "gauge",
) -> MetricFamily:
    return MetricFamily(name, kind, say, tuple(({label: k}, v) for k, v in values.items()))
