"""What can go wrong on a gauge's wire, as switches, for frames of any form."""

import math
import random
from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Final, Literal, get_args

from daq.settings import quoted

Fault = Literal["none", "junk", "truncated", "garbage", "stuck", "silent"]

FAULTS: Final[tuple[Fault, ...]] = get_args(Fault)

TRUNCATE_EVERY: Final = 3
"""With "truncated", each third frame breaks off."""

_RUBBISH: Final = bytes(16 * high + low for high in range(10, 15) for low in range(10, 15))
"""As a line at the wrong speed delivers: no ASCII, no decimal digit in either nibble."""

_LONGEST_JUNK: Final = 6
_LONGEST_BURST: Final = 8


@dataclass(slots=True)
class Faults:
    """Switches, all of them off at first; several can be on at once.

    `junk` before each frame; `truncated` frames; `garbage` only; `stuck` at the number
    shown when it was switched on; `silent`; `weak_battery`, which the frame says where
    it can. The others are shares from 0 to 1: of bits turned over (`flips`), of bytes
    lost (`drops`) or sent twice (`doubles`), of frames with a run of rubbish written
    over them (`bursts`).
    """

    junk: bool = False
    truncated: bool = False
    garbage: bool = False
    stuck: bool = False
    silent: bool = False
    weak_battery: bool = False
    flips: float = 0.0
    drops: float = 0.0
    doubles: float = 0.0
    bursts: float = 0.0

    def clear(self) -> None:
        """Switch everything off."""
        for switch in fields(self):
            setattr(self, switch.name, switch.default)

    def only(self, name: Fault) -> None:
        """Switch on this one and nothing else. Raises ValueError for another name."""
        if name not in FAULTS:
            raise ValueError(f"fault: found {quoted(name)}; allowed: {', '.join(FAULTS)}")
        self.clear()
        if name != "none":
            setattr(self, name, True)

    @property
    def named(self) -> Fault:
        """The first of FAULTS that is switched on, or "none"."""
        return next((name for name in FAULTS[1:] if getattr(self, name)), "none")


class Spoiler:
    """Turns sound frames into what the wire delivers with these `faults`."""

    def __init__(self, faults: Faults, rng: random.Random) -> None:
        """Look at `faults` for each frame; `rng` decides where they strike."""
        self._faults = faults
        self._rng = rng
        self._sent = 0

    def spoil(self, frame: bytes) -> bytes:
        """Return what is left of `frame`; empty when nothing is sent."""
        self._sent += 1
        faults = self._faults
        if faults.silent:
            return b""
        if faults.garbage:
            return self._rubbish(len(frame))
        if faults.truncated and self._sent % TRUNCATE_EVERY == 0:
            frame = frame[: self._rng.randint(1, max(1, len(frame) - 3))]
        if faults.junk:
            frame = self._rubbish(self._rng.randint(1, _LONGEST_JUNK)) + frame
        return self._damage(frame)

    def _damage(self, frame: bytes) -> bytes:
        faults, rng, spoilt = self._faults, self._rng, bytearray(frame)
        if faults.bursts and rng.random() < faults.bursts:
            start = rng.randrange(len(spoilt))
            run = min(rng.randint(2, _LONGEST_BURST), len(spoilt) - start)
            spoilt[start : start + run] = rng.randbytes(run)
        for bit in hits(8 * len(spoilt), faults.flips, rng):
            spoilt[bit // 8] ^= 1 << bit % 8
        # From the end, so that what is still to come keeps its place.
        for at in reversed(list(hits(len(spoilt), faults.doubles, rng))):
            spoilt.insert(at, spoilt[at])
        for at in reversed(list(hits(len(spoilt), faults.drops, rng))):
            del spoilt[at]
        return bytes(spoilt)

    def _rubbish(self, size: int) -> bytes:
        return bytes(self._rng.choices(_RUBBISH, k=size))


def hits(size: int, share: float, rng: random.Random) -> Iterator[int]:
    """Yield the places below `size` that are struck, each with the chance `share`, in order.

    The distance to the next one is drawn at once, from the geometric distribution, so
    that rare faults cost next to nothing.
    """
    if share >= 1.0:
        yield from range(size)
        return
    at = -1
    while share > 0.0:
        at += 1 + int(math.log(1.0 - rng.random()) / math.log1p(-share))
        if at >= size:
            return
        yield at
