"""One audit of one head by the obedient machinist, and how it ended."""

import time
from dataclasses import dataclass, field, replace
from typing import Final, Protocol

from daq.audit.codec import decode
from daq.audit.events import Signed
from daq.service.in_memory import InMemory
from daq.virtual import CannotError, Hand, Machinist
from daq.virtual.simulated import HeadModel, Simulated
from daq.virtual.workplace import Plain, TurnedRound
from daq.words import AXES, PARKED, Ack, Axis, Event, Position

from .clock import Clock

HAND = Hand("D. B.", answers=("sweep-again", "check-again", "read-again"))
"""Answers with doubt, as nothing was touched."""
MOVES: Final = ("Moved", "Shimmed")
READS: Final = ("CheckDone", "SweepDone", "RamAsked")


class Ridden(HeadModel, Protocol):
    """A head that shows how it truly stands, and does something by itself."""

    def differences(self) -> tuple[float, float]:
        """The true differences across the sweep, side and nod, the ring's wedge left out."""
        ...

    def let_go(self, axis: Axis, position: Position) -> None:
        """The hand leaves the adjuster."""

    def passes(self, seconds: float) -> None:
        """Time goes by."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """How an audit ended: side and nod, mm across the sweep.

    `read_mm` is what the as-left sweep showed, `true_mm` where the head really stands, `limit_mm`
    how far it may. `lost`: why it did not end, else empty. `minutes` by the clock of hands, all
    told; `readings` taken with the contact on the surface. `strange`: what was said of pairs that
    did not fit, `named`: what was the likeliest to have happened then. `worse`: moves that left
    their axis further out than before by over its limit. `pressed_ms`: the processor time of all
    `presses`, each decided and told; `slowest_ms` that of one.
    """

    moves: int
    verdict: str
    read_mm: tuple[float, float] = (0.0, 0.0)
    true_mm: tuple[float, float] = (0.0, 0.0)
    limit_mm: float = 0.0
    asked: int = 0
    lost: str = ""
    minutes: float = 0.0
    readings: int = 0
    strange: tuple[str, ...] = ()
    named: tuple[str, ...] = ()
    worse: int = 0
    presses: int = 0
    pressed_ms: float = field(default=0.0, compare=False)
    slowest_ms: float = field(default=0.0, compare=False)

    @property
    def inside(self) -> bool:
        """Whether the head truly stands inside on both axes."""
        return max(map(abs, self.true_mm)) <= self.limit_mm


class Ride(Simulated):
    """A mill and the decisions about it, counting what they lead to and how long that takes.

    What hands do and press takes its seconds on the clock of the decisions, too.
    """

    def __init__(self, decisions: InMemory, mill: Ridden) -> None:
        super().__init__(decisions, mill)
        self._ridden = mill
        self.moves = self.asked = self.readings = self.worse = 0
        self.strange: list[str] = []
        self.named: list[str] = []
        self.took_ms: list[float] = []
        self.clock = Clock(blocks=decisions.setup.machine.seat == "block")
        self._page: Plain = {}
        self._before_mm = 0.0

    def look(self) -> Plain:
        """The console; what it says last is what hands go by."""
        self._page = super().look()
        return self._page

    def press(self, kind: str, payload: Plain) -> Ack:
        """Press; where that ends a move, the hand leaves the adjuster after it."""
        if kind == "answer":
            self.asked += not any(action["primary"] for action in self.look()["actions"])
        self._pass(self.clock.presses(kind))
        began = time.process_time()
        ack = super().press(kind, payload)
        self.took_ms.append(1e3 * (time.process_time() - began))
        self.readings += kind == "take" and ack.accepted and self.place is not None
        for seq in ack.seqs:
            self._came(self.decisions.events[seq - 1])
        return ack

    def _came(self, event: Event) -> None:
        if event.type in MOVES:
            self.moves += 1
            axis: Axis = event.data["axis"]
            self._ridden.let_go(axis, self.place or PARKED[axis])
            limit_mm = self.decisions.state.job.axes.results[axis].limit_mm
            self.worse += bool(self._off(axis) > self._before_mm + limit_mm)
        elif event.type in READS:
            self.strange.append(event.data.get("strange", ""))
            asked = event.data.get("guess") if event.type == "RamAsked" else None
            guesses = event.data.get("guesses") or ((asked,) if asked else ())
            self.named += [guess["kind"] for guess in guesses[:1]]

    def _off(self, axis: Axis) -> float:
        return abs(self._ridden.differences()[AXES.index(axis)])

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
        self._before_mm = self._off(axis)
        super().turn(axis, reads)

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn the adjuster a little."""
        self._pass(self.clock.turns())
        self._before_mm = self._off(axis)
        super().nudge(axis, back=back)

    def pull(self, axis: Axis, bolt: str = "") -> None:
        """Pull up one bolt, for its part of all steps, or all of them."""
        part = 1.0 / self._page["bolts"]["of"] if bolt else 1.0
        self._pass(self.clock.tightens(axis, part))
        super().pull(axis, bolt)

    def _pass(self, seconds: float) -> None:
        super().wait(seconds)
        self._ridden.passes(seconds)


def ride(mill: Ridden, decisions: InMemory, knows: tuple[str, ...] = ()) -> Outcome:
    """Open an audit, obey, sign. One that leads nowhere, or breaks, is told and not raised.

    `knows`: answers that this person gives first, since they are so.
    """
    at = Ride(decisions, mill)
    hand = replace(HAND, answers=(*knows, *HAND.answers))
    try:
        Machinist(at, hand).step()
        Machinist(at, hand).work("signed")
    except (CannotError, ArithmeticError, ValueError) as error:
        job = decisions.state.job
        return replace(_so_far(at), lost=f"{job.step if job else 'no audit'}: {error}")
    signed = decode(decisions.events[-1])
    assert isinstance(signed, Signed)
    side, nod = signed.as_left.values()
    return replace(
        _so_far(at),
        verdict=signed.verdict,
        read_mm=(side.d_mm, nod.d_mm),
        true_mm=mill.differences(),
        limit_mm=nod.limit_mm,
    )


def _so_far(at: Ride) -> Outcome:
    return Outcome(
        at.moves,
        "lost",
        asked=at.asked,
        minutes=at.clock.seconds / 60.0,
        readings=at.readings,
        strange=tuple(filter(None, at.strange)),
        named=tuple(at.named),
        worse=at.worse,
        presses=len(at.took_ms),
        pressed_ms=sum(at.took_ms),
        slowest_ms=max(at.took_ms),
    )
