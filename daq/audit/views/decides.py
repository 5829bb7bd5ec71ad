"""What can be decided with this gauge, ring and radius, and what would help, in words."""

from collections.abc import Iterator
from dataclasses import replace

from daq.audit.decidable.parts import NOW, Decidable, Help
from daq.audit.facts import unit_of, word_of
from daq.audit.state import Job
from daq.audit.views.figures import WIDE, length
from daq.audit.views.step import Action
from daq.units import FINE
from daq.words import AXES, Axis, Said, Shown, Unit, said


def latest(job: Job) -> Decidable | None:
    """That of the latest sweep, while the head stands as it was swept."""
    sweep = job.sweeps.latest
    return None if sweep is None or job.sweeps.disturbed else sweep.decidable


def _in_doubt(job: Job) -> Decidable | None:
    """The same where "in" cannot be had for the asking: before a move, or too close to call."""
    found, sweep = latest(job), job.sweeps.latest
    if found is None or sweep is None or found.comfortable:
        return None
    return found if job.step == "park" or _too_close(job) else None


def _too_close(job: Job) -> bool:
    sweep = job.sweeps.latest
    return job.step == "clear" and sweep is not None and word_of(sweep) == "close"


def notes(job: Job) -> tuple[Said, ...]:
    """What the console says of it: nothing where all is well."""
    found = _in_doubt(job)
    if found is None:
        return ()
    first = (_zone(job, found.worst, found),) if job.step == "park" and found.worst else ()
    return (*first, *(_help(job, found, each) for each in _offered(found)))


def every(job: Job, found: Decidable) -> tuple[Said, ...]:
    """All of it, for whoever looks at the numbers behind a verdict."""
    zones = (_zone(job, axis, found) for axis in AXES)
    return (*zones, *(_help(job, found, each) for each in found.helps))


def can_be_in(job: Job, axis: Axis) -> bool | None:
    """Whether this axis could be called in at all; None where that is not known."""
    found = latest(job)
    return None if found is None else found.axes[axis].zone_mm is not None


def gaining(job: Job, buttons: list[Action]) -> list[Action]:
    """These buttons, and what turning something half round would bring on those that do it.

    They come first where it would bring something.
    """
    found = _in_doubt(job)
    if found is None:
        return buttons
    told = [_gains(unit_of(job), found, each) for each in buttons]
    return sorted(told, key=lambda each: each in buttons)


def _gains(unit: Unit, found: Decidable, button: Action) -> Action:
    brings = [each for each in found.helps if each.way == button.payload.get("turned")]
    if not brings:
        return button
    was, now = _bare(found.expanded_mm, unit), length(brings[0].expanded_mm, unit, 1)
    return replace(button, say=said("turned-gains", turned=brings[0].way, was=was, now=now))


def _offered(found: Decidable) -> Iterator[Help]:
    """The cheapest that can be done now, and the best where that is another."""
    best = None if found.best is None else found.helps[found.best]
    now = next((each for each in found.helps if each.way in NOW), None)
    if now is not None and now is not best:
        yield now
    if best is not None:
        yield best


def _zone(job: Job, axis: Axis, found: Decidable) -> Said:
    unit, left, say = unit_of(job), found.axes[axis], job.setup.machine.axis(axis).say
    if left.zone_mm is None:
        return said("decides-nothing", axis=say, by=length(left.expanded_mm, unit, 1))
    within, often = length(left.zone_mm, unit, 1), _often(left.small)
    return said("decides-within", axis=say, within=within, often=often)


def _help(job: Job, found: Decidable, each: Help) -> Said:
    unit = unit_of(job)
    return said(
        "decides-help",
        way=each.way,
        moves="no" if job.step == "clear" else "yes",
        enough="yes" if found.enough and each is found.helps[found.best or 0] else "no",
        was=_bare(found.expanded_mm, unit),
        now=length(each.expanded_mm, unit, 1),
        radius=length(each.radius_mm, unit, WIDE),
        gauge=each.gauge,
        often=_often(each.likely),
    )


def _bare(mm: float, unit: Unit) -> Shown:
    """The same decimals as `length` gives, its unit to follow."""
    return Shown(mm, unit, FINE[unit] + 1)


def _often(likely: float) -> int:
    """So many times in ten."""
    return round(10.0 * likely)
