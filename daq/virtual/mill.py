"""The mill as the rest of the house meets it: a port that talks, and things a person can do.

Operations block their caller for as long as a person would take, divided by
`speed`; they can be called from any thread and take turns, because the mill has
one pair of hands. Each that may not be possible, or is done already, returns whether it was done.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

from daq.virtual import practice
from daq.virtual.at_bolts import AtBolts
from daq.virtual.at_gauge import AtGauge
from daq.virtual.at_head import AtHead
from daq.virtual.at_stations import AtStations
from daq.virtual.deeds import Stand
from daq.virtual.faults import Fault
from daq.virtual.gauge import VirtualGauge
from daq.virtual.model import GaugeModel
from daq.virtual.spec import MillSpec
from daq.virtual.tty import PtyLine
from daq.words import AXES, Axis


class VirtualMill(AtGauge, AtHead, AtBolts, AtStations):
    """One practice mill with a gauge on a real pseudo-terminal, and maybe a second one."""

    def __init__(
        self,
        spec: MillSpec,
        *,
        tty_link: Path,
        state_file: Path | None = None,
        speed: float = 1.0,
        seed: int = 0,
        gauge: GaugeModel | None = None,
        far_link: Path | None = None,
    ) -> None:
        """Build the mill; with a `state_file` that exists, the very mill that was left.

        `gauge` is carried instead of the one that `spec` describes. A bar's second
        gauge, one of the same kind, talks at `far_link`. Raises StateFileError when
        that file is not a practice mill's, ValueError for a bar without a second link
        or a link without a bar.
        """
        if (far_link is None) != (spec.bar_radius_mm is None):
            raise ValueError(
                f"far_link: found {far_link} with bar_radius_mm {spec.bar_radius_mm}; "
                "allowed: both or none"
            )
        model = gauge or spec.gauge.model()
        carried = VirtualGauge(model, PtyLine(tty_link), seed=seed)
        far = None if far_link is None else VirtualGauge(model, PtyLine(far_link), seed=seed + 1)
        super().__init__(spec, carried, far, state_file=state_file, speed=speed, seed=seed)

    def start(self) -> None:
        """Put the cables in and let the gauges talk."""
        self._stopping.clear()
        for gauge in self._gauges():
            gauge.start()

    def stop(self) -> None:
        """Finish what the hands are doing at once, pull the cables and save the state."""
        self._stopping.set()
        with self._hands:
            for gauge in self._gauges():
                gauge.stop()
            self._save()

    @property
    def spec(self) -> MillSpec:
        """What this mill is like."""
        return self._head.spec

    @property
    def far(self) -> VirtualGauge | None:
        """The gauge at the bar's other end; None without a bar."""
        return self._far

    def truth(self) -> dict[Axis, float]:
        """Return the true lean of each axis, mm/mm: for tests, never for a screen."""
        with self._lock:
            side, nod = self._head.leans()
        return {"side": side, "nod": nod}

    def jaw_rise(self) -> float:
        """Return the slope of the vise's jaw: for tests, never for a screen."""
        with self._lock:
            return self._head.spec.jaw.rise + self._head.state.jaw_rise

    def stand(self) -> Stand:
        """Return how it truly stands: for a score, and for a screen once the audit is signed."""
        with self._lock:
            stand = self._head.stand()
            return replace(stand, place="") if self._swinging else stand

    def state(self) -> dict[str, Any]:
        """Return what a practice panel shows, as plain values."""
        with self._lock:
            head = self._head.state
            return {
                "position": "swinging" if self._swinging else head.position,
                "set_up": head.set_up,
                "contact": head.contact,
                "bolts": {a: "tight" if self._head.joint(a).tight else "loose" for a in AXES},
                "number": self._gauge.face(),
                "plugged": self._gauge.port.plugged,
                "fault": self._gauge.faults.named,
                "busy": self._busy,
                "picture": practice.picture(self._head),
                "operations": practice.operations(self._head, self._gauge.port.plugged),
            }

    def unplug(self) -> None:
        """Pull the gauge's cable."""
        self._gauge.unplug()

    def replug(self) -> None:
        """Put the gauge's cable back."""
        self._gauge.plug()

    def fault(self, name: Fault) -> None:
        """Give the wire a fault, or "none". Raises ValueError for another name."""
        self._gauge.faults.only(name)

    def _gauges(self) -> list[VirtualGauge]:
        return [self._gauge] if self._far is None else [self._gauge, self._far]
