"""The arm is flicked before the first reading: it must come back; its scatter is the friction."""

from dataclasses import dataclass, replace

from daq.audit.events import OfStage
from daq.audit.facts import shown_face
from daq.audit.folding import go
from daq.audit.input import Input
from daq.audit.parts import Next
from daq.audit.state import Job
from daq.audit.views.afterwards import face, fine, known
from daq.audit.views.figures import with_unit
from daq.metrology.flicks import FLICKS, Friction, friction, levels
from daq.units import SLACK_MM
from daq.words import Said, said


@dataclass(frozen=True)
class Flicked(OfStage):
    """The arm was flicked, and where the number rested before and after each flick, on its face.

    `ok`: it came back each time. `away_face_mm`: how far off it rested at the worst. `friction`:
    by this attempt and those sent back before it since the arm was put in.
    """

    ok: bool
    rested_face_mm: tuple[float, ...]
    away_face_mm: float
    friction: Friction
    said: Said | None
    next: Next


def asked(job: Job) -> bool:
    """Whether the arm is to be flicked before this reading.

    Until it came back once in an audit, and once more after the arm came out; of a gauge that a
    flick shows on, and not on a bar, of which one gauge alone would be tried.
    """
    gauge = job.gauge
    untried = gauge.friction is None or bool(gauge.sent_back)
    first = not job.reads.taken and gauge.lifted and untried
    return first and gauge.streams and job.setup.second_gauge is None


def flicked(job: Job, given: Input) -> Flicked | None:
    """What three flicks show; None where so many were not seen.

    What was seen of attempts sent back counts then, or else the file's figure.
    """
    if not asked(job):
        return None
    gauge = job.setup.gauge
    rested = levels(given.samples, job.gauge.spread_mm)
    if len(rested) <= FLICKS:
        return None
    away = max((level - rested[0] for level in rested), key=abs)
    here, before = Next(job.step, job.axis), job.gauge.sent_back
    bound_mm = job.setup.machine.uncertainty.friction
    if abs(away) > max(gauge.resolution, 2.0 * job.gauge.free_sd_mm) + SLACK_MM:
        found = friction((*before, rested), None, gauge.resolution, bound_mm)
        stays = said("flick-not-back", off=with_unit(shown_face(job, away, plus=True)))
        return Flicked(False, rested, away, found, stays, here)
    found = friction(before, rested, gauge.resolution, bound_mm)
    return Flicked(True, rested, away, found, None, here)


def took(job: Job, data: Flicked) -> Job:
    """The friction stands; or it did not come back: nothing was read, and its levels are kept."""
    before = job.gauge.sent_back
    sent_back = () if data.ok else (*before, data.rested_face_mm)
    after = replace(job, gauge=replace(job.gauge, friction=data.friction, sent_back=sent_back))
    return after if data.ok else go(after, data.next, data.said)


def detail(job: Job, data: Flicked) -> tuple[Said, ...]:
    """Where it rested each time, how far off at the worst, the friction that comes of it."""
    rested = tuple(face(job, mm) for mm in data.rested_face_mm)
    return known(
        said("row-rested", at=rested),
        said("row-stayed-away", by=face(job, data.away_face_mm, plus=True)),
        said("row-friction", u=fine(job, data.friction.u_mm), returns=data.friction.returns),
        data.said,
    )
