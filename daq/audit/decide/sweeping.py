"""Full sweeps: one reading at every position and again at the first."""

from dataclasses import dataclass
from typing import cast

from daq.audit.decide.common import Input, Refused, Take
from daq.audit.events import Data, ReadingTaken, StopHere, SweepDone, SweepWanted
from daq.audit.facts import face_text, in_air, points, result, wanted
from daq.audit.parts import AxisResult, Finding, Next
from daq.audit.state import Job
from daq.checks.sweep import findings as look
from daq.checks.sweep.reduce import Point, fit, return_error
from daq.squaring.advice import worst_axis
from daq.words import AXES, POSITIONS, Axis, Command, Position, Reading

LEAST_PRELOAD_MM = 0.2
"""Less than this and a lean can lift the contact off (about 1 mm is usual: common practice,
no source)."""


@dataclass(frozen=True)
class Why:
    """The payload of `again` and of `stop-here`."""

    why: str

    def given(self, question: str) -> str:
        """The reason; refused when it is blank."""
        if not self.why.strip():
            raise Refused(question)
        return self.why.strip()


def place(job: Job, command: Command) -> Position:
    """Where a sweep's take says the gauge is, if that place is still wanted."""
    position = Input(command).payload(Take).position
    open_places = wanted(job)
    if position in open_places:
        return position
    first = open_places[0].capitalize()
    if position is None:
        raise Refused(f"Say where the gauge is: {first} is next.")
    back = " again" if job.taken and open_places[0] == job.taken[0].position else ""
    raise Refused(f"{position.capitalize()} has been read. {first}{back} is next.")


def check_contact(job: Job, reading: Reading) -> None:
    """Refuse a reading of the air, or one in another unit than the audit's."""
    where = f" at {reading.position}" if reading.position else ""
    if in_air(job, job.setup.gauge.pushed(reading.mean_mm)):
        raise Refused(
            f"The contact is not on the surface{where}: the gauge reads "
            f"{face_text(job, reading.mean_mm)}, the same as in the air. Bring it down and "
            "take again. If it is down, the gauge was zeroed: do the touch test again."
        )


def check_unit(job: Job, given: Input) -> None:
    """Refuse a reading in another unit than the audit's: its numbers would not compare."""
    window = given.window
    if job.unit is not None and window and window[-1].unit != job.unit:
        names = {"mm": "millimetres", "in": "inches"}
        raise Refused(
            f"The gauge now shows {names[window[-1].unit]}; this audit reads "
            f"{names[job.unit]}. Press the gauge's unit key, then take again."
        )


def taken(job: Job, given: Input, position: Position) -> ReadingTaken:
    """One reading with its preload; refused when the contact is in the air."""
    check_unit(job, given)
    reading = given.reading(position)
    check_contact(job, reading)
    pushed = job.setup.gauge.pushed(reading.mean_mm)
    if job.free_pushed_mm is None:
        return ReadingTaken(reading, pushed, None, "", given.second(position))
    preload = pushed - job.free_pushed_mm
    if job.setup.gauge.travel - preload < 2 * job.setup.gauge.resolution:
        raise Refused(
            f"The gauge is at the end of its travel at {position}: this is no reading. Set it "
            "with less preload, or bring the head closer by a scale first."
        )
    say = _preload(job, preload, position)
    return ReadingTaken(reading, pushed, preload, say, given.second(position))


def _preload(job: Job, preload: float, position: Position) -> str:
    room = job.setup.gauge.travel - preload
    if preload < LEAST_PRELOAD_MM:
        return f"Little preload at {position}: {face_text(job, preload)} pushed in."
    if room < LEAST_PRELOAD_MM:
        return f"Near the end of the gauge's travel at {position}: {face_text(job, room)} left."
    return ""


def take(job: Job, given: Input) -> tuple[Data, ...]:
    """A reading of the sweep; the last one reduces it."""
    event = taken(job, given, place(job, given.command))
    readings = (*job.taken, event.reading)
    if len(readings) < len(job.setup.plan.sequence):
        return (event,)
    return event, reduce(job, readings)


