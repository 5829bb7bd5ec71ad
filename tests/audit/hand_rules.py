"""What every row of what hands are asked to do must keep to: common practice, no source."""

from collections.abc import Iterable, Sequence

from daq.audit.setup import MachineSetup
from daq.words import Axis
from tests.audit.hand_rows import (
    BY_POWER,
    SELECTED,
    SETS_ANEW,
    TURNS_BY_POWER,
    WORDS,
    Row,
    Screen,
    rows,
)


def held(machine: MachineSetup, axes: Iterable[Axis]) -> bool:
    """Whether the bolts of one of these are all that holds the head."""
    return any(machine.axis(axis).held_by != "adjuster" for axis in axes)


def nothing_turns_by_power_with_the_arm_in(row: Row, machine: MachineSetup) -> bool:
    """The spindle least of all; whatever else moves then, nobody is to start it."""
    moves = [BY_POWER[code] for code in BY_POWER if row.at.says(code)]
    warned = row.at.says("start-nothing") or not row.arm
    return not row.arm or (not any(m in TURNS_BY_POWER for m in moves) and (not moves or warned))


def power_is_there_where_it_is_needed(row: Row, machine: MachineSetup) -> bool:
    """Nothing that needs power comes after the lock-out, and each has the manual first."""
    needs = row.at.says(*BY_POWER)
    return not needs or (row.power and row.at.says("manual-first"))


def hands_are_in_it_only_without_power(row: Row, machine: MachineSetup) -> bool:
    """Bolts, joint, adjuster, gauge and nose are touched with the power locked out."""
    return (
        row.at.says("lock-out")
        or row.hands not in ("bolts", "joint", "adjuster", "gauge", "nose")
        or not row.power
    )


def supported_before_it_is_cracked(row: Row, machine: MachineSetup) -> bool:
    """Where bolts alone hold the head it is held before, and that is said there once more."""
    if not held(machine, row.cracks):
        return True
    # Set back before the card it is held and cracked on one screen, which says so in that order.
    first = row.supported or row.at.says("set-back-how")
    return first and row.at.says("held-by-bolts")


def a_rack_runs_back(row: Row, machine: MachineSetup) -> bool:
    """Where a rack's bolts are cracked it is said that it may."""
    racks = any(machine.axis(axis).adjust.kind == "rack" for axis in row.cracks)
    return not racks or row.at.says("rack-runs-back")


def no_hands_in_an_open_joint(row: Row, machine: MachineSetup) -> bool:
    """A shim is pushed in with a strip, arm and gauge out, the head held; nothing is turned."""
    if not row.at.says("put-shim", "open-joint"):
        return not row.open or row.hands != "adjuster"
    strip = row.at.says("push-with-a-strip") and not row.at.says("hands-clear", "do-not-force")
    return (
        row.supported and not row.under and not row.power and (strip or not row.at.says("put-shim"))
    )


def nothing_is_forced_that_is_not_there(row: Row, machine: MachineSetup) -> bool:
    """An adjuster is named only where there is one."""
    screws = row.at.axis is None or machine.axis(row.at.axis).adjust.kind in ("worm", "rack")
    return screws or not row.at.says("do-not-force")


def the_gauge_is_under_what_it_reads(row: Row, machine: MachineSetup) -> bool:
    """No reading with arm and gauge away."""
    reads = row.at.press in ("take", "pushed", "loosened", "stopped", "bolt")
    return not reads or (row.arm and row.under)


def tight_is_read_tight(row: Row, machine: MachineSetup) -> bool:
    """A full sweep with all tight; a parked spot that is said to be tight with its bolts tight."""
    if row.at.step in ("as-found", "final"):
        return not row.loose
    return not (row.at.says("bolts-still-tight") and row.loose)


def the_base_stays(row: Row, machine: MachineSetup) -> bool:
    """Between a base and its stop nothing sets the contact anew."""
    return not row.base or row.at.press == "arm-out" or not row.at.says(*SETS_ANEW)


def power_comes_back_to_an_empty_spindle(row: Row, machine: MachineSetup) -> bool:
    """Arm out before; only a power drawbar lets go with power, which is said then."""
    if row.at.step == "sign":
        return not row.arm and not row.loose
    if row.at.press != "cleared":
        return True
    by_power = row.at.says("power-for-drawbar") and row.at.says("start-nothing")
    return by_power if machine.drawbar == "power" else row.at.says("before-power")


def it_is_told_in_the_machines_words(row: Row, machine: MachineSetup) -> bool:
    """What goes by a key of the machine's file goes by this machine's."""
    for code, keys in SELECTED.items():
        for key in keys:
            value = getattr(machine, key)
            said = f"{code}: {key}={WORDS.get(key, {}).get(value, value)}"
            if row.at.says(code) and not row.at.says(said):
                return False
    brakes = {"none": (), "hand": ("brake-by-hand",), "spring": ("brake-holds",)}
    return not row.at.says("keep-the-lock") or row.at.codes.issuperset(brakes[machine.brake])


RULES = (
    nothing_turns_by_power_with_the_arm_in,
    power_is_there_where_it_is_needed,
    hands_are_in_it_only_without_power,
    supported_before_it_is_cracked,
    a_rack_runs_back,
    no_hands_in_an_open_joint,
    nothing_is_forced_that_is_not_there,
    the_gauge_is_under_what_it_reads,
    tight_is_read_tight,
    the_base_stays,
    power_comes_back_to_an_empty_spindle,
    it_is_told_in_the_machines_words,
)


def broken(walked: Sequence[Screen], machine: MachineSetup) -> list[str]:
    """What a walk does not keep to: the rule and the row."""
    table = rows(walked)
    return [f"{rule.__name__}: {row}" for rule in RULES for row in table if not rule(row, machine)]
