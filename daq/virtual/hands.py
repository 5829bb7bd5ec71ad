"""A person who does what the console says: for the demo, and to try the whole house out.

The hands read the same view as every screen, do the physical thing it names on
the practice mill, press the primary action, and know nothing else. They sign,
throw the head out of square again, and begin the next audit.
"""

import logging
import threading
from collections.abc import Callable, Mapping
from typing import Any, Final, Literal

from daq.virtual import orders
from daq.virtual.mill import VirtualMill
from daq.virtual.turning import bring_to_stop
from daq.words import Ack, Axis, Live

log = logging.getLogger(__name__)

GetSnapshot = Callable[[], Mapping[str, Any]]
Post = Callable[[str, dict[str, Any]], Ack]
GetLive = Callable[[], Live]

FINISH: Final[dict[Axis, Literal[1, -1]]] = {"side": 1, "nod": -1}
"""The last turn: on nod it raises the front, against the head's weight."""

NUDGE_MM: Final = 0.1
"""A few degrees of an adjuster, as lean across the sweep."""

LOOKS: Final = 8
"""Indications averaged for one look at the number."""

LOOK_S: Final = 0.02
LOOK_TIMEOUT_S: Final = 2.0
AGAIN_S: Final = 0.25
LONGEST_AGAIN_S: Final = 5.0


class Hands:
    """Obeys the advice on one practice mill, over and over, from `start` to `stop`."""

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
        self._get_snapshot = get_snapshot
        self._post = post
        self._get_live = get_live
        self._mill = mill
        self._pause_s = pause_s
        self._stopping = threading.Event()
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
        console = self._console()
        if console["step"] == "signed":
            return self._begin_again(console)
        action = orders.asked(console)
        if action is None:
            return False
        if action["kind"] != "answer" and not self._obey(console.get("do") or {}):
            return False
        return not self._stopping.is_set() and self._press(action)

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

    def _console(self) -> Mapping[str, Any]:
        console: Mapping[str, Any] = self._get_snapshot()["pages"]["console"]
        return console

    def _begin_again(self, console: Mapping[str, Any]) -> bool:
        audit = str(console.get("audit"))
        if self._thrown_for != audit:
            if self._stopping.wait(self._pause_s):
                return False
            self._mill.reset()
            self._thrown_for = audit
        action = orders.asked(console)
        return action is not None and self._press(action)

    def _press(self, action: Mapping[str, Any]) -> bool:
        ack = self._post(action["kind"], orders.payload(action))
        if not ack.accepted:
            log.info("%s was not taken (%s): %s", action["kind"], ack.code, ack.reason)
        return ack.accepted

    def _obey(self, what: Mapping[str, Any]) -> bool:
        """Do the physical thing `what` names; return False when it did not come off."""
        mill = self._mill
        match what.get("kind", "nothing"):
            case "free":
                mill.free()
            case "set":
                mill.set_on()
            case "push":
                mill.set_on()
                mill.push_contact()
            case "swing":
                mill.swing_to(what["position"])
                mill.set_on()
            case "turn-ring":
                self._lifted(mill.turn_ring)
            case "turn-arm":
                self._lifted(mill.turn_arm)
            case "loosen":
                mill.loosen(what["axis"])
            case "tighten":
                mill.tighten(what["axis"])
            case "bolt":
                mill.tighten_bolt(what["axis"], str(what["bolt"]))
            case "nudge":
                mill.turn(what["axis"], NUDGE_MM * FINISH[what["axis"]])
            case "turn":
                return self._turn(what["axis"], str(what.get("stop_at_text", "")))
            case "nothing":
                pass
            case other:
                log.warning("the practice hands were told %r and do not know how", other)
        return True

    def _lifted(self, turn_round: Callable[[], str]) -> None:
        """Turn something round under the lifted contact and set it down again."""
        self._mill.free()
        turn_round()
        self._mill.set_on()

    def _turn(self, axis: Axis, stop_at: str) -> bool:
        there = bring_to_stop(
            lambda: self._look(stop_at),
            lambda amount_mm: self._mill.turn(axis, amount_mm, hold=True),
            FINISH[axis],
        )
        self._mill.let_go(axis)
        return there

    def _look(self, stop_at: str) -> float | None:
        """Return how far the number has to go, mm, over some fresh indications; None if lost."""
        seen: dict[int, float] = {}
        first = self._get_live().n
        for _ in range(round(LOOK_TIMEOUT_S / LOOK_S)):
            live = self._get_live()
            to_go = orders.to_go_mm(live, stop_at) if live.fresh else None
            if to_go is not None and live.n > first + 1:
                seen[live.n] = to_go
            if len(seen) >= LOOKS:
                return sum(seen.values()) / len(seen)
            if self._stopping.wait(LOOK_S):
                break
        return None
