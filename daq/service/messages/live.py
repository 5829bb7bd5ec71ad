"""Live values: sent while they are, and once more without a value when they no longer are."""

from collections.abc import Callable, Mapping
from typing import Final, Literal, Protocol, cast

from daq.service.clock import Clock
from daq.service.messages.shapes import LiveMessage, V, body, moment, topic
from daq.words import GaugeStatus, Live

NONE: Final = Live("", "", 0, "", "", None, 0, fresh=False)

Send = Callable[[str, bytes], object]
"""Takes a topic and a message at once, or leaves it."""


class Machine(Protocol):
    """One that is served."""

    @property
    def key(self) -> str:
        """Its name among the files."""


class LiveNumbers(Protocol):
    """What knows the latest number of every machine."""

    def machines(self) -> tuple[Machine, ...]:
        """Those that are served."""

    def live(self, machine: str) -> Live:
        """The number as it may be shown now."""


class GaugeSaying(Protocol):
    """A gauge's reader."""

    @property
    def status(self) -> GaugeStatus:
        """How it is doing."""


class LiveValues:
    """Says what is new of each machine's number, so often at most. For one thread."""

    def __init__(
        self,
        hub: LiveNumbers,
        readers: Mapping[str, GaugeSaying],
        clock: Clock,
        prefix: str,
        hz: float,
        practised: Callable[[str], bool],
    ) -> None:
        """`practised`: whether a machine's open audit is practice, whose numbers go nowhere."""
        self._hub = hub
        self._readers = readers
        self._clock = clock
        self._prefix = prefix
        self._every_ns = round(1e9 / hz) if hz else 0
        self._practised = practised
        self._due_ns = 0
        self._sent: dict[str, tuple[object, ...]] = {}

    def anew(self) -> None:
        """Nobody there knows what was sent before."""
        self._sent.clear()

    def turn(self, send: Send) -> None:
        """Send what is new, where it is time."""
        now_ns = self._clock.mono_ns()
        if not self._every_ns or now_ns < self._due_ns:
            return
        self._due_ns = now_ns + self._every_ns
        for machine in self._hub.machines():
            self._tell(machine.key, send)

    def _tell(self, machine: str, send: Send) -> None:
        live = NONE if self._practised(machine) else self._hub.live(machine)
        reader = self._readers.get(live.gauge)
        state = reader.status.code if reader is not None else ""
        new = (live.gauge, live.run, live.n, live.fresh, live.text, state)
        if self._sent.get(machine) == new:
            return
        self._sent[machine] = new
        stamp = self._clock.stamp()
        message = LiveMessage(
            v=V,
            kind="live",
            machine=machine,
            utc=moment(stamp),
            clock_set=stamp.utc_trusted,
            gauge=live.gauge,
            state=state,
            text=live.text,
            unit=cast(Literal["mm", "in", ""], live.unit),
            value_mm=live.value_mm,
            age_ms=live.age_ms,
            fresh=live.fresh,
            fresh_for_ms=(live.fresh_for_ms or 0) if live.fresh else 0,
            keyed=live.keyed,
        )
        send(topic(self._prefix, machine, "live"), body(message))
