"""The mill as the rest of the house meets it: a port that talks, and things a person can do.

Operations block their caller for as long as a person would take, divided by
`speed`; they can be called from any thread and take turns, because the mill has
one pair of hands. Each returns a plain sentence about what happened.
"""

import threading
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from daq.virtual import practice
from daq.virtual.at_gauge import AtGauge
from daq.virtual.at_head import AtHead
from daq.virtual.frames import FAULTS, Fault
from daq.virtual.spec import MillSpec
from daq.virtual.tty import PtyLine
from daq.words import AXES, Axis

RATE_HZ: Final = 50.0


class VirtualMill(AtGauge, AtHead):
    """One practice mill with a gauge on a real pseudo-terminal."""

    def __init__(
        self,
        spec: MillSpec,
        *,
        tty_link: Path,
        state_file: Path | None = None,
        speed: float = 1.0,
        seed: int = 0,
    ) -> None:
        """Build the mill; with a `state_file` that exists, the very mill that was left.

        Raises StateFileError when that file is not a practice mill's.
        """
        super().__init__(spec, state_file=state_file, speed=speed, seed=seed)
        self._thread: threading.Thread | None = None
        self._line = PtyLine(tty_link)

    def start(self) -> None:
        """Put the cable in and let the gauge talk."""
        if self._thread is not None:
            return
        self._stopping.clear()
        self._line.plug()
        self._thread = threading.Thread(target=self._talk, name="practice-gauge", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Finish what the hands are doing at once, pull the cable and save the state."""
        self._stopping.set()
        if self._thread is not None:
            self._thread.join()
            self._thread = None
        with self._hands:
            self._line.unplug()
            self._save()

    @property
    def spec(self) -> MillSpec:
        """What this mill is like."""
        return self._head.spec

    def truth(self) -> dict[Axis, float]:
        """Return the true lean of each axis, mm/mm: for tests, never for a screen."""
        with self._lock:
            side, nod = self._head.leans()
        return {"side": side, "nod": nod}

    def state(self) -> dict[str, Any]:
        """Return what a practice panel shows, as plain values."""
        with self._lock:
            head = self._head.state
            return {
                "position": "swinging" if self._swinging else head.position,
                "contact": head.contact,
                "bolts": {a: "tight" if self._head.joint(a).tight else "loose" for a in AXES},
                "number": self._face(),
                "plugged": self._line.plugged,
                "fault": self._wire.fault,
                "busy": self._busy,
                "operations": practice.operations(head, self._line.plugged),
            }

    def do(self, verb: str, args: Mapping[str, Any] | None = None) -> str:
        """Do one of the `operations` of `state`. Raises ValueError in plain words otherwise."""
        return practice.perform(self, verb, args or {})

    def unplug(self) -> str:
        """Pull the gauge's cable."""
        self._line.unplug()
        return "The cable is out."

    def replug(self) -> str:
        """Put the gauge's cable back."""
        self._line.plug()
        return "The cable is in."

    def fault(self, name: Fault) -> str:
        """Give the wire a fault, or "none". Raises ValueError for another name."""
        if name not in FAULTS:
            raise ValueError(f"fault: found {name!r}; allowed: {', '.join(FAULTS)}")
        with self._lock:
            self._wire.fault = name
        return f"Fault on the wire: {name}."

    def _talk(self) -> None:
        due = time.monotonic()
        while not self._stopping.wait(max(0.0, due - time.monotonic())):
            with self._lock:
                frame = self._wire.encode(self._face())
            if frame:
                self._line.send(frame)
            # A late tick is made up for, a long sleep is not: no burst of old news.
            due = max(due + 1.0 / RATE_HZ, time.monotonic() - 2.0 / RATE_HZ)
