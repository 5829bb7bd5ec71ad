"""The lean as one vector, where the shop judges it so: what the axes by themselves do not show."""

from typing import cast

from daq.audit.facts import judged_as_one, together
from daq.audit.parts import AxisResult, Word
from daq.audit.state import Closed, Job
from daq.metrology.rule import Judged

AS_A_WHOLE: dict[Word, str] = {
    "out": "Each axis is inside; the lean as a whole is out.",
    "close": "Each axis is inside; the lean as a whole is too close to call.",
}


def whole(shown: Job | Closed, side: AxisResult, nod: AxisResult) -> Judged | None:
    """The lean judged as one, in an open audit or a closed one; None where each axis counts."""
    # Nothing but the setup is asked of it, and both have one.
    return judged_as_one(cast(Job, shown), side, nod)


def good_enough(shown: Job | Closed, result: AxisResult, side: AxisResult, nod: AxisResult) -> bool:
    """Whether the gauge can call this axis in, or the whole of the lean where that counts."""
    judged = whole(shown, side, nod)
    return result.good_enough if judged is None else judged.good_enough


def notes(job: Job) -> tuple[str, ...]:
    """What is to be said of the whole when both axes are inside and it is not."""
    if len(job.results) < 2:
        return ()
    side, nod = job.results["side"], job.results["nod"]
    judged = whole(job, side, nod)
    if judged is None or judged.word == "in" or together(side, nod) != "in":
        return ()
    return (AS_A_WHOLE[judged.word],)
