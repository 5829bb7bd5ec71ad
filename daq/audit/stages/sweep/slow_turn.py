"""A sweep that never stands still: every sample of a slow turn, round and back."""

from itertools import pairwise
from typing import Final

from daq.audit.events import Data
from daq.audit.facts import at_the_end, in_air, shown_face
from daq.audit.input import Input, Refused
from daq.audit.reading_order import may_go_round
from daq.audit.stages.sweep.done import finished
from daq.audit.stages.sweep.ram_asked import NOT_SURE
from daq.audit.stages.sweep.reduce import FittedSweep, came_to
from daq.audit.state import Job
from daq.checks.sweep.reduce import Fit, Spot
from daq.checks.sweep.slow_turn.fit import SlowTurn, TooFewError, swept
from daq.checks.sweep.slow_turn.way import Leg, NotRoundError, legs_of, place_at
from daq.words import POSITIONS, Figure, Sample

GAP_S: Final = 0.5
"""Silent for longer, nobody knows what the gauge would have shown of that stretch."""


def slowly(job: Job) -> bool:
    """Whether this sweep is to be turned slowly: it may be, and nothing of it is read yet."""
    return may_go_round(job) and not job.reads.taken


def turned(job: Job, given: Input) -> tuple[Data, ...]:
    """The sweep that the samples on the way come to."""
    marks = job.setup.machine.slow_turn
    if not marks or not slowly(job):
        raise Refused("slow-turn-not-offered")
    since_ns = given.passed[0].at_ns if given.passed else 0
    try:
        legs = legs_of(given.passed, marks, since_ns)
        on_way = _on_way(job, given, legs, since_ns)
        times_s = [_s(each, since_ns) for each in on_way]
        pushed = [job.setup.gauge.pushed(each.value_mm) for each in on_way]
        slow = swept(times_s, pushed, legs, marks, job.setup.machine.sweep_radius)
    except (NotRoundError, TooFewError) as error:
        raise Refused("slow-turn-not", why=error.said) from error
    done = came_to(job, _told_at_places(job, slow))
    # There are no readings to take up again once a question is answered.
    return finished(job, done, settled=NOT_SURE.key)


def _s(sample: Sample, since_ns: int) -> float:
    return (sample.mono_ns - since_ns) / 1e9


def _on_way(job: Job, given: Input, legs: tuple[Leg, Leg], since_ns: int) -> list[Sample]:
    """The samples from the first switch to the last; refused where one is none of the surface."""
    gauge = job.setup.gauge
    first, last = legs[0].centres_s[0], legs[1].centres_s[-1]
    found = [
        each
        for each in given.samples
        if each.gauge == gauge.key and first <= _s(each, since_ns) <= last
    ]
    for each in found:
        pushed, at_s = gauge.pushed(each.value_mm), _s(each, since_ns)
        leg = legs[0] if at_s <= legs[0].centres_s[-1] else legs[1]
        if in_air(job, pushed) or at_the_end(job, pushed):
            place = place_at(leg.azimuth_at(at_s))
            reads = shown_face(job, each.value_mm)
            if in_air(job, pushed):
                raise Refused("off-contact", at=place, reads=reads)
            raise Refused("end-of-travel", at=place)
    times_s = [first, *(_s(each, since_ns) for each in found), last]
    silent = max(after - before for before, after in pairwise(times_s))
    if silent > GAP_S or len({each.run for each in found}) > 1:
        raise Refused("slow-turn-gap", seconds=Figure(silent, 1))
    return found


def _told_at_places(job: Job, slow: SlowTurn) -> FittedSweep:
    """The circle as readings of the plan's places would tell it, one after the other."""
    where = job.setup.plan.sequence
    step_s = slow.seconds / max(len(where) - 1, 1)
    read = tuple(
        Spot(POSITIONS[place], slow.level_mm(POSITIONS[place], n * step_s), n * step_s)
        for n, place in enumerate(where)
    )
    levels = {place: slow.level_mm(POSITIONS[place], 0.0) for place in where}
    spare = levels["front"] + levels["back"] - levels["left"] - levels["right"]
    drift = slow.drift_mm_s
    circle = Fit(slow.radius_mm, slow.a, slow.b, slow.c_mm, drift, (0.0,) * len(where), spare / 4)
    return FittedSweep(where, read, circle, circle, drift * slow.seconds, slow.scatter_mm, slow)
