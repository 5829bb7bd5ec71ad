"""What was learned of a machine's head so far, ready to be shown."""

from collections.abc import Iterator

from daq.audit.setup import MachineSetup
from daq.squaring.learned import Learned
from daq.squaring.resting import STOPS, share
from daq.squaring.tightening import scatter_of
from daq.units import show
from daq.words import AXES, Axis, Said, Unit, said
from daq.words.setup import Fact, FactGroup

_DECIMALS: dict[Unit, tuple[int, int]] = {"mm": (1, 4), "in": (2, 5)}
"""Of a pivot's distance, and of what a tightening does."""


def group(machine: MachineSetup, known: Learned | None) -> FactGroup:
    """What the audits closed so far taught, with standard uncertainties."""
    say = said("learned")
    if known is None:
        return FactGroup("learned", say, said("learned-nothing"), ())
    if not known.holds_for(machine.prior()):
        return FactGroup("learned", say, said("learned-of-another-ram"), ())
    note = said("learned-from", audits=known.audits)
    told = tuple(fact for axis in AXES for fact in _axis(machine, known, axis))
    return FactGroup("learned", say, note, told)


def _axis(machine: MachineSetup, known: Learned, axis: Axis) -> Iterator[Fact]:
    answering, unit, name = known.answering, machine.unit, machine.axis(axis).say
    coarse, fine = _DECIMALS[unit]
    pivot = show(answering.pivot_mm(axis), unit, coarse)
    doubt = show(answering.pivot_doubt_mm(axis), unit, coarse)
    acts = f"{pivot} ± {doubt} {unit}"
    yield Fact(f"learned.{axis}.pivot", said("learned-pivot", axis=name), acts)
    cross, off = 100.0 * answering.coupling(axis), 100.0 * answering.coupling_doubt(axis)
    follows = f"{cross:.1f} ± {off:.1f} %"
    yield Fact(f"learned.{axis}.coupling", said("learned-coupling", axis=name), follows)
    stats = known.shift_stats[axis]
    over_mm = machine.axis(axis).over
    told: Said = said("learned-no-tightening")
    if stats.n:
        mean = show(answering.shift(axis) * over_mm, unit, fine, plus=True)
        doubt = show(answering.shift_doubt(axis) * over_mm, unit, fine)
        over = show(over_mm, unit, 0 if unit == "mm" else 1)
        shift = f"{mean} ± {doubt} {unit}"
        told = said("learned-shift", shift=shift, over=f"{over} {unit}", n=stats.n)
    yield Fact(f"learned.{axis}.tightening", said("learned-tightening", axis=name), told)
    yield Fact(
        f"learned.{axis}.rest", said("learned-rest", axis=name), _rests(machine, known, axis)
    )
    yield Fact(
        f"learned.{axis}.stop", said("learned-stop", axis=name), _stops(machine, known, axis)
    )


def _rests(machine: MachineSetup, known: Learned, axis: Axis) -> Said:
    """How far the parked number goes back once the axis is let go."""
    n, answering, unit = known.rest_stats[axis].n, known.answering, machine.unit
    if not n:
        return said("learned-no-rest")
    radius_mm, away_mm = machine.sweep_radius, answering.pivot_mm(axis)
    sees_mm = share(radius_mm, away_mm) * (radius_mm + abs(away_mm))
    back, doubt, later = (
        show(slope * sees_mm, unit, _DECIMALS[unit][1], plus=plus)
        for slope, plus in (
            (answering.rest(axis), False),
            (answering.rest_doubt(axis), False),
            (answering.late(axis), True),
        )
    )
    return said("learned-back", back=f"{back} ± {doubt} {unit}", later=f"{later} {unit}", n=n)


def _stops(machine: MachineSetup, known: Learned, axis: Axis) -> Said:
    """How far past the stop-at turns of the axis ended, and how far apart they lie."""
    stats, unit = known.stop_stats[axis], machine.unit
    if not stats.n:
        return said("learned-no-stop")
    mean = show(stats.mean, unit, _DECIMALS[unit][1], plus=True)
    apart = show(scatter_of(stats, STOPS), unit, _DECIMALS[unit][1])
    return said("learned-past", past=f"{mean} {unit}", apart=f"{apart} {unit}", n=stats.n)
