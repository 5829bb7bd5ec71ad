"""A place without wires and without time: a model of a head, and decisions made in memory.

The model may be anybody's. Nothing here knows how a head answers, or what is decided.
"""

import datetime
import math
from collections.abc import Callable, Sequence
from typing import Final, Protocol

from daq.virtual.wires.scale import MM_PER_INCH
from daq.virtual.workplace import CannotError, Plain, TurnedRound, Workplace
from daq.words import FOUR_POSITIONS, POSITIONS, Ack, Axis, Position

PUSH_MM: Final = 1.2
SAMPLES: Final = 3
SLOW_TURN_S: Final = 12.0
SENT_HZ: Final = 50
"""Numbers a second, as `daq.service.in_memory` spaces them."""


class Decisions(Protocol):
    """What decides a press: `daq.service.in_memory.InMemory`, or anything like it."""

    @property
    def console(self) -> Plain:
        """What the console shows."""
        ...

    @property
    def today(self) -> str:
        """The date."""
        ...

    @property
    def number(self) -> str:
        """What stands on the gauge."""
        ...

    def wait(self, seconds: float) -> None:
        """Let time go by."""
        ...

    def pass_by(self, collar: Sequence[tuple[Position, bool, float]]) -> None:
        """The arm passes switches from now on: each place, whether it closes, after how many s."""
        ...

    def press(self, kind: str, payload: Plain, shows: Callable[[], Sequence[float]]) -> Ack:
        """Decide a press; `shows` gives the numbers that the gauge sends, mm."""
        ...


class HeadModel(Protocol):
    """A head with a gauge in its spindle. Lengths mm, as the gauge counts: up when pushed in.

    Whoever inherits from it need not say what a head does that only leans when it is turned.
    """

    def reads(self, at: Position | None) -> float:
        """What the gauge shows at a position, or with its contact in the air."""
        ...

    def turn(self, axis: Axis, at: Position, reads: float) -> None:
        """Turn an adjuster until the gauge, at that position, shows this."""
        ...

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn an adjuster a little: back from where it was turned last, or any way."""
        raise CannotError(f"this head's {axis} adjuster cannot be turned a little by hand")

    def crack(self, axis: Axis) -> None:
        """Loosen the bolts of an axis."""

    def pull(self, axis: Axis, part: float) -> None:
        """Pull up the bolts of an axis by this part of the whole."""

    def turn_round(self, what: TurnedRound) -> None:
        """Turn the ring or the arm half round."""


class Simulated(Workplace):
    """A head and the decisions about it; `place` is where its gauge stands, None in the air.

    Each press shows `samples` numbers, all alike.
    """

    def __init__(self, decisions: Decisions, head: HeadModel, samples: int = SAMPLES) -> None:
        """Stand at a head."""
        self.decisions = decisions
        self.head = head
        self.place: Position | None = None
        self._samples = samples

    def look(self) -> Plain:
        """The console."""
        return self.decisions.console

    def press(self, kind: str, payload: Plain) -> Ack:
        """Have a press decided with what the gauge shows now."""
        return self.decisions.press(kind, payload, lambda: self._shows(kind))

    def _shows(self, kind: str) -> Sequence[float]:
        if kind == "slow-turn":
            return self._turned()
        return self.pushed() if kind == "pushed" else (self.shown(),) * self._samples

    def slow_turn(self) -> None:
        """To the front; it is turned as the press comes, which is when its numbers do."""
        self.place = "front"

    def _turned(self) -> Sequence[float]:
        """A plane's circle through what is read at the places, number by number, past a collar."""
        quarter_s, half_s = SLOW_TURN_S / 4.0, SLOW_TURN_S / 120.0
        way = [*FOUR_POSITIONS, *FOUR_POSITIONS[:1]]
        self.decisions.pass_by(
            [
                (place, closed, n * quarter_s + (-half_s if closed else half_s))
                for n, place in enumerate((*way, *way[-2::-1]))
                for closed in (True, False)
            ]
        )
        front, right, back, left = (self.head.reads(place) for place in FOUR_POSITIONS)
        count = round(SLOW_TURN_S * SENT_HZ)
        forth = [math.radians(POSITIONS["front"] + 360.0 * n / count) for n in range(count + 1)]
        numbers = [
            (front + right + back + left) / 4.0
            + 0.5 * (right - left) * math.cos(phi)
            + 0.5 * (back - front) * math.sin(phi)
            for phi in (*forth, *forth[-2::-1])
        ]
        return (*numbers, *(self.head.reads("front"),) * self._samples)

    def shown(self) -> float:
        """What the gauge sends, mm."""
        return self.head.reads(self.place)

    def pushed(self) -> Sequence[float]:
        """What the gauge sends while its contact is pushed in by hand and let go."""
        shown = self.shown()
        return (shown, shown + PUSH_MM, *(shown,) * self._samples)

    def today(self) -> datetime.date:
        """The date."""
        return datetime.date.fromisoformat(self.decisions.today)

    def wait(self, seconds: float) -> None:
        """Let time go by; nobody sleeps."""
        self.decisions.wait(seconds)

    def number(self) -> str:
        """The gauge's number."""
        return self.decisions.number

    def read(self) -> float:
        """The gauge's face."""
        return self.shown() / self.scale

    def lift(self) -> None:
        """Into the air."""
        self.place = None

    def push(self) -> None:
        """Push the contact in the air, as the next press shows."""
        self.place = None

    def swing(self, position: Position) -> None:
        """Swing the gauge."""
        self.place = position

    def come(self, station: Plain) -> None:
        """Nothing but a head is here."""
        raise CannotError(f"there is nothing here to {station['what']}")

    def turn_round(self, what: TurnedRound) -> None:
        """Turn the ring or the arm round."""
        self.head.turn_round(what)

    def crack(self, axis: Axis) -> None:
        """Loosen the bolts."""
        self.head.crack(axis)

    def turn(self, axis: Axis, reads: float) -> None:
        """Turn the adjuster."""
        if self.place is None:
            raise CannotError("the gauge hangs in the air")
        self.head.turn(axis, self.place, reads * self.scale)

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn the adjuster a little."""
        self.head.nudge(axis, back=back)

    def pull(self, axis: Axis, bolt: str = "") -> None:
        """Pull up one bolt, for its part of all steps, or all of them."""
        self.head.pull(axis, 1.0 / self.look()["bolts"]["of"] if bolt else 1.0)

    @property
    def scale(self) -> float:
        """Millimetres in one unit of the gauge's face."""
        return MM_PER_INCH if self.look()["unit"] == "in" else 1.0
