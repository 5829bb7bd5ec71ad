"""One audit of one head by the obedient machinist, and how it ended."""

from dataclasses import dataclass

from daq.audit.codec import decode
from daq.audit.events import Signed
from daq.service.in_memory import InMemory
from daq.virtual import CannotError, Hand, Machinist
from daq.virtual.simulated import Simulated
from daq.virtual.workplace import Plain
from daq.words import Ack

from .mill import Mill

HAND = Hand("D. B.", answers=("sweep-again", "check-again", "read-again"), pace_s=8.0)
"""Answers with doubt, as nothing was touched; a swing takes about so long."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """How an audit ended: side and nod, mm across the sweep.

    `read_mm` is what the as-left sweep showed, `true_mm` where the head really stands.
    `lost`: why it did not end, else empty.
    """

    moves: int
    verdict: str
    read_mm: tuple[float, float] = (0.0, 0.0)
    true_mm: tuple[float, float] = (0.0, 0.0)
    asked: int = 0
    lost: str = ""

    def inside(self, limit_mm: float) -> bool:
        """Whether the head truly stands inside on both axes."""
        return max(map(abs, self.true_mm)) <= limit_mm


class Ride(Simulated):
    """A mill and the decisions about it, counting what they lead to."""

    def __init__(self, decisions: InMemory, mill: Mill) -> None:
        super().__init__(decisions, mill)
        self.moves = 0
        self.asked = 0

    def press(self, kind: str, payload: Plain) -> Ack:
        """Press; where that ends a move, the hand leaves the adjuster after it."""
        if kind == "answer":
            self.asked += not any(action["primary"] for action in self.look()["actions"])
        ack = super().press(kind, payload)
        for seq in ack.seqs:
            event = self.decisions.events[seq - 1]
            if event.type == "Moved":
                self.moves += 1
                self.head.let_go(event.data["axis"], self.place)
        return ack


def ride(mill: Mill, decisions: InMemory) -> Outcome:
    """Open an audit, obey, sign. An audit that leads nowhere is told, not raised."""
    at = Ride(decisions, mill)
    try:
        Machinist(at, HAND).step()
        Machinist(at, HAND).work("signed")
    except CannotError as error:
        job = decisions.state.job
        lost = f"{job.step if job else 'no audit'}: {error}"
        return Outcome(at.moves, "lost", asked=at.asked, lost=lost)
    signed = decode(decisions.events[-1])
    assert isinstance(signed, Signed)
    side, nod = (result.d_mm for result in signed.as_left.values())
    return Outcome(at.moves, signed.verdict, (side, nod), mill.differences(), at.asked)
