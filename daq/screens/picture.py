"""What the wall draws at each step: its whole picture changes with what hands do."""

from daq.audit.facts import tap_of, turned_to
from daq.audit.state import Job
from daq.audit.views.places import next_place
from daq.audit.views.shapes import Picture

_TOUCHED = ("touch-free", "touch-push", "touch-back")


def picture(job: Job) -> Picture:
    """The picture of the step an open audit stands at."""
    to = turned_to(job)
    if job.step == "loosen":
        return "circle"
    if tap_of(job) is not None or (to is not None and not to.by_hand):
        return "adjust"
    if job.step == "tighten":
        return "bolts"
    if job.step in ("clear", "sign"):
        return "verdict"
    if job.step == "stations":
        return "stations"
    if job.step in _TOUCHED:
        return "touch"
    return "lines" if next_place(job) is None else "circle"
