"""A person who works the practice mill by the console, over and over, for the demo.

The machinist reads the same view as every screen, does the physical thing it names on the
practice mill, presses the primary action, and knows nothing else. Signed, the hands throw the
head out of square again, and begin the next audit.
"""

import datetime
import logging
import threading
from collections.abc import Callable
from typing import Any, Final, Literal

from daq.virtual.machinist import Machinist
from daq.virtual.mill import VirtualMill
from daq.virtual.turning import Turn, bring_to_stop
from daq.virtual.wires.scale import MM_PER_INCH
from daq.virtual.workplace import CannotError, Plain, TurnedRound, Workplace
from daq.words import Ack, Axis, Live, Position

log = logging.getLogger(__name__)

GetSnapshot = Callable[[], Plain]
Post = Callable[[str, dict[str, Any]], Ack]
GetLive = Callable[[], Live]

FINISH: Final[dict[Axis, Literal[1, -1]]] = {"side": 1, "nod": -1}
"""The last turn: on nod it raises the front, against the head's weight."""

NUDGE_MM: Final = 0.1
"""A few degrees of an adjuster, as lean across the sweep."""

NUMBER: Final = "P-0417"
"""What stands on the practice gauge, as its file says."""

LOOKS: Final = 8
"""Indications averaged for one look at the number."""

LOOK_S: Final = 0.02
LOOK_TIMEOUT_S: Final = 2.0
FLICKS: Final = 3
AGAIN_S: Final = 0.25
LONGEST_AGAIN_S: Final = 5.0


class AtPracticeMill(Workplace):
    """The practice mill, and the console and the number of the service that reads it.

    Waits end, and nothing more is pressed, once `stopping` is set.
    """

    def __init__(
        self,
        get_snapshot: GetSnapshot,
        post: Post,
        get_live: GetLive,
        mill: VirtualMill,
        stopping: threading.Event,
    ) -> None:
        """Stand at `mill`."""
        self._get_snapshot, self._post, self._get_live = get_snapshot, post, get_live
        self._mill = mill
        self._stopping = stopping

    def look(self) -> Plain:
        """The console of the newest snapshot."""
        console: Plain = self._get_snapshot()["pages"]["console"]
        return console

    def press(self, kind: str, payload: Plain) -> Ack:
        """Hand in a command."""
        return self._post(kind, dict(payload))

    def today(self) -> datetime.date:
        """Today, UTC."""
        return datetime.datetime.now(tz=datetime.UTC).date()

    def wait(self, seconds: float) -> None:
        """Wait for so long, or raise CannotError when the hands are to let go."""
        if self._stopping.wait(seconds):
            raise CannotError("the hands were told to let go")

    def number(self) -> str:
        """What stands on the practice gauge."""
        return NUMBER

    def read(self) -> float:
        """What the number is over some fresh indications."""
        seen: dict[int, float] = {}
        first = self._get_live().n
        for _ in range(round(LOOK_TIMEOUT_S / LOOK_S)):
            live = self._get_live()
            if live.fresh and live.n > first + 1:
                seen[live.n] = _face(live)
            if len(seen) >= LOOKS:
                return sum(seen.values()) / len(seen)
            self.wait(LOOK_S)
        raise CannotError("the number is lost")

    def lift(self) -> None:
        """Lift the gauge."""
        self._mill.free()

    def push(self) -> None:
        """Push the contact in where it hangs in the air, and let it go."""
        self._mill.free()
        self._mill.push_contact()

    def swing(self, position: Position) -> None:
        """Swing the arm and set the contact down."""
        self._mill.swing_to(position)
        self._mill.set_on()

    def slow_turn(self) -> None:
        """Set the contact down at the front and turn slowly round and back."""
        self.swing("front")
        self._mill.slow_turn()

    def flick(self) -> None:
        """Flick the arm three times."""
        for _ in range(FLICKS):
            self._mill.flick_arm()

    def come(self, station: Plain) -> None:
        """Turn the spindle, move the table, tap a vise in."""
        to = station["to"]
        match station["what"]:
            case "turn-spindle":
                self._mill.turn_spindle(to["to"], to["at"], to["seat"])
            case "move-table":
                self._mill.move_table(to["axis"], to["to"])
            case "move-along-jaw":
                self._mill.move_along_jaw(to["to"])
            case "tap-end":
                self._mill.move_along_jaw(to["to"])
                self._bring(to["reads"] / self._scale(), self._mill.tap_jaw, 1)

    def turn_round(self, what: TurnedRound) -> None:
        """Turn something round under the lifted contact and set it down again."""
        self._mill.free()
        if what == "ring":
            self._mill.turn_ring()
        else:
            self._mill.turn_arm()
        self._mill.set_on()

    def crack(self, axis: Axis) -> None:
        """Loosen the bolts."""
        self._mill.loosen(axis)

    def turn(self, axis: Axis, reads: float) -> None:
        """Feel the number to its mark, then take the hand off the adjuster."""
        try:
            self._bring(reads, lambda mm: self._mill.turn(axis, mm, hold=True), FINISH[axis])
        finally:
            self._mill.let_go(axis)

    def _bring(self, reads: float, turn: Turn, finish: Literal[1, -1]) -> None:
        scale = self._scale()
        if not bring_to_stop(lambda: (reads - self.read()) * scale, turn, finish):
            raise CannotError(f"the number does not come to {reads}")

    def _scale(self) -> float:
        return MM_PER_INCH if self._get_live().unit == "in" else 1.0

    def nudge(self, axis: Axis, *, back: bool) -> None:
        """Turn a little; back is against the last turn of every move."""
        self._mill.turn(axis, NUDGE_MM * FINISH[axis] * (-1 if back else 1))

    def pull(self, axis: Axis, bolt: str = "") -> None:
        """Pull up one bolt, or all."""
        if bolt:
            self._mill.tighten_bolt(axis, bolt)
        else:
            self._mill.tighten(axis)


