"""What an audit keeps of its gauge: who it is, its papers, how its face relates to mm."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from daq.checks.gauge.measured import BenchMeasured
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.gauge_terms import Papers
from daq.metrology.pushed import face, pushed_in
from daq.metrology.repeat import Repeat, pooled

_YEAR: Final = 365.25
"""Days."""


@dataclass(frozen=True)
class GaugeSetup:
    """What the audit needs to know of its gauge: identity, papers, how its face relates to mm.

    Days are ISO dates. `checked_on`, `check_passed`: its latest check against known lengths
    before the audit was opened, None when there was none on record; `span_error`: how far its
    error changed there over a short span, mm; `measured`: what else it showed for budgets, where
    the machine's file leaves that to common practice. `certificate_u`: standard uncertainty of its
    error at a point, mm, by its certificate of `calibrated_on`; `drift`: how far that may go in a
    year, mm. `angle_doubt`: how far a lever's stylus angle may be off, rad.
    """

    key: str
    name: str
    serial_number: str
    counts_up: bool
    cosine: float
    resolution: float
    travel: float
    calibration_due: str
    certificate: str = ""
    laboratory: str = ""
    calibrated_on: str | None = None
    checked_on: str | None = None
    check_passed: bool | None = None
    kind: Literal["plunger", "lever"] = "plunger"
    max_error: float = 0.0
    certificate_u: float | None = None
    certificate_condition: str = ""
    drift: float = 0.0
    span_error: float | None = None
    angle_doubt: float | None = None
    measured: BenchMeasured | None = None

    def papers(self, day: str) -> Papers:
        """What they say of it on this day, an ISO date."""
        gone = None
        if self.calibrated_on is not None and day:
            since = date.fromisoformat(day) - date.fromisoformat(self.calibrated_on)
            # A clock that is behind: never less than nothing.
            gone = self.drift * max(0.0, since.days / _YEAR)
        return Papers(
            u_mm=self.certificate_u,
            gone_mm=gone,
            span_error_mm=self.span_error,
            measured=self.measured,
            angle=math.acos(self.cosine),
            angle_doubt=self.angle_doubt,
        )

    def pushed(self, face_mm: float) -> float:
        """How far the contact is pushed in (plus the gauge's zero), mm."""
        return pushed_in(face_mm, self.counts_up, self.cosine)

    def face(self, pushed_mm: float) -> float:
        """What the gauge's own face shows for that, mm."""
        return face(pushed_mm, self.counts_up, self.cosine)


def repeats(gauge: GaugeSetup, doubts: Doubts, visits_mm: Sequence[float]) -> Repeat:
    """How well a spot reads the same when come back to, from what visits to spots showed.

    Beside them stands what the gauge's check measured, or else the file's figure.
    """
    seen = None if gauge.measured is None else gauge.measured.sd_mm
    sd_mm = doubts.repeatability if seen is None else seen
    return pooled(sd_mm, doubts.repeatability_dof, visits_mm, gauge.resolution)
