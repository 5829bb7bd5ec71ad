"""What one particular gauge is like, from its plunger to its plug."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Protocol

from daq.virtual.talk import Streaming, Talk
from daq.virtual.uart import LineEnd
from daq.virtual.wires.scale import WireFormat
from daq.words import Unit


@dataclass(frozen=True, slots=True)
class GaugeModel:
    """A kind of gauge: travel, direction, wire, line and talk.

    `zero_mm` is the compression at which it reads zero when first switched on, `unit`
    the one it then shows. Its unit button steps through the units of the `wire`.
    `noise_sd_mm` is the flicker of one indication with the contact on a surface.
    """

    key: str
    wire: WireFormat
    line: LineEnd = field(default_factory=LineEnd)
    talk: Talk = field(default_factory=Streaming)
    unit: Unit = "mm"
    counts_up: bool = True
    travel_mm: float = 12.7
    zero_mm: float = 0.35
    noise_sd_mm: float = 0.0


def always() -> bool:
    """Return True: a frame goes out whatever happens meanwhile."""
    return True


class WireEnd(Protocol):
    """The far end of a gauge's cable. Safe to use from several threads; never blocks long."""

    @property
    def plugged(self) -> bool:
        """Whether the cable is in."""
        ...

    def plug(self) -> None:
        """Put the cable in."""
        ...

    def unplug(self) -> None:
        """Pull the cable."""
        ...

    def send(self, frame: bytes, still: Callable[[], bool] = always) -> bool:
        """Deliver `frame` if that is `still` right; return False when nobody took it."""
        ...

    def receive(self, wait_s: float) -> bytes:
        """Return what the reader has sent, waiting for the first of it; b"" when nothing came."""
        ...

    def heard(self, own: LineEnd) -> LineEnd:
        """Return the settings of the reader; as in `own` where the port cannot tell."""
        ...

    def tend(self) -> None:
        """Keep house; to be called every twentieth of a second or so."""
        ...
