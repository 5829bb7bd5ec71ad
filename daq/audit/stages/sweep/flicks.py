"""The arm is flicked before the first reading: it must come back; its scatter is the friction."""

from dataclasses import dataclass, replace

from daq.audit.events import OfStage
from daq.audit.facts import shown_face
from daq.audit.folding import go
from daq.audit.input import Input
from daq.audit.parts import Next
from daq.audit.state import Job
from daq.audit.views.figures import with_unit
from daq.metrology.flicks import FLICKS, Friction, friction, levels
from daq.units import SLACK_MM
from daq.words import Said, said


@dataclass(frozen=True)
class Flicked(OfStage):
    """The arm was flicked, and where the number rested before and after each flick, on its face.

    `ok`: it came back each time. `away_face_mm`: how far off it rested at the worst.
    """

    ok: bool
    rested_face_mm: tuple[float, ...]
    away_face_mm: float
    friction: Friction | None
    said: Said | None
    next: Next


def asked(job: Job) -> bool:
    """Whether the arm is to be flicked before this reading.

    Once in an audit, and once more after the arm came out; of a gauge that a flick shows on, and
    not on a bar, of which one gauge alone would be tried.
    """
    gauge = job.gauge
    first = not job.reads.taken and gauge.lifted and gauge.friction is None
    return first and gauge.streams and job.setup.second_gauge is None


def flicked(job: Job, given: Input) -> Flicked | None:
    """What three flicks show; None where so many were not seen: the file's figure counts then."""
    if not asked(job):
        return None
    gauge = job.setup.gauge
    rested = levels(given.samples, job.gauge.spread_mm)
    if len(rested) <= FLICKS:
        return None
    away = max((level - rested[0] for level in rested), key=abs)
    here = Next(job.step, job.axis)
    if abs(away) > max(gauge.resolution, 2.0 * job.gauge.free_sd_mm) + SLACK_MM:
        stays = said("flick-not-back", off=with_unit(shown_face(job, away, plus=True)))
        return Flicked(False, rested, away, None, stays, here)
    doubts = job.setup.machine.uncertainty
    pushed = [gauge.pushed(level) for level in rested]
    found = friction(pushed, gauge.resolution, doubts.friction)
    return Flicked(True, rested, away, found, None, here)


def took(job: Job, data: Flicked) -> Job:
    """The friction stands; or it did not come back, and nothing was read."""
    if not data.ok:
        return go(job, data.next, data.said)
    return replace(job, gauge=replace(job.gauge, friction=data.friction))
