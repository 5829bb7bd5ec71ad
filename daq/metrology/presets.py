"""Tolerances a shop can start from: how square is square enough for which work."""

from dataclasses import dataclass
from typing import Final

_TRADE: Final = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Preset:
    """A limit to either side, mm, over a length, mm; what it is for and where it is from."""

    key: str
    say: str
    limit_mm: float
    over_mm: float
    source: str


PRESETS: Final[tuple[Preset, ...]] = (
    Preset("roughing", "roughing and drilling", 0.05, 300.0, _TRADE),
    Preset("general", "general work", 0.025, 300.0, _TRADE),
    Preset("facing", "wide facing", 0.015, 300.0, _TRADE),
    Preset("boring", "boring", 0.010, 300.0, _TRADE),
    Preset(
        "acceptance",
        "acceptance of the machine",
        0.025,
        300.0,
        "ISO 1701-2 (from memory, number not seen)",
    ),
)

DEFAULT: Final = "general"
"""The key of the preset a machine starts with."""
