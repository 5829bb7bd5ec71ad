"""What would help to decide: each computed as if it were so, by the real budget and rule."""

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from daq.audit.decidable.left import Case, chance, left
from daq.audit.decidable.parts import Decidable, Help, Left, Way
from daq.audit.facts import word_of
from daq.audit.held.sweeps import ReadSoFar
from daq.audit.next_move import wanting, wants_move
from daq.audit.parts import AxisResult, Turned
from daq.audit.setup import GaugeSetup, MachineSetup
from daq.audit.state import Job
from daq.checks.sweep.plan import RADII, plan_of
from daq.checks.sweep.reduce import Fit, Spot
from daq.checks.sweep.slots import next_clear
from daq.checks.sweep.terms import ON_THE_TABLE
from daq.words import AXES, POSITIONS, Axis, Both

COMFORTABLE: Final = 0.75
"""A move that misses costs three to four minutes until the next sweep, turning the ring or the
like one: below this chance it pays (common practice, no source)."""
_CLEARLY: Final = 0.02
_LESS: Final = 0.9
"""What neither betters the chance by so much nor leaves this part of the doubt is no help."""

_QUARTER_S: Final = 8.0
_READ_S: Final = 3.0
_TURN_S: Final = 20.0
_CLAMP_S: Final = 60.0
_ANEW_S: Final = 120.0
"""A swing by a quarter, a reading, a ring turned, an arm clamped; an audit opened, its cards and
touch test (common practice, no source)."""

_LARGER: Final = (1.25, 1.5, 2.0)
_STEP_MM: Final = {"mm": 5.0, "in": 12.7}
"""Radii are named by these steps."""


def decidable(
    job: Job, spots: tuple[Spot, ...], fitted: Fit, return_mm: float, scatter_mm: float
) -> Decidable:
    """What can be decided after the latest sweep of `job`, and what would help."""
    case = _as_is(job, spots, fitted, return_mm, scatter_mm)
    found = left(case)
    likely = chance(case, found)
    done = job.sweeps.done[-1]
    word = word_of(done)
    enough = likely >= COMFORTABLE if case.moving else word != "close"
    open_ = [axis for axis in AXES if done.results[axis].word != "in"]
    worst = min(open_, key=lambda axis: found[axis].small, default=None)
    told = Decidable(found, _worse(found), likely, enough, worst)
    if enough or word == "in":
        return told
    helps = tuple(sorted(_clearly(case, told), key=lambda each: each.minutes))
    suffice = [i for i, each in enumerate(helps) if each.likely >= COMFORTABLE]
    if suffice:
        return replace(told, helps=helps, best=suffice[0], enough=True)
    most = max(
        range(len(helps)), key=lambda i: (helps[i].likely, -_doubt(case, helps[i])), default=None
    )
    return replace(told, helps=helps, best=most)


def _clearly(case: Case, told: Decidable) -> Iterator[Help]:
    """What would clearly help."""
    for each in _helps(case):
        likelier = each.likely >= told.likely + _CLEARLY
        if likelier or _doubt(case, each) <= _LESS * told.expanded_mm:
            yield each


def _doubt(case: Case, each: Help) -> float:
    """Its uncertainty as it would be across the circle that was read."""
    radius_mm = case.job.setup.machine.sweep_radius
    return each.expanded_mm * radius_mm / (each.radius_mm or radius_mm)


def _as_is(
    job: Job, spots: tuple[Spot, ...], fitted: Fit, return_mm: float, scatter_mm: float
) -> Case:
    """The sweep that decides: the next one over this surface, or this one if nothing is moved."""
    done = job.sweeps.done[-1]
    moves = done.next.step == "park"
    if moves:
        job = replace(job, reads=ReadSoFar(), sweeps=replace(job.sweeps, added=done.added))
    moving = _moving(job, done.results) if moves else frozenset[Axis]()
    return Case(job, spots, fitted, return_mm, scatter_mm, done.results, moving, done.next.axis)


def _moving(job: Job, results: Both[AxisResult]) -> frozenset[Axis]:
    """The axes to be moved: of a lean judged as one the other after the worse, too."""
    wanted = wanting(job, results)
    if job.setup.machine.verdict.together == "vector":
        return frozenset(
            axis for axis in AXES if axis in wanted or wants_move(job, axis, results[axis])
        )
    return frozenset(wanted)


def _worse(found: Both[Left]) -> float:
    return max(each.expanded_mm for each in found.values())


