"""One machine's console as a switch or a gauge's key reaches it."""

import queue
import threading
import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final, Protocol

from daq.audit.views.step import Action
from daq.checks.sweep.slow_turn.way import Marks, so_far
from daq.gauges.config import GaugeConfig
from daq.service.collars import Collars
from daq.service.hub import Ear, Hub
from daq.service.takes import HOLD_STILL
from daq.service.turns import Turns
from daq.words import Ack, Command, Passed, Position, Said, Snapshot, said

SLOW_S: Final = 0.15
"""A command that only writes is over sooner; a longer one waits for the gauge, and that is said."""

JOIN_S: Final = 1.0
"""An inbox that is held by its disk gives no answer when it is stopped."""


WAIT: Final = said("hold-still")


class Recipient(Protocol):
    """Where presses are handed in."""

    def submit(self, command: Command, at_ns: int | None = None) -> Ack:
        """Carry a command out; `at_ns`: when it was given, if that was before now."""


@dataclass(frozen=True)
class Press:
    """One press: what it asks for, and which state of the console it was made at.

    `at_ns`: when it was made, if its gauge's frame or the kernel tells. `wait`: what the screens
    say while the gauge is waited for. `second`: a page's press may have asked for the same
    before, and that is no news.
    """

    kind: str
    payload: Mapping[str, Any] = field(default_factory=dict)
    at_ns: int | None = None
    wait: Said = WAIT
    second: bool = False


class Switchboard:
    """Presses go in from any thread at once; one thread of its own waits for the answers.

    While one waits, further ones are not heard: whoever presses twice means one thing. A
    refusal, which no page is there to receive, is said on the machine's screens.
    """

    def __init__(
        self,
        machine: str,
        gauge: GaugeConfig,
        hub: Hub,
        inbox: Recipient,
        actor: str,
        collars: Collars | None = None,
    ) -> None:
        """Nothing is handed in before `start`. `gauge`: the one in the machine's file."""
        self._collars = collars or Collars()
        self.machine = machine
        self.gauge = gauge
        self._hub = hub
        self._inbox = inbox
        self._actor = actor
        self._busy = threading.Lock()
        self.turns = Turns()
        self._presses: queue.SimpleQueue[tuple[Command, Press] | None] = queue.SimpleQueue()
        self._thread = threading.Thread(target=self._work, name=f"takes-{machine}", daemon=True)

    def start(self) -> None:
        """Begin to hand presses in."""
        self._thread.start()

    def stop(self) -> None:
        """Hear no more presses; one that waits for its answer is waited for by `join`."""
        self._presses.put(None)

    def join(self) -> None:
        """Wait until the last answer has come; the inbox, if it stops, gives it at once."""
        self._thread.join(JOIN_S)

    def look(self) -> Snapshot:
        """The machine as its screens show it now."""
        return self._hub.snapshot(self.machine)

    def listen(self, ear: Ear) -> None:
        """Have every sample of the machine's gauge told, on the thread of its reader."""
        self._hub.listen(self.machine, ear)

    def amiss(self, why: Said | None) -> None:
        """Say on the machine's screens why presses are not heard, until it is None."""
        self._hub.amiss(self.machine, "presses", why)

    def primary(self, seen: Snapshot, at_ns: int | None = None) -> None:
        """Press the console's first button, as its pedal does; `at_ns`: when, if that is known."""
        action = primary(seen)
        if action is None:
            self._refuse(said("no-first-button"))
        elif action.fields or action.confirm:
            self._refuse(said("done-on-the-console", button=action.say or ""))
        else:
            self.press(seen, Press(action.kind, action.payload, at_ns))

    def undo(self, seen: Snapshot) -> None:
        """Take back the last step."""
        if any(action.kind == "undo" for action in actions(seen)):
            self.press(seen, Press("undo"))
        else:
            self._refuse(said("nothing-to-undo"))

    def take(self, seen: Snapshot, at_ns: int | None = None, *, position: Position) -> None:
        """Take the reading at the position the gauge is said to stand at."""
        places = [a.payload.get("position") for a in actions(seen) if a.kind == "take"]
        if any(places):  # the decider says better than we can which place is wanted
            self.press(seen, Press("take", {"position": position}, at_ns))
        else:
            place = said("told-place", place=position)
            self._refuse(said("no-reading-wanted", place=place), "take")

    def passed(self, passed: Passed, marks: Marks) -> None:
        """The arm passed a switch of the collar: kept, and told where a slow turn is waited for."""
        self._collars.note(self.machine, passed)
        if passed.closed and any(each.kind == "slow-turn" for each in actions(self.look())):
            told = so_far(self._collars.since(self.machine, 0), marks)
            self._hub.tell(self.machine, "wait", told)

    def press(self, seen: Snapshot, press: Press) -> None:
        """Hand a press in, made at the state `seen`."""
        if not self._busy.acquire(blocking=False):
            return
        command = Command(
            id=str(uuid.uuid4()),
            machine=self.machine,
            kind=press.kind,
            payload=press.payload,
            actor=self._actor,
            audit=seen.pages["console"].audit,
            expects_seq=seen.seq,
        )
        self._presses.put((command, press))

    def _work(self) -> None:
        while (given := self.turns.next(self._presses)) is not None:
            try:
                self._answered(given[1], self._submit(*given))
            finally:
                self._busy.release()

    def _submit(self, command: Command, press: Press) -> Ack:
        slow = threading.Timer(SLOW_S, self._hub.tell, (self.machine, "wait", press.wait))
        slow.daemon = True
        slow.start()
        try:
            self.turns.rest()  # for the decider has turns of its own
            return self._inbox.submit(command, press.at_ns)
        finally:
            self.turns.turn()
            slow.cancel()
            slow.join()

    def _answered(self, press: Press, ack: Ack) -> None:
        # Of a page's press and the gauge's key's after it the first is under way, or done.
        second = ack.reason == HOLD_STILL or (ack.code == "stale" and press.second)
        if ack.accepted or second:
            self._hub.tell(self.machine, "ok", None)
        elif ack.reason is not None:
            self._refuse(ack.reason, press.kind)

    def _refuse(self, why: Said, kind: str = "") -> None:
        self._hub.refuse(self.machine, kind, why)


def actions(seen: Snapshot) -> tuple[Action, ...]:
    """What the console offers."""
    found: tuple[Action, ...] = seen.pages["console"].actions
    return found


def primary(seen: Snapshot) -> Action | None:
    """The console's first button, if there is one."""
    return next((action for action in actions(seen) if action.primary), None)
