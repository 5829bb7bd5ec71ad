"""What a machine's file says of it, in the order people ask, ready to be shown."""

from collections.abc import Iterator, Sequence
from functools import reduce

from daq.audit.setup import DOUBTS_MM, AxisSetup, MachineSetup
from daq.checks.kinds import kind
from daq.checks.sweep.doubts import Doubts
from daq.checks.sweep.effects import Work
from daq.checks.sweep.slots import Slots
from daq.metrology.rule import Rule
from daq.service.lengths import angle, lean, length, number, percent, torque, within
from daq.service.machine_file import preset
from daq.squaring.adjuster import Adjust
from daq.squaring.tightening import Tighten
from daq.words import AXES, OPPOSITE, PARKED, Axis, Position, Said, Unit, said
from daq.words.setup import Fact, FactGroup

_SEATS = {
    "ring": said("seat-ring"),
    "plate": said("seat-plate"),
    "table": said("seat-table"),
    "block": said("seat-block"),
}
_TOGETHER = {
    "each": said("together-each"),
    "jointly": said("together-jointly"),
    "vector": said("together-vector"),
}
_KINDS = {
    "worm": said("adjust-worm"),
    "rack": said("adjust-rack"),
    "hand": said("adjust-hand"),
    "shim": said("adjust-shim"),
    "none": said("adjust-none"),
}
_DOWN = {"knee": said("down-knee"), "quill": said("down-quill"), "powered": said("down-powered")}
_BRAKES = {"none": said("brake-none"), "hand": said("brake-hand"), "spring": said("brake-spring")}


def facts(machine: MachineSetup) -> Iterator[Fact]:
    """What holds for the machine as a whole."""
    unit = machine.unit
    yield from _paper(machine)
    yield Fact("gauge", said("file-gauge"), machine.gauge)
    if machine.second_gauge:
        reach = "" if machine.second_radius is None else f", {length(machine.second_radius, unit)}"
        yield Fact("second_gauge", said("file-second-gauge"), f"{machine.second_gauge}{reach}")
    yield Fact("surface", said("file-surface"), machine.surface)
    yield Fact("seat", said("file-seat"), _SEATS[machine.seat])
    slots = machine.table.slots
    if slots is not None:
        yield Fact("table", said("file-slots"), _slots(slots, unit))
    yield Fact("sweep_radius", said("file-sweep-radius"), length(machine.sweep_radius, unit))
    places = [_place(each) for each in machine.positions]
    around = said("file-around", all=commas(places), first=places[0])
    yield Fact("positions", said("file-positions"), around)
    yield Fact("ram_angle", said("file-ram-angle"), _ram(machine.ram_angle))
    loosen = said("loosen-one") if machine.loosen == "one" else said("loosen-both")
    yield Fact("loosen", said("file-loosen"), loosen)
    plan = said("plan-quick") if machine.plan == "quick" else said("plan-sure")
    yield Fact("plan", said("file-plan"), plan)
    yield Fact("first", said("file-first"), said("first-axis", first=machine.first))
    yield from _working(machine)
    yield Fact("verdict", said("file-verdict"), _rule(machine.verdict))
    yield Fact("audit_every", said("file-audit-every"), _every(machine.audit_every))
    for name, check in machine.checks.items():
        yield Fact(f"checks.{name}", kind(name).name, _every(check.every_days))


def _paper(machine: MachineSetup) -> Iterator[Fact]:
    """What a report calls it by, as far as the file says."""
    told = (
        ("asset", said("file-asset"), machine.asset),
        ("place", said("file-place"), machine.place),
        ("customer", said("file-customer"), machine.customer),
        ("thermometer", said("file-thermometer"), machine.thermometer),
    )
    yield from (Fact(key, say, value) for key, say, value in told if value)


def _every(days: int | None) -> Said:
    return said("no-interval-agreed") if days is None else said("every-days", days=days)


def _place(position: Position) -> Said:
    return said("told-place", place=position)


def commas(parts: Sequence[Said]) -> Said:
    """Several things one after the other, none the last."""
    return reduce(lambda before, then: said("list-more", before=before, next=then), parts)


def groups(machine: MachineSetup) -> Iterator[FactGroup]:
    """What belongs together: each axis, the uncertainty, the work."""
    unit = machine.unit
    for axis in AXES:
        told = machine.axis(axis)
        yield FactGroup(axis, told.say, None, tuple(_axis(axis, told, machine)))
    doubts = tuple(_uncertainty(machine.uncertainty, unit))
    yield FactGroup("uncertainty", said("file-uncertainty"), said("file-uncertainty-note"), doubts)
    work = tuple(_work(machine.work, unit))
    note = None if work else said("file-no-work")
    yield FactGroup("work", said("file-work"), note, work)


