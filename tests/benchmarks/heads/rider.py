"""One audit of one head by the obedient machinist, and how it ended."""

from dataclasses import dataclass

from daq.audit.codec import decode
from daq.audit.events import Signed
from daq.service.in_memory import InMemory
from daq.virtual import CannotError, Hand, Machinist
from daq.virtual.simulated import Simulated
from daq.virtual.workplace import Plain, TurnedRound
from daq.words import Ack, Axis, Position

from .clock import Clock
from .mill import Mill

HAND = Hand("D. B.", answers=("sweep-again", "check-again", "read-again"))
"""Answers with doubt, as nothing was touched."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """How an audit ended: side and nod, mm across the sweep.

    `read_mm` is what the as-left sweep showed, `true_mm` where the head really stands.
    `lost`: why it did not end, else empty. `minutes` by the clock of hands, all told; `readings`
    taken with the contact on the surface.
    """

    moves: int
    verdict: str
    read_mm: tuple[float, float] = (0.0, 0.0)
    true_mm: tuple[float, float] = (0.0, 0.0)
    asked: int = 0
    lost: str = ""
    minutes: float = 0.0
    readings: int = 0

    def inside(self, limit_mm: float) -> bool:
        """Whether the head truly stands inside on both axes."""
        return max(map(abs, self.true_mm)) <= limit_mm


class Ride(Simulated):
    """A mill and the decisions about it, counting what they lead to and how long that takes.

    What hands do and press takes its seconds on the clock of the decisions, too.
    """

    def __init__(self, decisions: InMemory, mill: Mill) -> None:
        super().__init__(decisions, mill)
        self.moves = 0
        self.asked = 0
        self.readings = 0
        self.clock = Clock(blocks=decisions.setup.machine.seat == "block")
        self._page: Plain = {}

    def look(self) -> Plain:
        """The console; what it says last is what hands go by."""
        self._page = super().look()
        return self._page

    def press(self, kind: str, payload: Plain) -> Ack:
        """Press; where that ends a move, the hand leaves the adjuster after it."""
        if kind == "answer":
            self.asked += not any(action["primary"] for action in self.look()["actions"])
        self._pass(self.clock.presses(kind))
        ack = super().press(kind, payload)
        self.readings += kind == "take" and ack.accepted and self.place is not None
        for seq in ack.seqs:
            event = self.decisions.events[seq - 1]
            if event.type == "Moved":
                self.moves += 1
                self.head.let_go(event.data["axis"], self.place)
        return ack

    def wait(self, seconds: float) -> None:
        """Wait as told."""
        self._pass(self.clock.waits(seconds))

    def swing(self, position: Position) -> None:
        """Swing the gauge, back the way it came where the console says so."""
        back = str(self._page.get("title", "")).startswith("turn-back")
        self._pass(self.clock.swings(position, back=back))
        super().swing(position)

    def turn_round(self, what: TurnedRound) -> None:
        """Turn the ring or the arm round."""
        self._pass(self.clock.turns_ring())
        super().turn_round(what)

    def crack(self, axis: Axis) -> None:
        """Loosen the bolts."""
        self._pass(self.clock.cracks(axis))
        super().crack(axis)

    def turn(self, axis: Axis, reads: float) -> None:
        """Turn the adjuster."""
        self._pass(self.clock.turns())
        super().turn(axis, reads)

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn the adjuster a little."""
        self._pass(self.clock.turns())
        super().nudge(axis, back=back)

    def pull(self, axis: Axis, bolt: str = "") -> None:
        """Pull up one bolt, for its part of all steps, or all of them."""
        part = 1.0 / self._page["bolts"]["of"] if bolt else 1.0
        self._pass(self.clock.tightens(axis, part))
        super().pull(axis, bolt)

    def _pass(self, seconds: float) -> None:
        super().wait(seconds)


def ride(mill: Mill, decisions: InMemory) -> Outcome:
    """Open an audit, obey, sign. An audit that leads nowhere is told, not raised."""
    at = Ride(decisions, mill)
    try:
        Machinist(at, HAND).step()
        Machinist(at, HAND).work("signed")
    except CannotError as error:
        job = decisions.state.job
        lost = f"{job.step if job else 'no audit'}: {error}"
        return Outcome(at.moves, "lost", asked=at.asked, lost=lost, **_spent(at))
    signed = decode(decisions.events[-1])
    assert isinstance(signed, Signed)
    side, nod = (result.d_mm for result in signed.as_left.values())
    left_mm = ((side, nod), mill.differences())
    return Outcome(at.moves, signed.verdict, *left_mm, at.asked, **_spent(at))


def _spent(at: Ride) -> dict[str, int | float]:
    return {"minutes": at.clock.seconds / 60.0, "readings": at.readings}
