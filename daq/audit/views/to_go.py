"""What is left of a move: from where the gauge stands now, not from where it was parked.

Cracked bolts let the head drop. The stop-at stays, but the way to it may turn round.
"""

from dataclasses import dataclass
from typing import Literal

from daq.audit.facts import began_mm, shown_face
from daq.audit.parts import StopAt, Way
from daq.audit.state import Job
from daq.audit.views.figures import on_face
from daq.audit.views.step import Turn
from daq.words import Said


@dataclass(frozen=True, slots=True)
class ToGo:
    """The way to the stop-at; readings and `past_mm` in mm on the face, as it can show them."""

    now_face_mm: float
    stop_face_mm: float
    way: Literal["up", "down"]
    past_mm: float
    turns: Said | None
    warnings: tuple[Said, ...]

    @property
    def change_mm(self) -> float:
        """How far the face still has to change."""
        return self.stop_face_mm - self.now_face_mm

    @property
    def there(self) -> bool:
        """Whether the face shows the stop-at already."""
        return self.now_face_mm == self.stop_face_mm


def to_go(job: Job, stop: StopAt) -> ToGo:
    """What is left of this move; as it was planned while nothing was cracked since."""
    now = began_mm(job, stop)
    from_here = job.ahead.way if job.ahead is not None else None
    way = from_here or Way(stop.past_mm, stop.turns, stop.warnings)
    return ToGo(
        now_face_mm=on_face(job, now),
        stop_face_mm=on_face(job, stop.stop_face_mm),
        way="up" if stop.stop_face_mm > now else "down",
        past_mm=on_face(job, way.past_mm),
        turns=way.turns,
        warnings=way.warnings,
    )


def turn(job: Job, stop: StopAt) -> Turn:
    """What hands do: turn until the face shows the stop-at, as it can show it."""
    return Turn(job.axis, shown_face(job, on_face(job, stop.stop_face_mm)))
