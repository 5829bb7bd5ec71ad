"""Which pins switches are on, and what one of them did: words alone, no chip is opened for them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Literal

from daq.settings import Range

Pin = Annotated[int, Range(0, 27)]
"""A pin as the processor numbers it (GPIO 17 is 17)."""

ClosesTo = Literal["ground", "3.3 V"]
"""What a closed switch joins its pin to; the pin is pulled the other way."""


@dataclass(frozen=True)
class Wiring:
    """Which pins, and what each closes to.

    `chip`: the path or the name of the chip they are on; "" for the Pi's own header. `bounce_s`:
    what changes within it is a contact that bounces.
    """

    pins: Mapping[int, ClosesTo]
    chip: str = ""
    bounce_s: float = 0.02


@dataclass(frozen=True)
class Turned:
    """A switch closed or opened; `at_ns`: when, by the kernel's monotonic clock."""

    pin: int
    closed: bool
    at_ns: int
