"""What was done to the table and the machine before anything was read, and what was not."""

from dataclasses import dataclass
from typing import Final, Literal

Tick = Literal["bare", "clean", "centred", "locked"]
TICKS: Final[tuple[Tick, ...]] = ("bare", "clean", "centred", "locked")

TABLE: Final = "table"
"""What an audit keeps it by."""


@dataclass(frozen=True)
class TableReady:
    """`not_done`: what of it was not, and `why`.

    `temperature_c`: of the shop, °C, None where nobody read it; `thermometer`, `wrench`: the
    numbers on the thermometer and the torque wrench, if there are any.
    """

    not_done: tuple[Tick, ...] = ()
    why: str = ""
    temperature_c: float | None = None
    thermometer: str = ""
    wrench: str = ""
