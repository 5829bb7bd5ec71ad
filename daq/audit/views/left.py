"""What is left of a move: from where the gauge stands now, not from where it was parked.

Cracked bolts let the head drop. The stop-at stays, but the way to it may turn round.
"""

from dataclasses import dataclass
from typing import Literal

from daq.audit.facts import unit_of
from daq.audit.parts import StopAt
from daq.audit.state import Job
from daq.audit.views.figures import on_face
from daq.squaring import adjuster


@dataclass(frozen=True, slots=True)
class Left:
    """The way to the stop-at; readings and `past_mm` in mm on the face, as it can show them."""

    now_face_mm: float
    stop_face_mm: float
    way: Literal["up", "down"]
    past_mm: float
    turns: str
    warnings: tuple[str, ...]

    @property
    def change_mm(self) -> float:
        """How far the face still has to change."""
        return self.stop_face_mm - self.now_face_mm

    @property
    def there(self) -> bool:
        """Whether the face shows the stop-at already."""
        return self.now_face_mm == self.stop_face_mm


def left(job: Job, stop: StopAt) -> Left:
    """What is left of this move; as it was planned while nothing was cracked since."""
    now = stop.base_face_mm if job.cracked_face_mm is None else job.cracked_face_mm
    past, turns, warned = stop.past_mm, stop.turns, stop.warnings
    if job.cracked_face_mm is not None:
        past, turns, warned = _from_here(job, stop, now)
    return Left(
        now_face_mm=on_face(job, now),
        stop_face_mm=on_face(job, stop.stop_face_mm),
        way="up" if stop.stop_face_mm > now else "down",
        past_mm=on_face(job, past),
        turns=turns,
        warnings=tuple(warning.say for warning in warned),
    )


def _from_here(
    job: Job, stop: StopAt, now_face_mm: float
) -> tuple[float, str, tuple[adjuster.Warned, ...]]:
    """How far past, how many turns, and what to look out for, from what the gauge reads now."""
    gauge, machine = job.setup.gauge, job.setup.machine
    adjust = machine.axis(stop.axis).adjust
    now, end = gauge.pushed(now_face_mm), gauge.pushed(stop.stop_face_mm)
    lean = (end - now) * _lean_per_mm(job, stop)
    past = adjuster.past_mm(lean, stop.position, adjust)
    warned = adjuster.warnings(
        now,
        end,
        job.free_pushed_mm,
        gauge.travel,
        gauge.kind,
        gauge.resolution,
        unit_of(job),
        past,
    )
    turns = adjuster.say_turns(adjuster.turns(lean, adjust))
    return past / gauge.cosine, turns, warned


def _lean_per_mm(job: Job, stop: StopAt) -> float:
    """How the lean toward the parked position changes with the reading, as the move was planned.

    Below zero where the pivot lies beyond the parked gauge.
    """
    gauge = job.setup.gauge
    planned_mm = gauge.pushed(stop.stop_face_mm) - gauge.pushed(stop.base_face_mm)
    change = stop.wanted - stop.lean
    if planned_mm == 0.0 or change == 0.0:
        return 1.0 / job.setup.machine.sweep_radius
    return change / planned_mm
