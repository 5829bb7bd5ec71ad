"""What the screens ask hands to do, as rows, and what every row must keep to.

A row is made of nothing but the codes a screen says, what it has hands do first and which button
it wants pressed. What stands here of the trade is common practice, no source.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, get_args, get_type_hints

from daq.audit.setup import AxisSetup, MachineSetup
from daq.screens import console
from daq.squaring.adjuster import Adjust
from daq.words import AXES, Axis, Said

KINDS: dict[str, set[Any]] = {
    "z": {"knee", "quill", "powered"},
    "drawbar": {"hand", "power"},
    "brake": {"none", "hand", "spring"},
    "people": {1, 2},
    "air": {False, True},
    "loosen": {"one", "both"},
    "kind": {"worm", "rack", "hand", "shim", "none"},
    "held_by": {"adjuster", "block", "sling"},
}
"""Every kind of machine these rules know."""

BY_POWER = {"run-it-warm": "spindle", "clamp-arm": "drawbar", "set-height": "head"}
TURNS_BY_POWER = ("spindle",)
"""What may not move while the arm is in; drawbar and head move with hands clear of them."""
HANDS = {
    "open-joint": "joint",
    "put-shim": "joint",
    "turn-until": "adjuster",
    "a-little": "adjuster",
    "a-little-back": "adjuster",
    "crack": "bolts",
    "bring-closer": "bolts",
    "set-back-first": "bolts",
    "try-the-bolts": "bolts",
    "pull-up": "bolts",
    "tighten": "bolts",
}
SETS_ANEW = ("big-nod", "contact-down", "contact-as-it-was", "arm-and-gauge-out", "lift-contact")
"""What moves the contact, so that what was read with it before counts no more."""
SELECTED = {
    "arm-and-gauge-out": ("drawbar",),
    "contact-down": ("z",),
    "contact-as-it-was": ("z",),
    "big-nod": ("z",),
    "lock-out": ("air", "people"),
    "run-it-warm-how": ("brake",),
}
"""Sentences whose words go by the kind of machine, and by which of its keys."""
WORDS: dict[str, dict[Any, str]] = {"air": {True: "vented", False: "none"}}


def unknown(machine: type[MachineSetup] = MachineSetup, axis: type[AxisSetup] = AxisSetup):
    """The keys of a kind of machine with a value that no rule here knows."""
    hints = {**_hints(machine), "kind": _hints(Adjust)["kind"]}
    hints["held_by"] = get_type_hints(axis.held_by.fget)["return"]
    values = {
        key: {False, True} if hints[key] is bool else {*get_args(hints[key])} for key in KINDS
    }
    return [key for key, known in KINDS.items() if values[key] != known]


def _hints(cls: type) -> dict[str, Any]:
    return get_type_hints(cls)


@dataclass(frozen=True)
class Screen:
    """One screen: the codes it says, what hands do first, on which axis, and what is pressed."""

    step: str
    title: str
    codes: frozenset[str]
    do: str = "nothing"
    axis: Axis | None = None
    press: str = ""

    def says(self, *codes: str) -> bool:
        """Whether it says one of these."""
        return any(code in self.codes for code in codes)

    def without(self, *codes: str) -> "Screen":
        """The same, these left unsaid."""
        return replace(self, codes=self.codes - {*codes})

    def also(self, *codes: str) -> "Screen":
        """The same with these said as well."""
        return replace(self, codes=self.codes | {*codes})


def screen(state) -> Screen:
    """What a machine's console says now."""
    page = console(state, "Mill")
    parts = (page.title, page.detail, *page.notes, *page.cautions, *page.warnings)
    press = next((action.kind for action in page.actions if action.primary), "")
    codes = frozenset(code for part in parts for code in _codes(part))
    title = page.title.code if isinstance(page.title, Said) else ""
    return Screen(page.step, title, codes, page.do.kind, getattr(page.do, "axis", None), press)


def _codes(part: Any) -> Iterator[str]:
    if isinstance(part, Said):
        yield part.code
        for key in SELECTED.get(part.code, ()):
            yield f"{part.code}: {key}={part.of[key]}"
        yield from (code for inner in part.of.values() for code in _codes(inner))
    elif isinstance(part, tuple):
        yield from (code for inner in part for code in _codes(inner))
    elif is_dataclass(part):
        inner = (getattr(part, each.name) for each in fields(part))
        yield from (code for each in inner for code in _codes(each))


@dataclass(frozen=True)
class Row:
    """A screen, and how things stand when it is come to."""

    at: Screen
    power: bool = True
    arm: bool = False
    under: bool = False
    loose: frozenset[Axis] = frozenset()
    open: bool = False
    supported: bool = False
    base: bool = False

    @property
    def hands(self) -> str:
        """Where the hands are."""
        told = next((HANDS[code] for code in HANDS if self.at.says(code)), "")
        by_power = next(
            (f"{BY_POWER[code]}, by power" for code in BY_POWER if self.at.says(code)), ""
        )
        return (
            told
            or by_power
            or {"swing": "nose", "free": "gauge", "push": "gauge"}.get(self.at.do, "")
        )

    @property
    def cracks(self) -> tuple[Axis, ...]:
        """The axes whose bolts are cracked here."""
        if self.at.says("bring-closer", "set-back-first"):
            return AXES
        return (self.at.axis,) if self.at.do == "loosen" and self.at.axis else ()

    def __str__(self) -> str:
        power, arm = "on" if self.power else "off", "in" if self.arm else "out"
        loose = " ".join(sorted(self.loose)) or "-"
        held = "held" if self.supported else "-"
        opened = "open" if self.open else "-"
        shown = (self.at.step, power, arm, loose, opened, held, self.hands or "-", self.at.press)
        return "{:15} {:4} {:4} {:9} {:5} {:5} {:18} {}".format(*shown)

    def after(self) -> "Row":
        """How things stand once it was done and pressed."""
        at, now = self.at, self
        if at.says("lock-out"):
            now = replace(now, power=False)
        if at.says("held-by-bolts", "support-head"):
            now = replace(now, supported=True)
        if at.says("make-safe", "make-safe-bar", "clamp-arm", "arm-and-gauge-back"):
            now = replace(now, arm=True, under=True)
        if at.says("arm-and-gauge-out"):
            stays = at.says("arm-and-gauge-out: drawbar=power")
            now = replace(now, arm=now.arm and stays, under=False, base=False)
        if at.says("arm-out"):
            now = replace(now, arm=False, under=False)
        if at.press == "cleared":
            now = replace(now, power=True)
        if at.says("open-joint"):
            now = replace(now, open=True)
        if at.says("push-then-snug"):
            now = replace(now, open=False)
        if at.says("park-at", "park-take", "read-again-at"):
            now = replace(now, base=True)
        if at.says("turn-until", "a-little", "a-little-back"):
            now = replace(now, base=False)
        return replace(now, loose=now.loose | {*self.cracks} if at.do == "loosen" else now.loose)


def rows(walked: Sequence[Screen]) -> list[Row]:
    """The walk as a table."""
    made, now = [], Row(walked[0])
    for each in walked:
        if now.at.do in ("tighten", "bolt") and each.do not in ("tighten", "bolt"):
            now = replace(now, loose=now.loose - {now.at.axis})
        unlocked = each.says("unlock-first") and not now.loose
        made.append(replace(now, at=each, power=now.power or unlocked))
        now = made[-1].after()
    return made


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
