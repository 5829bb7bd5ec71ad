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

    `temperature_c`: of the room, beside it those of machine and ring, or plate, °C; None where
    nobody read it. `thermometer`, `wrench`: the numbers on the thermometer and the torque wrench,
    if there are any.
    """

    not_done: tuple[Tick, ...] = ()
    why: str = ""
    temperature_c: float | None = None
    machine_c: float | None = None
    ring_c: float | None = None
    thermometer: str = ""
    wrench: str = ""

    @property
    def apart_k(self) -> float | None:
        """How far apart ring, machine and room are, K: between them lies every part of the ring.

        None where the ring was not read, or nothing beside it.
        """
        around = [each for each in (self.temperature_c, self.machine_c) if each is not None]
        if self.ring_c is None or not around:
            return None
        return max(self.ring_c, *around) - min(self.ring_c, *around)
