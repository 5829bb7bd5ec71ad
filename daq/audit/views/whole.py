"""The lean as one vector, where the shop judges it so: what the axes by themselves do not show."""

from daq.audit.facts import judged_as_one, together
from daq.audit.parts import AxisResult, Word
from daq.audit.state import Closed, Job

AS_A_WHOLE: dict[Word, str] = {
    "out": "Each axis is inside; the lean as a whole is out.",
    "close": "Each axis is inside; the lean as a whole is too close to call.",
}


def good_enough(shown: Job | Closed, result: AxisResult, side: AxisResult, nod: AxisResult) -> bool:
    """Whether the gauge can call this axis in, or the whole of the lean where that counts."""
    judged = judged_as_one(shown, side, nod)
    return result.good_enough if judged is None else judged.good_enough


def notes(job: Job) -> tuple[str, ...]:
    """What is to be said of the whole when both axes are inside and it is not."""
    if len(job.results) < 2:
        return ()
    side, nod = job.results["side"], job.results["nod"]
    judged = judged_as_one(job, side, nod)
    if judged is None or judged.word == "in" or together(side, nod) != "in":
        return ()
    return (AS_A_WHOLE[judged.word],)