def _working(machine: MachineSetup) -> Iterator[Fact]:
    """How it is worked at, and by how many."""
    yield Fact("z", said("file-z"), _DOWN[machine.z])
    drawbar = said("drawbar-hand") if machine.drawbar == "hand" else said("drawbar-powered")
    yield Fact("drawbar", said("file-drawbar"), drawbar)
    yield Fact("brake", said("file-brake"), _BRAKES[machine.brake])
    air = said("air-to-be-vented") if machine.air else said("air-none")
    yield Fact("air", said("file-air"), air)
    people = said("people-one") if machine.people == 1 else said("people-two")
    yield Fact("people", said("file-people"), people)
    yield Fact("after_crash", said("file-after-crash"), ", ".join(machine.crash_bolts))


def _slots(slots: Slots, unit: Unit) -> Said:
    return said(
        "slots-are",
        count=slots.count,
        wide=length(slots.width, unit),
        apart=length(slots.pitch, unit),
        runs=slots.direction,
        start=length(slots.offset, unit),
        clear=length(slots.clear, unit),
    )


def _ram(rad: float) -> Said:
    if not rad:
        return said("ram-not-swung")
    way = "anticlockwise" if rad > 0.0 else "clockwise"
    return said("ram-is-swung", by=angle(abs(rad)), way=way)


def _rule(rule: Rule) -> Said:
    together = _TOGETHER[rule.together]
    if rule.name == "simple":
        return said("file-rule-simple", together=together)
    return said("file-rule-guarded", sure=percent(rule.coverage), together=together)


def _axis(key: Axis, axis: AxisSetup, machine: MachineSetup) -> Iterator[Fact]:
    unit = machine.unit
    yield Fact(f"{key}.limit", said("file-limit"), _limit(axis, PARKED[key], unit))
    yield Fact(f"{key}.tolerance", said("file-tolerance"), _source(axis))
    if axis.wanted_lean:
        wanted = lean(axis.wanted_lean, axis.over, unit)
        yield Fact(f"{key}.wanted_lean", said("file-wanted-lean"), wanted)
    away = within(axis.pivot_distance, axis.pivot_doubt or DOUBTS_MM[key], unit)
    up = within(axis.pivot_height, axis.pivot_height_doubt, unit)
    yield Fact(f"{key}.pivot", said("file-pivot"), said("pivot-at", away=away, up=up))
    share = f"{percent(axis.coupling)} ± {percent(axis.coupling_doubt)}"
    follows = said("follows-besides-ram", share=share) if machine.ram_angle else share
    yield Fact(f"{key}.coupling", said("file-coupling"), follows)
    yield Fact(f"{key}.adjust", said("file-adjuster"), _adjuster(axis.adjust, axis.over, unit))
    yield Fact(f"{key}.tighten", said("file-tightening"), _tightening(axis.tighten, unit))
    yield Fact(f"{key}.torque", said("file-torque"), _torque(axis.tighten, unit))


def _limit(axis: AxisSetup, parked: Position, unit: Unit) -> Said:
    limit, over = length(axis.limit, unit), length(axis.over, unit)
    if axis.one_sided:
        return said("limit-one-sided", place=_place(axis.one_sided), limit=limit, over=over)
    if axis.limit_low is None:
        return said("length-over", by=f"±{limit}", over=over)
    return said(
        "limit-two-sided",
        place=_place(parked),
        limit=limit,
        other=_place(OPPOSITE[parked]),
        low=length(axis.limit_low, unit),
        over=over,
    )


def _source(axis: AxisSetup) -> Said | str:
    named = preset(axis.tolerance)
    if named is None:
        return axis.tolerance or said("tolerance-of-file")
    limit, over = length(named.limit_mm, "mm"), length(named.over_mm, "mm")
    return said(
        "tolerance-from",
        key=named.key,
        name=named.name,
        limit=limit,
        over=over,
        source=named.source,
    )


