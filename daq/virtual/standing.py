"""How the head stands: all that can change about it, as plain values that outlive a restart."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields
from typing import Any, Final, Literal, get_args

from daq.virtual.store import StateFileError
from daq.words import POSITIONS, Position

_FRONT_DEG: Final = POSITIONS["front"]

UNWOUND: Final[dict[Position, float]] = {
    position: azimuth if azimuth < _FRONT_DEG else azimuth - 360.0
    for position, azimuth in POSITIONS.items()
}
"""Azimuths the cable can follow without winding up: from front by right, back, left and back."""

SetUp = Literal["ring", "bar", "edge", "jaw"]
"""What the gauge is set up on."""

LATER: Final = (
    *("arm_deg", "far_visit_mm", "set_up", "spindle_deg", "below_mm", "seat", "travel", "table_mm"),
    *("jaw_rise", "jaw_mm", "chip_mm"),
)
"""What the state files of older practice mills do not have."""


@dataclass(slots=True)
class JointState:
    """One joint: its angle (rad), its bolts, and how far its adjuster is into its slack (rad).

    `wound_rad` is what goes back when the hand leaves the adjuster. `tight` from the
    first bolt pulled up: of the shift (mm across the sweep) and the lift that all of
    them make, the part `pulled` has come. `bolts` names those pulled up since loosened.
    """

    angle_rad: float = 0.0
    tight: bool = True
    slack_rad: float = 0.0
    wound_rad: float = 0.0
    shift_mm: float = 0.0
    lift_mm: float = 0.0
    pulled: float = 1.0
    bolts: list[str] = field(default_factory=list)


@dataclass(slots=True)
class HeadState:
    """All that can change about the head, the arm and the ring, and how else a gauge is set up.

    On a bar the gauge stands `below_mm` below the nose and the spindle at `spindle_deg`, the bar
    in its `seat` for the first or second time; on an edge the table at `table_mm` of `travel`; on
    a vise's jaw the gauge at `table_mm` of it. Taps have turned that by the slope `jaw_rise` since
    it was mounted, and brought its left end `jaw_mm` nearer. The ring rocks by `chip_mm` on a chip.
    """

    side: JointState = field(default_factory=JointState)
    nod: JointState = field(default_factory=JointState)
    lift_mm: float = 0.0
    quill_mm: float = 0.0
    contact: Literal["free", "set"] = "free"
    position: Position = "front"
    azimuth_deg: float = UNWOUND["front"]
    visit_mm: float = 0.0
    arm_mm: float = 0.0
    ring_deg: float = 0.0
    arm_deg: float = 0.0
    far_visit_mm: float = 0.0
    set_up: SetUp = "ring"
    spindle_deg: float = 0.0
    below_mm: float = 0.0
    seat: int = 1
    travel: Literal["x", "y"] = "x"
    table_mm: float = 0.0
    jaw_rise: float = 0.0
    jaw_mm: float = 0.0
    chip_mm: float = 0.0

    def plain(self) -> dict[str, Any]:
        """Return the state as plain values."""
        return asdict(self)

    @classmethod
    def restored(cls, table: Mapping[str, Any]) -> "HeadState":
        """Return the state that `plain` gave. Raises StateFileError on anything else."""
        try:
            names = [f.name for f in fields(cls) if f.name in table or f.name not in LATER]
            values: dict[str, Any] = {name: table[name] for name in names}
            side, nod = JointState(**values.pop("side")), JointState(**values.pop("nod"))
            state = cls(side=side, nod=nod, **values)
        except (KeyError, TypeError) as error:
            raise StateFileError(str(error)) from error
        state.check()
        return state

    def check(self) -> None:
        """Raise StateFileError when a value is not of its kind."""
        words = {
            "position": tuple(POSITIONS),
            "contact": ("free", "set"),
            "set_up": get_args(SetUp),
            "travel": ("x", "y"),
        }
        for name, allowed in words.items():
            if getattr(self, name) not in allowed:
                found = getattr(self, name)
                raise StateFileError(f"{name}: found {found!r}; allowed: {', '.join(allowed)}")
        tables = {"": self.plain(), "side.": asdict(self.side), "nod.": asdict(self.nod)}
        for where, table in tables.items():
            for name in set(table) - {*words, "side", "nod", "bolts"}:
                if not isinstance(table[name], int | float):
                    found = table[name]
                    raise StateFileError(f"{where}{name}: found {found!r}; allowed: a number")
        for joint in (self.side, self.nod):
            if not isinstance(joint.bolts, list):
                raise StateFileError(f"bolts: found {joint.bolts!r}; allowed: a list of names")
