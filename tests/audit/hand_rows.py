"""What the screens ask hands to do, as rows.

A row is made of nothing but the codes a screen says, what it has hands do first and which button
it wants pressed. What stands here of the trade is common practice, no source.
"""

from collections.abc import Iterator, Sequence
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
