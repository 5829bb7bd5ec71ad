"""What was learned of a machine's head so far, ready to be shown."""

from collections.abc import Iterator

from daq.audit.setup import MachineSetup
from daq.squaring.learned import Learned
from daq.units import show
from daq.words import AXES, Axis, Unit
from daq.words.setup import Fact, FactGroup

_DECIMALS: dict[Unit, tuple[int, int]] = {"mm": (1, 4), "in": (2, 5)}
"""Of a pivot's distance, and of what a tightening does."""

NOTHING = "Nothing yet: the next audit starts from the file."
ANOTHER_RAM = (
    "The file says something else of the head or the ram than when this was learned: the next "
    "audit starts from the file."
)


def group(machine: MachineSetup, known: Learned | None) -> FactGroup:
    """What the audits closed so far taught, with standard uncertainties."""
    say = "Learned of this head"
    if known is None:
        return FactGroup("learned", say, NOTHING, ())
    if not known.holds_for(machine.prior()):
        return FactGroup("learned", say, ANOTHER_RAM, ())
    note = f"From {_count(known.audits, 'audit')}; after ± the standard uncertainty."
    told = tuple(fact for axis in AXES for fact in _axis(machine, known, axis))
    return FactGroup("learned", say, note, told)


def _axis(machine: MachineSetup, known: Learned, axis: Axis) -> Iterator[Fact]:
    answering, unit, name = known.answering, machine.unit, machine.axis(axis).say
    coarse, fine = _DECIMALS[unit]
    pivot = show(answering.pivot_mm(axis), unit, coarse)
    doubt = show(answering.pivot_doubt_mm(axis), unit, coarse)
    yield Fact(f"learned.{axis}.pivot", f"{name}: pivot acts at", f"{pivot} ± {doubt} {unit}")
    cross, off = 100.0 * answering.coupling(axis), 100.0 * answering.coupling_doubt(axis)
    follows = f"{cross:.1f} ± {off:.1f} %"
    yield Fact(f"learned.{axis}.coupling", f"{name}: the other axis follows by", follows)
    shifts = known.shifts[axis]
    over_mm = machine.axis(axis).over
    told = "none seen yet"
    if shifts.n:
        mean = show(answering.shift(axis) * over_mm, unit, fine, plus=True)
        doubt = show(answering.shift_doubt(axis) * over_mm, unit, fine)
        over = show(over_mm, unit, 0 if unit == "mm" else 1)
        told = f"{mean} ± {doubt} {unit} over {over} {unit}, from {shifts.n}"
    yield Fact(f"learned.{axis}.tightening", f"{name}: tightening shifts it by", told)


def _count(count: int, what: str) -> str:
    return f"1 {what}" if count == 1 else f"{count} {what}s"
