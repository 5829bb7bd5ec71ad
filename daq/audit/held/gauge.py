"""The gauge, as its own readings in this audit showed it."""

from dataclasses import dataclass, replace

from daq.metrology.flicks import Friction
from daq.units import SLACK_MM
from daq.words import POSITIONS, Position, Reading, Unit


@dataclass(frozen=True)
class GaugeSeen:
    """Its unit, its reading with the contact in the air, how still it is, whether it was zeroed.

    `spread_mm`: what its number may wander within a reading; `free_sd_mm`: the standard deviation
    of the free reading's samples. `streams`: they come by themselves, several while a hand moves
    it. `lifted`: the contact hangs in the air, as far as can be known: to be brought down before
    a reading; `put_on`: arm and gauge were away since it was set, or touched. `zeroed`: since the
    audit was opened, so that some spot reads zero. `visits`: how far spots read off that were
    come back to untouched. `read`: how many readings were taken; in `flickered` of them a digit
    changed. `at`: where it was read last, its cable wound by `wound_deg` since it was put on, above
    zero the way from front to right. `friction`: as flicks of the arm showed it since it was
    put in, None when they did not; `sent_back`: where the number rested in the attempts that did
    not come back, until one does.
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
    at: Position | None = None
    wound_deg: float = 0.0
    friction: Friction | None = None
    sent_back: tuple[tuple[float, ...], ...] = ()

    def down(self) -> "GaugeSeen":
        """The same with the contact set, and read."""
        return replace(self, lifted=False, put_on=False)

    def away(self) -> "GaugeSeen":
        """The same with arm and gauge put on anew: its cable hangs free."""
        return replace(self, put_on=True, at=None, wound_deg=0.0)

    def counting(self, reading: Reading) -> "GaugeSeen":
        """The same after one more reading."""
        flickered = self.flickered + (reading.sd_mm > SLACK_MM)
        at = reading.position or self.at
        wound = self._wound(at)
        return replace(self, read=self.read + 1, flickered=flickered, at=at, wound_deg=wound)

    def swing_deg(self, to: Position) -> float:
        """How far round it comes there from where it was read last: the shorter way.

        Half a turn goes the way that unwinds its cable.
        """
        if self.at is None:
            return 0.0
        turn = (POSITIONS[to] - POSITIONS[self.at] + 180.0) % 360.0 - 180.0
        return 180.0 if turn == -180.0 and self.wound_deg < 0.0 else turn

    def _wound(self, to: Position | None) -> float:
        """How far its cable is wound there."""
        return 0.0 if to is None or self.at is None else self.wound_deg + self.swing_deg(to)
