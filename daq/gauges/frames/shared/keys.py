"""The keys of frames that have a layout, be it of fields or of symbols."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from daq.gauges.frames.shared.checked import Check
from daq.gauges.frames.shared.fixed import LONGEST, Apart
from daq.gauges.frames.shared.number import PerUnit
from daq.settings import Range
from daq.words import Unit

Missing = Literal["over-travel", "no-contact", "battery-empty", "error"]
"""Why there is no number: the flags with which a frame's number means nothing."""

PerUnitFloat = float | dict[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """The keys that all frames with a layout share.

    `layout` lists the fields in the order sent. `signs` and `units` say what these may hold and
    what it means; `unit` replaces the latter where the unit is not sent. `flags` names the flags;
    "" is not recorded. `terminator` closes a frame and is not part of it; without one it is as
    long as its layout, and `apart` says how frames are told apart, by their "content" or by the
    "pause" after each. `check` is the frame's check value.
    """

    layout: tuple[str, ...]
    signs: dict[str, Literal["+", "-"]] = field(default_factory=dict)
    unit: Unit | None = None
    units: dict[str, Unit] = field(default_factory=dict)
    flags: dict[str, str] = field(default_factory=dict)
    terminator: str = ""
    apart: Apart = "content"
    check: Check | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldKeys(LaidOut):
    """The keys of a frame that is said field by field.

    The fields are those of `config/gauges/example-fields.toml`. `order` is that of the bits in a
    byte. `decimal` is the decimal sign, `places` the number of decimals where none is sent, or to
    which a number is rounded that has to be computed. `scale` and `offset` make the length of a
    count: count × scale + offset, in the unit. `unit_by_decimals` is the unit by how many decimals
    there are. `words` are those in place of the number, and what they mean. `max_length` is in
    bytes.
    """

    order: Literal["high-first", "low-first"] = "high-first"
    decimal: Literal[".", ","] = "."
    places: PerUnit | None = None
    scale: PerUnitFloat | None = None
    offset: PerUnitFloat | None = None
    unit_by_decimals: dict[str, Unit] = field(default_factory=dict)
    words: dict[str, Missing] = field(default_factory=dict)
    max_length: Annotated[int, Range(1, 256)] = LONGEST