def _adjuster(adjust: Adjust, over: float, unit: Unit) -> Said:
    told = [_KINDS[adjust.kind]]
    if adjust.finish_raising:
        told.append(said("finish-raising", place=_place(adjust.finish_raising)))
    if adjust.lead is not None:
        told.append(said("a-turn-is", lean=lean(adjust.lead, over, unit)))
    if adjust.backlash is not None:
        told.append(said("backlash-is", by=length(adjust.backlash, unit)))
    if adjust.bolt_spacing is not None:
        told.append(said("bolts-apart", by=length(adjust.bolt_spacing, unit)))
    if adjust.shims:
        told.append(said("shims-there-are", all=", ".join(length(mm, unit) for mm in adjust.shims)))
    if adjust.shim_step is not None:
        told.append(said("shims-by-step", by=length(adjust.shim_step, unit)))
    return commas(told)


def _tightening(tighten: Tighten, unit: Unit) -> Said:
    if not tighten.bolts:
        return said("tighten-unwatched")
    bolts, most = ", ".join(tighten.bolts), length(tighten.limit, unit)
    return said("tighten-watched", bolts=bolts, passes=tighten.passes, most=most)


def _torque(tighten: Tighten, unit: Unit) -> Said | str:
    if tighten.torque is None:
        return said("torque-none")
    known = torque(tighten.torque, unit)
    return said("torque-by", torque=known, wrench=tighten.wrench) if tighten.wrench else known


def _uncertainty(doubts: Doubts, unit: Unit) -> Iterator[Fact]:
    def fact(key: str, say: Said, value: Said | str) -> Fact:
        return Fact(f"uncertainty.{key}", say, value)

    def at_most(mm: float) -> Said:
        return said("at-most", value=length(mm, unit))

    def measured(mm: float) -> Said:
        return said("is-measured", value=length(mm, unit))

    once, worth = length(doubts.repeatability, unit), doubts.repeatability_dof
    known = said("worth-dof", u=once, dof=number(worth)) if worth else None
    known = known or said("assumed-until-seen", u=once)
    yield fact("repeatability", said("file-repeatability"), known)
    wedge = measured if doubts.wedge_known else at_most
    yield fact("wedge", said("file-wedge"), wedge(doubts.wedge))
    yield fact("seating", said("file-seating"), at_most(doubts.seating))
    yield fact("flatness", said("file-flatness"), _flatness(doubts, unit))
    yield fact("drift", said("file-drift"), at_most(doubts.drift))
    axial = measured if doubts.spindle_axial_known else at_most
    yield fact("spindle_axial", said("file-axial"), axial(doubts.spindle_axial))
    yield fact("spindle_changes", said("file-axial-changes"), at_most(doubts.spindle_changes))
    yield fact("friction", said("file-friction"), at_most(doubts.friction))
    local = said("a-fifth-of-the-error")
    if doubts.local_error is not None:
        local = at_most(doubts.local_error)
    yield fact("local_error", said("file-local-error"), local)
    yield fact("scale", said("file-scale"), said("at-most", value=percent(doubts.scale)))
    yield fact("radius", said("file-sweep-radius"), f"± {length(doubts.radius, unit)}")
    yield fact("parallel", said("file-parallel"), said("at-most", value=angle(doubts.parallel)))
    warmer = said("at-most", value=said("kelvins", of=number(doubts.temperature)))
    yield fact("temperature", said("file-temperature"), warmer)
    yield fact("thickness", said("file-thickness"), length(doubts.thickness, unit))
    yield fact("condition", said("file-condition"), doubts.condition or said("not-said"))


def _flatness(doubts: Doubts, unit: Unit) -> Said:
    if doubts.flatness is not None:
        return said("at-most", value=length(doubts.flatness, unit))
    ring, table = (length(doubts.form(on_the_table), unit) for on_the_table in (False, True))
    return said("file-flatness-by-seat", ring=ring, table=table)


def _work(work: Work, unit: Unit) -> Iterator[Fact]:
    sizes = (
        ("cutter", said("file-cutter"), work.cutter),
        ("cut_width", said("file-cut-width"), work.cut_width),
        ("pass_step", said("file-pass-step"), work.pass_step),
        ("hole_depth", said("file-hole-depth"), work.hole_depth),
        ("bore_diameter", said("file-bore"), work.bore_diameter),
    )
    for key, say, mm in sizes:
        if mm is not None:
            yield Fact(f"work.{key}", say, length(mm, unit))
    if work.cutter is not None or work.pass_step is not None:
        feed = said("feed-across") if work.feed == "left-right" else said("feed-along")
        yield Fact("work.feed", said("file-feed"), feed)
