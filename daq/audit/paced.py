"""How long each step took, by the record's own times: what the next step is chosen by."""

from daq.audit import events as e
from daq.audit.reasons import REASONS
from daq.audit.state import Job
from daq.squaring.pace import StepTimes
from daq.words import POSITIONS, Position, Stamp


def paced_by(pace: StepTimes, job: Job, data: e.Data, stamp: Stamp) -> StepTimes:
    """The pace after an event of the open audit, seen against the last step; `job` before it.

    Practice tells nothing of it, and what a restart came between says nothing.
    """
    if job.since.boot != stamp.boot or not REASONS[job.reason].kept:
        return pace
    seconds = (stamp.mono_ns - job.since.mono_ns) / 1e9
    match data:
        case e.Loosened(both=False) if job.step == "loosen":
            return pace.after("crack", seconds)
        case e.Moved() if job.step == "move":
            return pace.after("turn", seconds)
        case e.Tightened(both=False) if job.step == "tighten" and not job.bolts.steps:
            return pace.after("tighten", seconds)
        case e.SweepDone(slow=slow) if slow is not None:
            return pace.after("round", seconds)
        case e.ReadingTaken(reading=reading) if job.reads.taken and reading.position is not None:
            return _swung(pace, job, reading.position, seconds)
    return pace


def _swung(pace: StepTimes, job: Job, to: Position, seconds: float) -> StepTimes:
    """The pace after a reading elsewhere than the one before: what is not reading is swinging."""
    if job.gauge.at is None or job.gauge.at == to:
        return pace
    degrees = abs((POSITIONS[to] - POSITIONS[job.gauge.at] + 180.0) % 360.0 - 180.0)
    swung = seconds - pace.of("read")
    return pace.after("quarter", 90.0 * swung / degrees)
