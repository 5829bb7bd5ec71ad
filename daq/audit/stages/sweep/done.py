"""What a whole sweep leads to: its event, and what it teaches of the head."""

from dataclasses import replace

from daq.audit.events import Data, SweepDone
from daq.audit.facts import as_seen
from daq.audit.guess import angle, comes_again, guessed, is_ram, way
from daq.audit.head import reading_sd, standing
from daq.audit.lesson import teach
from daq.audit.parts import Flaw
from daq.audit.state import Job
from daq.squaring.recognise import is_strange, surprise
from daq.squaring.story import Happened, Story
from daq.words import said

ELSEWHERE = Flaw(said("elsewhere"), blocking=False)


def finished(job: Job, done: SweepDone) -> tuple[Data, ...]:
    """The sweep, said to be of a head that stands elsewhere where it does; and its lesson."""
    if not done.usable or not job.head.story:
        return (done,)
    seen = as_seen(done.points, done)
    if not done.turned:
        expected = standing(job, (Happened("zeroed"),))
        if is_strange(surprise(expected, seen, reading_sd(job))):
            done = _guessed(job, done, seen)
            job = replace(job, head=job.head.taking(done.used))
    after = Happened("unknown" if done.turned or done.elsewhere else "zeroed")
    return done, *teach(job, standing(job, (after, *seen)))


def _guessed(job: Job, done: SweepDone, seen: Story) -> SweepDone:
    """The sweep with what may have happened since the last reading.

    A ram that is likely to be swung is named, and taken for swung where it was named before.
    """
    guesses = guessed(job, (*job.head.story, Happened("zeroed")), seen)
    if not is_ram(guesses[0]):
        elsewhere = (*done.findings, ELSEWHERE)
        return replace(done, elsewhere=True, guesses=guesses, findings=elsewhere)
    used = comes_again(job, guesses)
    far, to = angle(guesses[0]), way(guesses[0])
    looks = said("ram-looks-swung", angle=far, way=to)
    say = said("ram-taken-for-swung", angle=far, way=to) if used else looks
    named = (*done.findings, Flaw(say, blocking=False))
    return replace(done, elsewhere=used is None, guesses=guesses, used=used, findings=named)