def _helped(case: Case, way: Way, seconds: float) -> Help:
    found = left(case)
    zones = [each.zone_mm for each in found.values() if each.zone_mm is not None]
    zone_mm = min(zones) if len(zones) == len(found) else None
    return Help(way, seconds / 60.0, zone_mm, _worse(found), chance(case, found))


def _helps(case: Case) -> Iterator[Help]:
    job, places = case.job, len(case.spots) - 1
    done = "" if case.moving else job.sweeps.done[-1].turned
    if job.setup.machine.seat_turns and done != "ring":
        yield _helped(_turned(case, "ring"), "ring", _TURN_S + _swept_s(places))
    if job.setup.second_gauge is None and done != "arm":
        yield _helped(_turned(case, "arm"), "arm", _CLAMP_S + _swept_s(places))
    if job.setup.second_gauge is not None:
        return
    if places < len(POSITIONS):
        eight = len(POSITIONS)
        more_s = _swept_s(eight) - _swept_s(places)
        yield _helped(_with_eight(case), "eight", _ANEW_S + _swept_s(eight) + more_s)
    yield from _larger(case)
    for gauge in job.setup.others:
        given = _helped(_with_gauge(case, gauge), "gauge", _ANEW_S + _CLAMP_S + _swept_s(places))
        yield replace(given, gauge=gauge.name)


def _swept_s(places: int) -> float:
    """How long a sweep takes: round to the last place, back the same way, a reading at each."""
    return 2.0 * (4.0 - 4.0 / places) * _QUARTER_S + (places + 1) * _READ_S


def _turned(case: Case, what: Turned) -> Case:
    """The sweep that decides is taken once more with the ring or the arm turned half round."""
    job = replace(case.job, reads=ReadSoFar(turned=what))
    aimed = Both.of(lambda axis: case.budget(axis).u_mm) if case.moving else None
    return replace(case, job=job, aimed_u_mm=aimed)


def _anew(case: Case, machine: MachineSetup) -> Case:
    """In an audit opened anew with another file: nothing turned is known of it."""
    job = case.job
    setup = replace(job.setup, machine=machine, plan=plan_of(machine.positions))
    sweeps = replace(job.sweeps, added=())
    return replace(case, job=replace(job, setup=setup, reads=ReadSoFar(), sweeps=sweeps))


def _with_eight(case: Case) -> Case:
    every = tuple(POSITIONS)
    last = max(spot.order for spot in case.spots)
    azimuths = [POSITIONS[place] for place in (*every, every[0])]
    spots = tuple(Spot(azimuth, 0.0, last * i / len(every)) for i, azimuth in enumerate(azimuths))
    machine = replace(case.job.setup.machine, positions=every)
    return replace(_anew(case, machine), spots=spots)


def _larger(case: Case) -> Iterator[Help]:
    """The smallest of some larger radii that is enough, or else the largest of them."""
    machine = case.job.setup.machine
    best: Help | None = None
    for times in _LARGER:
        radius_mm = _radius(machine, times * machine.sweep_radius)
        if radius_mm is None:
            continue
        larger = _anew(case, replace(machine, sweep_radius=radius_mm))
        given = _helped(larger, "radius", _ANEW_S + 2.0 * _CLAMP_S + _swept_s(len(case.spots) - 1))
        best = replace(given, radius_mm=radius_mm)
        if best.likely >= COMFORTABLE:
            break
    if best is not None:
        yield best


def _radius(machine: MachineSetup, wanted_mm: float) -> float | None:
    """The next whole radius at which every spot stands clear of the table's slots."""
    step_mm = _STEP_MM[machine.unit]
    slots = machine.table.slots
    if slots is not None and machine.seat in ON_THE_TABLE:
        return next_clear(slots, machine.positions, wanted_mm, "larger", step_mm)
    radius_mm = math.ceil(wanted_mm / step_mm) * step_mm
    return radius_mm if RADII.holds(radius_mm) else None


def _with_gauge(case: Case, gauge: GaugeSetup) -> Case:
    """Read by another gauge of the shop: how it repeats is not known yet, nor its friction."""
    job = _anew(case, case.job.setup.machine).job
    setup = replace(job.setup, gauge=gauge, visits=())
    seen = replace(job.gauge, friction=None, visits=())
    return replace(case, job=replace(job, setup=setup, gauge=seen), scatter_mm=0.0)