def _face(live: Live) -> float:
    try:
        return float(live.text)
    except ValueError:
        raise CannotError(f"the number cannot be read: {live.text!r}") from None


class Hands:
    """The obedient machinist on one practice mill, over and over, from `start` to `stop`."""

    def __init__(
        self,
        get_snapshot: GetSnapshot,
        post: Post,
        get_live: GetLive,
        mill: VirtualMill,
        *,
        pause_s: float = 8.0,
    ) -> None:
        """Take hold of `mill`; `pause_s` is how long a signed audit stays on the screens."""
        self._mill = mill
        self._pause_s = pause_s
        self._stopping = threading.Event()
        self._at = AtPracticeMill(get_snapshot, post, get_live, mill, self._stopping)
        self._person = Machinist(self._at)
        self._thread: threading.Thread | None = None
        self._thrown_for = ""

    def start(self) -> None:
        """Begin to work in a thread of their own."""
        if self._thread is not None:
            return
        self._stopping.clear()
        self._thread = threading.Thread(target=self._work, name="practice-hands", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Let go: what is being done on the mill is finished first."""
        self._stopping.set()
        if self._thread is not None:
            self._thread.join()
            self._thread = None

    def step(self) -> bool:
        """Do and press the one next thing; return whether it was accepted."""
        try:
            page = self._at.look()
            if page["step"] == "signed":
                self._throw(str(page.get("audit")))
            self._person.step(page)
        except CannotError as error:
            log.info("%s", error)
            return False
        return True

    def _work(self) -> None:
        again_s = AGAIN_S
        while not self._stopping.is_set():
            try:
                done = self.step()
            except Exception:
                # Whatever the page or the port does, a person tries again.
                log.exception("the practice hands could not do as they were told")
                done = False
            if done:
                again_s = AGAIN_S
                continue
            self._stopping.wait(again_s)
            again_s = min(2.0 * again_s, LONGEST_AGAIN_S)

    def _throw(self, audit: str) -> None:
        """Leave a signed audit on the screens for a while, then throw the head, once."""
        if self._thrown_for != audit:
            self._at.wait(self._pause_s)
            self._mill.reset()
            self._thrown_for = audit
