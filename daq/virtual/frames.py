"""What the gauge puts on its wire: text frames such as ``+001.234 mm`` and CR LF.

Written from the frame's description alone, on purpose: a formatter that shared
code with a decoder would share its mistakes.
"""

import random
from typing import Final, Literal, get_args

Fault = Literal["none", "junk", "truncated", "garbage", "stuck", "silent"]

FAULTS: Final[tuple[Fault, ...]] = get_args(Fault)

END: Final = b"\r\n"

TRUNCATE_EVERY: Final = 3
"""With the fault "truncated", each third frame breaks off."""


def number(counts: int, places: int, step: int, unit: str) -> str:
    """Return the gauge's face: sign, digits with a point, a space, the unit.

    `counts` x `step` is the number in units of 10^-`places`; three digits stand
    before the point. Zero carries a plus sign.
    """
    sign = "-" if counts < 0 else "+"
    whole, part = divmod(abs(counts) * step, 10**places)
    return f"{sign}{whole:03d}.{part:0{places}d} {unit}"


class Wire:
    """Turns faces into bytes, well or badly according to `fault`."""

    def __init__(self, rng: random.Random) -> None:
        """Start without a fault; `rng` makes the rubbish of the faulty frames."""
        self.fault: Fault = "none"
        self._rng = rng
        self._held = ""
        self._sent = 0

    def encode(self, face: str) -> bytes:
        """Return the bytes for one indication; empty when nothing is sent."""
        self._sent += 1
        if self.fault != "stuck":
            self._held = face
        frame = self._held.encode("ascii") + END
        match self.fault:
            case "silent":
                return b""
            case "garbage":
                return self._rubbish(len(frame))
            case "junk":
                return self._rubbish(self._rng.randint(1, 6)) + frame
            case "truncated" if self._sent % TRUNCATE_EVERY == 0:
                return frame[: self._rng.randint(1, len(frame) - len(END) - 1)]
            case _:
                return frame

    def _rubbish(self, size: int) -> bytes:
        # Bytes above 0x7F, as a line at the wrong speed delivers: no digit, no line end.
        return bytes(self._rng.randrange(0x80, 0x100) for _ in range(size))
