"""A check that is none of the head, as the screens show it: its stations, and what came out."""

from daq.audit.facts import shown_face, station_next, unit_of
from daq.audit.parts import ReadAt
from daq.audit.rounds import Chosen, ComparedWith, Measure, Round
from daq.audit.setup import MachineSetup
from daq.audit.state import Closed, Job
from daq.audit.views.figures import WIDE, length
from daq.audit.views.shapes import AxisView, Look, VerdictView
from daq.audit.views.station_view import StationView
from daq.audit.views.step import Action, Come, Swing
from daq.units import FINE
from daq.words import POSITIONS, Figure, Said, Shown, Unit, Word, said
from daq.words.said import Value

_READ = ("tap", "clear", "sign")
_NOT_GOOD_ENOUGH = said("gauge-not-good-enough")


def results(came: Round | None, unit: Unit) -> tuple[AxisView, ...]:
    """Everything that came out, a row each."""
    return () if came is None else tuple(_row(result, unit) for result in came.results)


def latest(job: Job) -> tuple[AxisView, ...]:
    """What the latest round came to, once nothing more is read."""
    return results(job.round, unit_of(job)) if job.step in _READ else ()


def _row(result: Measure, unit: Unit) -> AxisView:
    doubt = said("give-or-take", by=Shown(result.doubt_mm, unit, FINE[unit] + 1), unit=unit)
    limit_mm, over_mm = result.limit_mm, result.over_mm
    return AxisView(
        axis="",
        say=result.name,
        value=Shown(result.value_mm, unit, FINE[unit], plus=_signed(result)),
        low=_toward(result),
        limit=None if limit_mm is None else Shown(limit_mm, unit, FINE[unit]),
        over=None if over_mm is None else length(over_mm, unit, WIDE),
        word="" if result.sees_mm is not None else result.word or "",
        note=doubt if result.good_enough else _NOT_GOOD_ENOUGH,
        zone=result.value_mm / limit_mm if limit_mm else None,
    )


def _signed(result: Measure) -> bool:
    return result.value_mm < 0.0 or result.sees_mm is not None


def _toward(result: Measure) -> Said | None:
    """Where a vector points, if that can be told."""
    if result.toward_deg is None or (result.toward_doubt_deg or 0.0) >= 180.0:
        return None
    return said("highest-at", angle=Figure(result.toward_deg, 0))


def stations(job: Job) -> tuple[StationView, ...]:
    """Every reading of the round under way, with what was read."""
    if job.step != "stations" or job.ahead is None:
        return ()
    read = [shown_face(job, reading.mean_mm) for reading in job.reads.taken]
    todo = job.ahead.stations[len(read) :]
    done = zip(job.ahead.stations, read, strict=False)
    return (
        *(StationView(station.name, value, "done") for station, value in done),
        *(StationView(s.name, None, "todo" if i else "next") for i, s in enumerate(todo)),
    )


def actions(job: Job) -> list[Action]:
    """The buttons while a round is read."""
    station = {"station": station_next(job).key}
    take = Action("take", said("take-reading"), station, primary=True)
    return [take, Action("touch", said("touch-again"))]


def came_to(check: Chosen, word: Word) -> Said:
    """The check and its verdict, in a few words."""
    if check.against is not None:
        return said("look-came-to", check=check.name, word=word)
    return said("check-came-to", check=check.name, word=word)


def sees(job: Job) -> tuple[Said, ...]:
    """What a look would have noticed, and what it is blind to, once it was read."""
    if job.check is None or job.round is None:
        return ()
    return seen(job.check, job.round, job.setup.machine, unit_of(job))


def seen_then(last: Closed) -> tuple[Said, ...]:
    """The same once it is signed."""
    if last.check is None or last.signed is None or last.signed.round is None:
        return ()
    return seen(last.check, last.signed.round, last.setup.machine, last.unit)


def seen(check: Chosen, came: Round, machine: MachineSetup, unit: Unit) -> tuple[Said, ...]:
    """The same of any round."""
    if check.against is None:
        return ()
    told = (_noticed(result, check.against, unit) for result in came.results)
    return (*told, blind(check.against, machine))


def blind(against: ComparedWith, machine: MachineSetup) -> Said:
    """What two spots cannot see."""
    if against.blind == "side" or against.blind == "nod":
        return said("blind-to-axis", axis=machine.axis(against.blind).say)
    return said("blind-to-corner", corner=against.blind)


def _noticed(result: Measure, against: ComparedWith, unit: Unit) -> Said:
    return said(
        "would-have-seen",
        size=Shown(result.sees_mm or 0.0, unit, FINE[unit]),
        over=Shown(against.over_mm, unit, FINE[unit] + WIDE),
        unit=unit,
        day=against.day,
    )


def verdict(job: Job) -> VerdictView | None:
    """What the latest round says, once nothing more is read."""
    if job.check is None or job.round is None or job.step not in _READ:
        return None
    return as_word(job.check, job.round.word)


def as_word(check: Chosen, word: Word) -> VerdictView:
    """A round's word; a look's is none of a tolerance."""
    look: Look = "same" if word == "in" else "look"
    return VerdictView(word if check.against is None else look, came_to(check, word))


def before(job: Job) -> tuple[Said, ...]:
    """What a look is blind to, while it is read."""
    against = job.check.against if job.check is not None else None
    return () if against is None else (blind(against, job.setup.machine),)


def next_at(job: Job) -> Said:
    """What hands do to come to the station that is read next."""
    return station_next(job).hands


def come(job: Job) -> Come | Swing:
    """The same for hands that read no sentence."""
    station = station_next(job)
    spots = {spot: spot for spot in POSITIONS}
    return Swing(spots[station.key]) if station.key in spots else there(station)


def there(station: ReadAt) -> Come:
    """The same of one station."""
    hands = station.hands
    return Come(hands.code, {name: _plain(value) for name, value in hands.of.items()})


def _plain(value: Value) -> float | int | str:
    match value:
        case Shown():
            return value.mm
        case Figure():
            return value.value
        case int() | str():
            return value
    raise TypeError(f"{value!r} is nothing hands come to")


def sets_on(job: Job) -> bool:
    """Whether the contact is set on anew there: it stays on all through a lap."""
    ahead = job.ahead.stations if job.ahead is not None else ()
    return not job.reads.taken or station_next(job).lap != ahead[len(job.reads.taken) - 1].lap


def comes_back(job: Job) -> bool:
    """Whether that station was read before in this round."""
    ahead = job.ahead.stations if job.ahead is not None else ()
    return station_next(job).key in [station.key for station in ahead[: len(job.reads.taken)]]
