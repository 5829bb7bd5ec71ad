"""Which end of what a check found askew is tapped, how far, and to which reading."""

from typing import Final

from daq.audit.facts import certain
from daq.audit.rounds import Chosen, Tap
from daq.audit.state import Job
from daq.words import Reading, Said, said

TAPPED: Final = said("was-tapped")
"""Why a round is read again after a tap."""

_BELIEVED: Final = (0.8, 10.0)
"""By how much the ends' difference may change for each mm tapped, for it to be believed."""

_BOTH_SLACK: Final = 1.5
"""From here on it turned about no bolt near the other end (common practice, no source)."""


def tap(job: Job, check: Chosen, readings: tuple[Reading, ...]) -> Tap:
    """From the two ends as they were read last: the nearer one is tapped away from the gauge.

    By as much as they differ where it turns about the other end. How it turned before is taken
    from what the last tap changed.
    """
    gauge, stations = job.setup.gauge, certain(job.ahead).stations
    pushed = {
        s.key: gauge.pushed(r.mean_mm)
        for s, r in zip(stations, readings, strict=True)
        if s.key in check.ends
    }
    far, near = sorted(pushed, key=pushed.__getitem__)
    apart_mm = pushed[near] - pushed[far]
    by_mm = apart_mm / _change(job, near, apart_mm)
    at = next(station for station in stations if station.key == near)
    return Tap(
        end=check.ends[near],
        station=at,
        apart_mm=apart_mm,
        by_mm=by_mm,
        from_face_mm=gauge.face(pushed[near]),
        stop_face_mm=gauge.face(pushed[near] - by_mm),
    )


def _change(job: Job, near: str, apart_mm: float) -> float:
    """By how much both ends come closer to each other for each mm that `near` is tapped.

    A hinge at the share f of the way from the tapped end makes 1/f of it (a straight line turned
    about a point of it). At the other end the other bolt is nipped, which is as far; where none
    was, the hinge stays, and makes 1/(1 − f).
    """
    before = job.round.tap if job.round is not None else None
    tapped = isinstance(job.reads.why, Said) and job.reads.why.code == TAPPED.code
    if before is None or not tapped or not before.by_mm:
        return 1.0
    same = before.station.key == near
    left_mm = apart_mm if same else -apart_mm
    change = (before.apart_mm - left_mm) / before.by_mm
    if not _BELIEVED[0] <= change <= _BELIEVED[1]:
        return 1.0
    return change if same or change < _BOTH_SLACK else change / (change - 1.0)
