"""What a machine's file says of it, in the order people ask, ready to be shown."""

from collections.abc import Iterator

from daq.audit.setup import DOUBTS_MM, AxisSetup, MachineSetup
from daq.checks.kinds import kind
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.effects import Work
from daq.checks.sweep.slots import Slots
from daq.metrology.rule import Rule
from daq.says import language
from daq.service.lengths import angle, lean, length, number, percent, torque, within
from daq.service.machine_file import preset
from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from daq.words import AXES, OPPOSITE, PARKED, Axis, Position, Unit, said
from daq.words.setup import Fact, FactGroup

_SEATS = {
    "ring": "a ring",
    "plate": "a plate",
    "table": "the bare table",
    "block": "one block, moved from spot to spot",
}
_TOGETHER = {
    "each": "each axis by itself",
    "jointly": "both axes at once",
    "vector": "the length of the lean against one limit",
}
_KINDS = {
    "worm": "worm",
    "rack": "rack",
    "hand": "by hand",
    "shim": "shims",
    "none": "none: only reported",
}
_DOWN = {"knee": "by raising the knee", "quill": "by the quill", "powered": "by a powered head"}
_BRAKES = {"none": "none", "hand": "by hand", "spring": "by a spring: it holds with power off"}


def facts(machine: MachineSetup) -> Iterator[Fact]:
    """What holds for the machine as a whole."""
    unit = machine.unit
    yield Fact("gauge", "Gauge", machine.gauge)
    if machine.second_gauge:
        reach = "" if machine.second_radius is None else f", {length(machine.second_radius, unit)}"
        yield Fact("second_gauge", "Other gauge on the bar", f"{machine.second_gauge}{reach}")
    yield Fact("surface", "Swept surface", machine.surface)
    yield Fact("seat", "The contact stands on", _SEATS[machine.seat])
    slots = machine.table.slots
    if slots is not None:
        yield Fact("table", "Slots in the table", _slots(slots, unit))
    yield Fact("sweep_radius", "Sweep radius", length(machine.sweep_radius, unit))
    around = ", ".join(machine.positions)
    yield Fact("positions", "A sweep reads", f"{around}, and {machine.positions[0]} again")
    yield Fact("ram_angle", "Ram", _ram(machine.ram_angle))
    loosen = "one axis at a time" if machine.loosen == "one" else "both axes at once"
    yield Fact("loosen", "Bolts are loosened", loosen)
    yield Fact("z", "The contact is brought down", _DOWN[machine.z])
    yield Fact("drawbar", "Drawbar", "by hand" if machine.drawbar == "hand" else "powered")
    yield Fact("brake", "Spindle brake", _BRAKES[machine.brake])
    yield Fact("air", "Compressed air", "to be vented" if machine.air else "none")
    yield Fact("people", "At the machine", "one" if machine.people == 1 else "two, a lock each")
    yield Fact("after_crash", "Bolts after a crash", ", ".join(machine.crash_bolts))
    yield Fact("verdict", "Verdict", _rule(machine.verdict))
    every = machine.audit_every
    days = "no interval agreed" if every is None else "every day" if every == 1 else ""
    yield Fact("audit_every", "Audits", days or f"every {every} days")
    for name, check in machine.checks.items():
        often = check.every_days
        when = "no interval agreed" if often is None else f"every {often} days"
        yield Fact(f"checks.{name}", language().words(kind(name).name), when)


def groups(machine: MachineSetup) -> Iterator[FactGroup]:
    """What belongs together: each axis, the uncertainty, the work."""
    unit = machine.unit
    for axis in AXES:
        told = machine.axis(axis)
        yield FactGroup(axis, told.say, "", tuple(_axis(axis, told, machine)))
    doubts = machine.uncertainty
    note = "How far each may be off. What a file leaves out is common practice, no source."
    yield FactGroup("uncertainty", "Uncertainty", note, tuple(_uncertainty(doubts, unit)))
    work = tuple(_work(machine.work, unit))
    note = (
        "" if work else "The file names no cutter and no work: a lean is not told by what it does."
    )
    yield FactGroup("work", "Work", note, work)


def _slots(slots: Slots, unit: Unit) -> str:
    runs = "left to right" if slots.direction == "left-right" else "front to back"
    first = "frontmost" if slots.direction == "left-right" else "leftmost"
    wide, apart = length(slots.width, unit), length(slots.pitch, unit)
    start, clear = length(slots.offset, unit), length(slots.clear, unit)
    return (
        f"{slots.count}, {wide} wide, {apart} apart, {runs}, the {first} {start} from the spindle; "
        f"kept clear of by {clear}"
    )


def _ram(rad: float) -> str:
    if not rad:
        return "not swung"
    way = "anticlockwise" if rad > 0.0 else "clockwise"
    return f"swung {angle(abs(rad))} {way}, seen from above"


def _rule(rule: Rule) -> str:
    if rule.name == "simple":
        return f"simple: the number as it is, {_TOGETHER[rule.together]}"
    return f"guarded: {percent(rule.coverage)} sure, {_TOGETHER[rule.together]}"


