"""Tolerances a shop can start from: how square is square enough for which work."""

from dataclasses import dataclass
from typing import Final

from daq.words import Said, said

_TRADE: Final = said("source-trade")


@dataclass(frozen=True, slots=True)
class Preset:
    """A limit to either side, mm, over a length, mm; what it is for and where it is from."""

    key: str
    name: Said
    limit_mm: float
    over_mm: float
    source: Said


PRESETS: Final[tuple[Preset, ...]] = (
    Preset("roughing", said("tolerance-roughing"), 0.05, 300.0, _TRADE),
    Preset("general", said("tolerance-general"), 0.025, 300.0, _TRADE),
    Preset("facing", said("tolerance-facing"), 0.015, 300.0, _TRADE),
    Preset("boring", said("tolerance-boring"), 0.010, 300.0, _TRADE),
    Preset(
        "acceptance",
        said("tolerance-acceptance"),
        0.025,
        300.0,
        said("source-acceptance"),
    ),
)

DEFAULT: Final = "general"
"""The key of the preset a machine starts with."""
