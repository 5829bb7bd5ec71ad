"""The lean as one vector, where the shop judges it so: what the axes by themselves do not show."""

from daq.audit.facts import together
from daq.audit.parts import AxisResult, Whole
from daq.audit.state import Job
from daq.words import Said, Word, said

AS_A_WHOLE: dict[Word, Said] = {"out": said("whole-out"), "close": said("whole-close")}


def good_enough(whole: Whole | None, result: AxisResult) -> bool:
    """Whether the gauge can call this axis in, or the whole of the lean where that counts."""
    return result.good_enough if whole is None else whole.good_enough


def notes(job: Job) -> tuple[Said, ...]:
    """What is to be said of the whole when both axes are inside and it is not."""
    if job.axes.whole is None or job.axes.whole.word == "in":
        return ()
    inside = together(*job.axes.results.values()) == "in"
    return (AS_A_WHOLE[job.axes.whole.word],) if inside else ()
