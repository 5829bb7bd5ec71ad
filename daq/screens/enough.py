"""Whether a head is good enough for a job, as page and program are told."""

import datetime

from daq.audit.answers import GoodEnough
from daq.units import FINE
from daq.words import Said, Shown, Unit, said
from daq.words.enough import EnoughView


def enough_view(found: GoodEnough, unit: Unit, today: str) -> EnoughView:
    """An answer in words; `today`: the date, UTC."""
    zone_mm, kind = found.callout.one.zone, found.callout.kind
    does = Shown(found.does_mm, unit, FINE[unit])
    by = Shown(found.doubt_mm, unit, FINE[unit])
    zone = Shown(zone_mm, unit, FINE[unit])
    over = said("callout-of", of=kind)
    say = said("enough", word=found.word, over=over, does=does, by=by, zone=zone, unit=unit)
    if found.word == "close" and not found.good_enough:
        say = said("and-then", first=say, next=said("enough-gauge"))
    days = _days(found.day, today)
    return EnoughView(
        word=found.word,
        say=say,
        basis=_basis(found, days),
        since=said("enough-since", open="no" if found.day else "yes"),
        alone=said("enough-alone", of=kind),
        does_mm=found.does_mm,
        doubt_mm=found.doubt_mm,
        zone_mm=zone_mm,
        unit=unit,
        audit=found.audit,
        day=found.day,
        days=days,
    )


def _basis(found: GoodEnough, days: int) -> Said:
    if not found.day:
        return said("enough-fresh", audit=found.short)
    return said("enough-signed", audit=found.short, day=found.day, days=days)


def _days(day: str, today: str) -> int:
    if not day:
        return 0
    whole = datetime.date.fromisoformat(today) - datetime.date.fromisoformat(day)
    return max(0, whole.days)
