"""How long it takes: the seconds of each thing that hands are told to do, and of each press.

One model for whoever obeys the console and whoever squares by hand, and nowhere else. It takes
only the words of the trade from the house.
"""

from dataclasses import dataclass, field
from typing import Final

from daq.words import POSITIONS, Axis, Position

QUARTER_S: Final = 8.0
READ_S: Final = 3.0
CRACK_S: Final = (40.0, 60.0)
"""One axis's bolts, and both axes' at once."""
TURN_S: Final = 40.0
TIGHTEN_S: Final = (60.0, 90.0)
RING_S: Final = 30.0
BLOCK_S: Final = 10.0
PRESS_S: Final = 2.0
OPENING_S: Final = 60.0
"""Opening, preparing and the touch test, their presses inside."""
CLOSING_S: Final = {"cleared": 30.0, "sign": 30.0}
_OPENING_PRESS_S = 10.0
_TOUCHED = "pushed"


@dataclass(slots=True)
class Clock:
    """Seconds of one audit, and how far the spindle has been turned: its cable winds up.

    `blocks`: what the contact stands on is carried along from place to place.
    """

    blocks: bool = False
    wound_deg: float = 0.0
    seconds: float = 0.0
    opening: bool = True
    place: Position | None = None
    stood_deg: dict[Position, float] = field(default_factory=dict)
    bolts: tuple[str, str] = ("", "")
    """What was done to the bolts of which axis, if nothing else was done since."""

    def swings(self, to: Position, *, back: bool = False) -> float:
        """Swing there the shorter way, or `back` the way it came when it last stood there."""
        if self.place is None:
            # The contact is first brought down where the touch test was made.
            turned_deg = 0.0
        elif back and to in self.stood_deg:
            turned_deg = self.stood_deg[to] - self.wound_deg
        else:
            turned_deg = self._shorter(self.place, to)
        carried_s = BLOCK_S if self.blocks and to != self.place else 0.0
        self.wound_deg += turned_deg
        self.place, self.stood_deg[to] = to, self.wound_deg
        return self._spent(carried_s + abs(turned_deg) / 90.0 * QUARTER_S)

    def cracks(self, axis: Axis) -> float:
        """Crack an axis's bolts: less if the other one's were cracked right before."""
        return self._bolts("crack", axis, CRACK_S, 1.0)

    def tightens(self, axis: Axis, part: float = 1.0) -> float:
        """Pull up an axis's bolts, or a part of them; less right after the other one's."""
        return self._bolts("tighten", axis, TIGHTEN_S, part)

    def turns(self) -> float:
        """Turn an adjuster to a stop-at, or a little."""
        return self._spent(TURN_S)

    def turns_ring(self) -> float:
        """Turn the ring, or the arm, half round."""
        return self._spent(RING_S)

    def reads(self) -> float:
        """Wait for a reading and take it."""
        return self._spent(READ_S, still=True)

    def opens(self) -> float:
        """What opening still takes, the touch test with it."""
        left_s = max(OPENING_S - self.seconds, 0.0)
        self.opening = False
        return self._spent(left_s)

    def closes(self) -> float:
        """Clear and sign."""
        return sum(self.presses(kind) for kind in CLOSING_S)

    def presses(self, kind: str) -> float:
        """Press a button of the console."""
        if self.opening:
            left_s = OPENING_S - self.seconds
            return self.opens() if kind == _TOUCHED else self._spent(min(_OPENING_PRESS_S, left_s))
        if kind == "take":
            return self.reads()
        return self._spent(CLOSING_S.get(kind, PRESS_S), still=True)

    def waits(self, seconds: float) -> float:
        """Let time go by, as told."""
        return self._spent(seconds, still=True)

    def _shorter(self, at: Position, to: Position) -> float:
        """The smaller angle; of two alike the one that unwinds."""
        turned_deg = (POSITIONS[to] - POSITIONS[at]) % 360.0
        if turned_deg == 180.0:
            return turned_deg if self.wound_deg < 0.0 else -turned_deg
        return turned_deg if turned_deg < 180.0 else turned_deg - 360.0

    def _bolts(self, what: str, axis: Axis, takes_s: tuple[float, float], part: float) -> float:
        one_s, both_s = takes_s
        last, other = self.bolts
        again = last == what and other != axis
        spent = self._spent(part * (both_s - one_s if again else one_s))
        self.bolts = (what, axis)
        return spent

    def _spent(self, seconds: float, *, still: bool = False) -> float:
        """Count it; only a press or a reading leaves the hands at the bolts."""
        if not still:
            self.bolts = ("", "")
        self.seconds += seconds
        return seconds
