"""What a whole sweep leads to: its event, and what it teaches of the head."""

from dataclasses import replace

from daq.audit.events import Data, SweepDone
from daq.audit.facts import as_seen
from daq.audit.head import reading_sd, standing
from daq.audit.lesson import teach
from daq.audit.parts import Flaw
from daq.audit.state import Job
from daq.squaring.recognise import is_strange, surprise
from daq.squaring.story import Happened
from daq.words import said

ELSEWHERE = Flaw(said("elsewhere"), blocking=False)


def finished(job: Job, done: SweepDone) -> tuple[Data, ...]:
    """The sweep, said to be of a head that stands elsewhere where it does; and its lesson."""
    if not done.usable or not job.head.story:
        return (done,)
    seen = as_seen(done.points, returned=done.returned)
    if not done.turned:
        expected = standing(job, (Happened("zeroed"),))
        if is_strange(surprise(expected, seen, reading_sd(job))):
            done = replace(done, elsewhere=True, findings=(*done.findings, ELSEWHERE))
    after = Happened("unknown" if done.turned or done.elsewhere else "zeroed")
    return done, *teach(job, standing(job, (after, *seen)))
