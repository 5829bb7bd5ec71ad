"""What the live number is measured against: the stop-at of the open audit, if it has one."""

from dataclasses import dataclass
from typing import Literal

from daq.audit.facts import decimals, turned_to
from daq.audit.state import MachineState
from daq.units import show


@dataclass(frozen=True, slots=True)
class Aim:
    """The gauge and the reading on its face, mm, at which to stop; how to show the distance."""

    gauge: str
    stop_face_mm: float
    unit: Literal["mm", "in"]
    digits: int

    def to_go(self, face_mm: float) -> tuple[str, float]:
        """How far the face still has to change, as text in its unit and in mm."""
        left = self.stop_face_mm - face_mm
        return show(left, self.unit, self.digits, plus=True), left


def aim(state: MachineState) -> Aim | None:
    """The stop-at of the machine's open audit, or None while there is none.

    While bolts are pulled up one by one it is what the gauge read before the first.
    """
    job = state.job
    if job is None:
        return None
    stop = job.tight_face_mm if job.step == "tighten" else None
    to = turned_to(job)
    if to is not None and not to.by_hand:
        stop = to.stop_face_mm
    if stop is None:
        return None
    return Aim(
        job.setup.gauge.key,
        stop,
        job.unit or job.setup.machine.unit,
        decimals(job),
    )
