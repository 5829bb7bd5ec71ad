"""What is heard during one opening of a port: from its bytes to samples and a status.

Pure but for what it keeps: it is told the time, and reads and writes no port.
"""

from collections import deque
from collections.abc import Sequence
from typing import Final

from daq.gauges import frames
from daq.gauges.config import GaugeConfig
from daq.gauges.health import AMISS, COARSE, UNDECODED, Health, Verdict
from daq.gauges.misfits import misfit
from daq.gauges.sending import Sender
from daq.gauges.wire import BYTES, FRAMES, Wire, shown
from daq.units import MM_PER
from daq.words import GaugeStatus, Sample

_NS: Final = 1_000_000_000
_LOOK_NS: Final = 200_000_000
"""How often the gauge's health is judged."""

_COARSE: Final = 1.01
"""By rounding alone a digit is no coarser than the resolution."""

_LOOKED_AT: Final = 256
"""So many of the last bytes tell what frames look like that are not good."""


class Hearing:
    """One opening's decoder, conversation and counts.  Times are in ns of one clock."""

    def __init__(
        self, gauge: str, config: GaugeConfig, run: str, now_ns: int, shared: bool = False
    ) -> None:
        """Begin to hear `gauge`, having heard nothing yet; `shared`: others are on its port."""
        talk = config.talk
        self.run = run
        self._gauge = gauge
        self._frame = config.frame
        float_sent = any(str(item).startswith("float") for item in config.frame.get("layout", ()))
        self._resolution_mm = None if float_sent else config.resolution
        self._decoder = frames.decoder(config.frame, gauge)
        self.pause_ns = round(talk.pause * _NS)
        """So long a silence parts two frames."""
        self.sender = Sender(talk, now_ns, shared)
        self._asker = self.sender.asker
        self._health = Health(talk.stale_s, now_ns)
        if self._asker is not None:
            self._health = Health(talk.patience_s, now_ns, talk.most_missing)
        self._n = 0
        self._good = 0
        self._came = 0
        self._came_good = 0
        self._bad = 0
        self._good_ns = now_ns
        self._byte_ns = now_ns
        self._found: deque[list[frames.Indication]] = deque(maxlen=FRAMES)
        self._blocks: deque[bytes] = deque(maxlen=BYTES)
        self._last_bad = b""
        self._keyed = talk.mode == "key"
        self.look_ns = now_ns + _LOOK_NS
        """When the gauge's health is to be judged next."""
        self.beside: Sequence[Hearing] = ()
        """What is heard of the other gauges on the same port."""

    @property
    def sends(self) -> bool:
        """Whether the gauge is to be sent anything: requests, or that it is to begin."""
        return self.sender.sends

    def request(self, now_ns: int) -> bytes:
        """Return what is to be sent to the gauge now; mostly nothing."""
        return self.sender.due(now_ns)

    def wait_s(self, now_ns: int) -> float:
        """Return how long to wait for bytes at the most, seconds."""
        return self.sender.wait_ns(now_ns, self.pause_ns) / _NS

    def take(self, block: bytes, now_ns: int) -> list[Sample]:
        """Take the bytes that came up to now, or none; return the samples they make."""
        decoder = self._decoder
        block = self.sender.heard(block, now_ns)
        if block:
            self._blocks.append(block)
            self._came += len(block)
            self._byte_ns = now_ns
        elif now_ns - self._byte_ns >= self.pause_ns:
            decoder.gap()
        found = decoder.feed(block)
        if decoder.bad != self._bad:
            self._bad, self._last_bad = decoder.bad, self._tail()
        if self._asker is not None:
            found = list(self._asker.take(found, bool(block), now_ns))
        return self._samples(found, now_ns) if found else []

    def _samples(self, found: list[frames.Indication], now_ns: int) -> list[Sample]:
        gauge, run, n, health, samples = self._gauge, self.run, self._n, self._health, []
        for text, value, unit, flags, raw in found:
            if (flags or not health.is_value) and not health.flagged(flags, now_ns):
                continue
            value_mm = value * MM_PER[unit]
            samples.append(Sample(gauge, run, n, now_ns, text, unit, value_mm, flags, raw))
            n += 1
        if not self._good:  # the first is told of at once
            self.look_ns = now_ns
        self._found.append(found)
        self._good, self._good_ns = self._good + len(found), now_ns
        self._came_good = self._came
        self._n = n
        self.sender.spoke(now_ns)
        return samples

    def status(self, now_ns: int) -> GaugeStatus | None:
        """Return how the gauge is doing, or None before anything can be said.

        To be called when `look_ns` has come.
        """
        self.look_ns = now_ns + _LOOK_NS
        health = self._health
        if self._asker is not None:
            health.asked(self._asker.missing, self._asker.discarded)
        health.heard((self._good, self._good_ns), self._bad, (self._came, self._byte_ns))
        if self._coarse():
            health.warn(COARSE, now_ns)
        verdict = health.judge(now_ns)
        if verdict is None:
            return None
        if verdict[0] in UNDECODED:
            verdict = self._undecoded(verdict, now_ns)
        counts = (self._good, self._bad, self._good_ns if self._good else 0)
        return GaugeStatus(self._gauge, *verdict, self.run, *counts, health.warnings(now_ns))

    def _undecoded(self, verdict: Verdict, now_ns: int) -> Verdict:
        """Return what to say of bytes that come and are no good frames."""
        came = self._since_good()
        found = self._decoder.amiss(came)
        others = self._asker is None and any(each.hears(now_ns) for each in self.beside)
        if found == "channel" or (found is None and others):
            return ("ok", None) if self._keyed else AMISS["channel"]
        amiss = misfit(came, self._frame, found)
        return AMISS[amiss] if amiss else verdict

    def hears(self, now_ns: int) -> bool:
        """Return whether good frames come."""
        return self._good > 0 and now_ns - self._good_ns < _NS

    def wire(self) -> Wire:
        """Return the counts and the last bytes."""
        asker = self._asker
        good = [each.raw for found in self._found for each in found[-FRAMES:]]
        return Wire(
            self.run,
            self._good,
            self._bad,
            self._decoder.damaged,
            self._came,
            asker.missing if asker else 0,
            asker.discarded if asker else 0,
            tuple(shown(raw) for raw in good[-FRAMES:]),
            shown(self._tail()) if self._blocks else None,
            shown(self._last_bad) if self._last_bad else None,
        )

    def _coarse(self) -> bool:
        """Whether the last number has fewer digits than the file's resolution; a float has none."""
        if self._resolution_mm is None or not self._found:
            return False
        text, _, unit, *_ = self._found[-1][-1]
        digits = sum(map(str.isdigit, text.replace(",", ".").partition(".")[2]))
        no_number = not any(map(str.isdigit, text))
        return not no_number and 10.0**-digits * MM_PER[unit] > _COARSE * self._resolution_mm

    def _since_good(self) -> bytes:
        """Return the last bytes that came behind the last good frame."""
        came = min(self._came - self._came_good, _LOOKED_AT)
        return b"".join(self._blocks)[-came:] if came else b""

    def _tail(self) -> bytes:
        return b"".join(self._blocks)[-BYTES:]