def reduce(job: Job, readings: tuple[Reading, ...]) -> SweepDone:
    """The sweep's lean, return error, findings and what comes next."""
    pushed = [job.setup.gauge.pushed(r.mean_mm) for r in readings]
    where = [cast(Position, r.position) for r in readings]
    read = [
        Point(POSITIONS[p], m, float(i)) for i, (p, m) in enumerate(zip(where, pushed, strict=True))
    ]
    fitted = fit(read, job.setup.machine.sweep_radius, drift=True)
    back = return_error(pushed[0], pushed[-1])
    known = _at_the_end(where, pushed)
    side = result(job, "side", fitted.d_side_mm)
    nod = result(job, "nod", fitted.d_nod_mm)
    found = _findings(job, back, fitted.spare_mm, min(side.limit_mm, nod.limit_mm))
    usable = not any(f.blocking for f in found)
    return SweepDone(
        number=len(job.sweeps) + 1,
        purpose=job.purpose,
        why=job.again_why,
        center_pushed_mm=fitted.c_mm,
        side_slope=fitted.a,
        nod_slope=-fitted.b,
        return_error_mm=back,
        spare_mm=fitted.spare_mm,
        points=points(known),
        findings=found,
        usable=usable,
        side=side,
        nod=nod,
        next=after_sweep(job, side, nod) if usable else Next(job.step),
    )


def _at_the_end(where: list[Position], pushed: list[float]) -> dict[Position, float]:
    """Each position's value as it would read at the end of the sweep, a steady drift assumed."""
    last = len(pushed) - 1
    drift = return_error(pushed[0], pushed[-1]) / last
    readings = zip(where, pushed, strict=True)
    return {p: m + drift * (last - i) for i, (p, m) in enumerate(readings)}


def _findings(job: Job, back: float, spare: float | None, tolerance: float) -> tuple[Finding, ...]:
    unit = job.unit or job.setup.machine.unit
    resolution = job.setup.gauge.resolution
    earlier = job.sweeps[-1].spare_mm if job.sweeps else None
    found = [look.return_error_past(back, look.return_limit_mm(resolution, tolerance), unit)]
    if spare is not None:
        limit = look.spare_limit_mm(resolution, tolerance, job.spread_mm / 8)
        found.append(look.spare_past(spare, limit, unit, earlier_mm=earlier))
    return tuple(Finding(f.code, f.say, f.blocking) for f in found if f is not None)


def after_sweep(job: Job, side: AxisResult, nod: AxisResult) -> Next:
    """The worst axis that is out is next; nothing is turned when both are in, or on a check."""
    worst = outside({"side": side, "nod": nod})
    if worst is None or job.finishing or job.reason == "check-only":
        return Next("clear")
    return Next("park", worst)


def outside(results: dict[Axis, AxisResult]) -> Axis | None:
    """The axis furthest outside its own tolerance, or None: an axis inside is left alone."""
    return worst_axis(
        {a: results[a].error_mm for a in AXES}, {a: results[a].limit_mm for a in AXES}
    )


def again(job: Job, given: Input) -> tuple[Data, ...]:
    """Another full sweep, with the reason it is wanted for."""
    why = given.payload(Why).given("Say why another sweep is wanted: it is listed with its reason.")
    return (SweepWanted(why, sweep_next(job)),)


def sweep_next(job: Job) -> Next:
    """To a full sweep: one that counts is taken with everything tight."""
    if job.loose:
        raise Refused("Tighten the bolts first: a sweep counts only with all tight.")
    return Next(job.purpose)


def stop_here(job: Job, given: Input) -> tuple[Data, ...]:
    """No more moves: report what is, after a full sweep if bolts were loosened since the last."""
    why = given.payload(Why).given("Say why the head is left as it is: the record will show it.")
    proof = sweep_next(job)
    return (StopHere(why, proof if job.disturbed else Next("clear")),)
