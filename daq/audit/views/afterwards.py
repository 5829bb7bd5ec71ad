"""What an event's numbers are told with to a reader of the record: on the gauge's own face."""

from daq.audit.facts import decimals, shown_face, unit_of
from daq.audit.rounds import Measure, Round
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length, with_unit
from daq.words import Figure, Reading, Said, Shown, said


def face(job: Job, face_mm: float, *, plus: bool = False) -> Said:
    """A number of the gauge's face, with its unit."""
    return with_unit(shown_face(job, face_mm, plus=plus))


def fine(job: Job, mm: float) -> Said:
    """A length with one decimal more than the face has: of what several samples show."""
    return with_unit(Shown(mm, unit_of(job), decimals(job) + 1))


def read(job: Job, reading: Reading, *, second: bool = False) -> Said:
    """A reading: its number, how far its samples scatter, how many there are.

    `second`: it is of the other gauge on a bar.
    """
    gauge = job.setup.second_gauge if second else None
    digits, unit = decimals(job, gauge), unit_of(job)
    return said(
        "row-read",
        value=with_unit(Shown(reading.mean_mm, unit, digits)),
        spread=with_unit(Shown(reading.sd_mm, unit, digits + 1)),
        samples=reading.count,
        by="second" if gauge is not None else "first",
    )


def known(*parts: Said | None) -> tuple[Said, ...]:
    """Those that there are."""
    return tuple(part for part in parts if part is not None)


def because(why: Said | str) -> Said | None:
    """The reason given; None where none was."""
    return said("row-why", why=why) if why else None


def measures(job: Job, came: Round) -> tuple[Said, ...]:
    """What a round of another check came to, and what was found odd in it."""
    flaws = (flaw.said for flaw in came.findings)
    again = None if came.usable else said("row-round-again")
    results = (_measure(job, each) for each in came.results)
    return known(said("row-round", n=came.number), because(came.why), *results, *flaws, again)


def _measure(job: Job, each: Measure) -> Said:
    unit = unit_of(job)
    value = length(each.value_mm, unit)
    if each.over_mm is not None:
        value = said("figure-over", figure=value, over=length(each.over_mm, unit, WIDE))
    return said(
        "row-measure",
        name=each.name,
        value=value,
        doubt=length(each.doubt_mm, unit, 1),
        limit="none" if each.limit_mm is None else length(each.limit_mm, unit),
        word="none" if each.word is None else said("word", word=each.word),
        toward="none"
        if each.toward_deg is None
        else said("row-toward", deg=Figure(each.toward_deg, 0)),
        sees="none" if each.sees_mm is None else length(each.sees_mm, unit),
    )
