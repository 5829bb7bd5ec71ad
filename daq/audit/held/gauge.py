"""The gauge, as its own readings in this audit showed it."""

from dataclasses import dataclass, replace

from daq.metrology.flicks import Friction
from daq.units import SLACK_MM
from daq.words import Reading, Unit


@dataclass(frozen=True)
class GaugeSeen:
    """Its unit, its reading with the contact in the air, how still it is, whether it was zeroed.

    `spread_mm`: what its number may wander within a reading; `free_sd_mm`: the standard deviation
    of the free reading's samples. `streams`: they come by themselves, several while a hand moves
    it. `lifted`: the contact hangs in the air, as far as can be known: to be brought down before
    a reading; `put_on`: arm and gauge were away since it was set, or touched. `zeroed`: since the
    audit was opened, so that some spot reads zero. `visits`: how far spots read off that were
    come back to untouched. `read`: how many readings were taken; in `flickered` of them a digit
    changed. `friction`: as flicks of the arm showed it since it was put in, None when they did not;
    `sent_back`: where the number rested in the attempts that did not come back, until one does.
    """

    unit: Unit
    free_pushed_mm: float | None = None
    spread_mm: float = 0.0
    free_sd_mm: float = 0.0
    streams: bool = True
    lifted: bool = True
    put_on: bool = False
    zeroed: bool = False
    visits: tuple[float, ...] = ()
    read: int = 0
    flickered: int = 0
    friction: Friction | None = None
    sent_back: tuple[tuple[float, ...], ...] = ()

    def down(self) -> "GaugeSeen":
        """The same with the contact set, and read."""
        return replace(self, lifted=False, put_on=False)

    def counting(self, reading: Reading) -> "GaugeSeen":
        """The same after one more reading."""
        flickered = self.flickered + (reading.sd_mm > SLACK_MM)
        return replace(self, read=self.read + 1, flickered=flickered)