def _axis(key: Axis, axis: AxisSetup, machine: MachineSetup) -> Iterator[Fact]:
    unit = machine.unit
    yield Fact(f"{key}.limit", "Tolerance", _limit(axis, PARKED[key], unit))
    yield Fact(f"{key}.tolerance", "Tolerance from", _source(axis))
    if axis.wanted_lean:
        wanted = lean(axis.wanted_lean, axis.over, unit)
        yield Fact(f"{key}.wanted_lean", "Wanted lean", wanted)
    away = within(axis.pivot_distance, axis.pivot_doubt or DOUBTS_MM[key], unit)
    up = within(axis.pivot_height, axis.pivot_height_doubt, unit)
    yield Fact(f"{key}.pivot", "Pivot", f"{away} away, {up} up")
    follows = f"{percent(axis.coupling)} ± {percent(axis.coupling_doubt)}"
    if machine.ram_angle:
        follows += ", besides what the ram's angle makes of it"
    yield Fact(f"{key}.coupling", "The other axis follows by", follows)
    yield Fact(f"{key}.adjust", "Adjuster", _adjuster(axis.adjust, axis.over, unit))
    yield Fact(f"{key}.tighten", "Tightening", _tightening(axis.tighten, unit))
    yield Fact(f"{key}.torque", "Torque", _torque(axis.tighten, unit))


def _limit(axis: AxisSetup, parked: Position, unit: Unit) -> str:
    limit, over = length(axis.limit, unit), length(axis.over, unit)
    if axis.one_sided:
        return f"{axis.one_sided} low by {limit} over {over} at most, never the other way"
    if axis.limit_low is None:
        return f"±{limit} over {over}"
    other = OPPOSITE[parked]
    low = length(axis.limit_low, unit)
    return f"{parked} low by {limit}, {other} low by {low} at most, over {over}"


def _source(axis: AxisSetup) -> str:
    named = preset(axis.tolerance)
    if named is None:
        return axis.tolerance or "this machine's file"
    limit, over = length(named.limit_mm, "mm"), length(named.over_mm, "mm")
    source = said(
        "tolerance-from",
        key=named.key,
        name=named.name,
        limit=limit,
        over=over,
        source=named.source,
    )
    return language().words(source)


def _adjuster(adjust: Adjust, over: float, unit: Unit) -> str:
    said = [_KINDS[adjust.kind]]
    if adjust.finish_raising:
        said.append(f"finishing with the {adjust.finish_raising} rising")
    if adjust.lead is not None:
        said.append(f"a turn is {lean(adjust.lead, over, unit)}")
    if adjust.backlash is not None:
        said.append(f"backlash {length(adjust.backlash, unit)}")
    if adjust.bolt_spacing is not None:
        said.append(f"bolts {length(adjust.bolt_spacing, unit)} apart")
    return ", ".join(said)


def _tightening(tighten: Tighten, unit: Unit) -> str:
    if not tighten.bolts:
        return "not watched bolt by bolt"
    passes = "once" if tighten.passes == 1 else f"{tighten.passes} times round"
    most = length(tighten.limit, unit)
    return f"{', '.join(tighten.bolts)}; {passes}, each moving it {most} at most"


def _torque(tighten: Tighten, unit: Unit) -> str:
    if tighten.torque is None:
        return "none given"
    by = f", wrench no. {tighten.wrench}" if tighten.wrench else ""
    return f"{torque(tighten.torque, unit)}{by}"


def _uncertainty(doubts: Doubts, unit: Unit) -> Iterator[Fact]:
    def fact(key: str, say: str, value: str) -> Fact:
        return Fact(f"uncertainty.{key}", say, value)

    repeats = f"{length(doubts.repeatability, unit)}, worth {number(doubts.repeatability_dof)}"
    yield fact("repeatability", "One reading, between visits", f"{repeats} degrees of freedom")
    wedge = length(doubts.wedge, unit)
    yield fact("wedge", "Wedge", f"{wedge}, measured" if doubts.wedge_known else f"at most {wedge}")
    yield fact("seating", "Seating", f"at most {length(doubts.seating, unit)}")
    axial = length(doubts.spindle_axial, unit)
    yield fact("spindle_axial", "Spindle, once a turn", f"at most {axial}")
    yield fact("friction", "Friction", f"at most {length(doubts.friction, unit)}")
    local = "a fifth of the gauge's permissible error"
    if doubts.local_error is not None:
        local = f"at most {length(doubts.local_error, unit)}"
    yield fact("local_error", "Gauge, over a short span", local)
    yield fact("scale", "Gauge's scale", f"at most {percent(doubts.scale)}")
    yield fact("radius", "Sweep radius", f"± {length(doubts.radius, unit)}")
    yield fact("parallel", "Plunger to spindle", f"at most {angle(doubts.parallel)}")
    yield fact("condition", "Swept in this state", doubts.condition or "not said")


def _work(work: Work, unit: Unit) -> Iterator[Fact]:
    sizes = (
        ("cutter", "Face mill", work.cutter),
        ("cut_width", "Strip it cuts", work.cut_width),
        ("pass_step", "From pass to pass", work.pass_step),
        ("hole_depth", "Hole drilled with the quill", work.hole_depth),
        ("bore_diameter", "Bore, raising the table", work.bore_diameter),
    )
    for key, say, mm in sizes:
        if mm is not None:
            yield Fact(f"work.{key}", say, length(mm, unit))
    if work.cutter is not None or work.pass_step is not None:
        feed = "left to right" if work.feed == "left-right" else "front to back"
        yield Fact("work.feed", "Passes run", feed)
