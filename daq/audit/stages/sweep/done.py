"""What a whole sweep leads to: its event, and what it teaches of the head."""

from dataclasses import replace

from daq.audit.events import Data, SweepDone
from daq.audit.facts import as_seen
from daq.audit.guess import LIKELY, angle, comes_again, guessed, is_ram, way
from daq.audit.head import reading_sd, standing
from daq.audit.lesson import teach
from daq.audit.parts import Flaw
from daq.audit.stages.sweep.ram_asked import KNOCKED, asked
from daq.audit.state import Job
from daq.squaring.recognise import TurnSeen, is_reversed, is_strange, surprise
from daq.squaring.story import Happened, Story, unread_turns
from daq.words import Axis, said

ELSEWHERE = Flaw(said("elsewhere"), blocking=False)


def finished(job: Job, done: SweepDone, *, settled: str = "") -> tuple[Data, ...]:
    """The sweep, said to be of a head that stands elsewhere where it does; and its lesson.

    Or the question whether the ram is swung; `settled`: what was answered to that.
    """
    if not done.usable or not job.head.story:
        return (done,)
    seen = as_seen(done.points, done)
    if not done.turned:
        expected, turned = standing(job, (Happened("zeroed"),)), _turned(job, seen)
        odd = is_strange(surprise(expected, seen, reading_sd(job)))
        if odd or (turned[1] is not None and is_reversed(turned[1])):
            done = _guessed(job, done, seen, *turned, odd=odd, settled=settled)
            asks = not settled and done.used is None and job.sweeps.purpose == "final"
            rams = [guess for guess in done.guesses[:1] if is_ram(guess)]
            if asks and rams:
                return (asked(*rams),)
            head = job.head.taking(done.used).reversing(done.backwards, job.setup.learned)
            job = replace(job, head=head)
    after = Happened("unknown" if done.turned or done.elsewhere else "zeroed")
    return done, *teach(job, standing(job, (after, *seen)))


def _guessed(
    job: Job,
    done: SweepDone,
    seen: Story,
    axis: Axis | None,
    turn: TurnSeen | None,
    *,
    odd: bool,
    settled: str,
) -> SweepDone:
    """The sweep with what may have happened since the last reading, or since `axis` was turned.

    A ram that is likely to be swung is named, and taken for swung where it was named before; an
    axis that was turned since and answered the other way round is taken for one that does.
    """
    guesses = guessed(job, (*job.head.story, Happened("zeroed")), seen, axis, turn)
    if axis is not None and guesses[0].kind == "other-side" and guesses[0].share >= LIKELY:
        say = said("answered-backwards", axis=job.setup.machine.axis(axis).say)
        named = (*done.findings, Flaw(say, blocking=False))
        return replace(done, guesses=guesses, backwards=axis, findings=named)
    if not odd:
        return done
    if settled == KNOCKED.key or not is_ram(guesses[0]):
        elsewhere = (*done.findings, ELSEWHERE)
        return replace(done, elsewhere=True, guesses=guesses, findings=elsewhere)
    used = None if settled else comes_again(job, guesses)
    far, to = angle(guesses[0]), way(guesses[0])
    looks = said("ram-looks-swung", angle=far, way=to)
    say = said("ram-taken-for-swung", angle=far, way=to) if used else looks
    named = (*done.findings, Flaw(say, blocking=False))
    return replace(done, elsewhere=used is None, guesses=guesses, used=used, findings=named)


def _turned(job: Job, read: Story) -> tuple[Axis, TurnSeen] | tuple[None, None]:
    """The axis that was turned unread since the last reading, the one that is further off."""
    across, story = job.setup.machine.diameter, job.head.story
    expected, found = standing(job), standing(job, (Happened("unknown"), *read))
    seen = {}
    for axis, at in unread_turns(story).items():
        was = standing(replace(job, head=replace(job.head, story=story[:at]))).lean(axis)
        turned = (expected.lean(axis) - was) * across
        seen[axis] = TurnSeen(turned, (found.lean(axis) - was) * across)
    if not seen:
        return None, None
    return max(seen.items(), key=lambda each: abs(each[1].found_mm - each[1].expected_mm))
