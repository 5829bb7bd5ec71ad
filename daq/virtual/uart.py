"""A serial line bit by bit: what one end hears when the other sends at settings of its own.

The line rests high. A character is a low start bit, the data bits with the lowest
first, a parity bit where there is one, and one or two high stop bits (common
practice). The ear waits for the line to fall, looks at the middle of every bit it
expects, and waits for the next fall once it has looked at the first stop bit.
Time is counted in whole units that both speeds share, so nothing is rounded; a
look exactly where the line changes sees what comes after the change.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Literal

DataBits = Literal[5, 6, 7, 8]
StopBits = Literal[1, 2]
Parity = Literal["none", "even", "odd", "mark", "space"]

Faulty = Literal["kept", "dropped", "zero"]
"""What becomes of a character with an error: delivered as heard, left out, or sent on as 0.

A terminal that does not check its input keeps it, whether the error is in the parity
bit or in the stop bit (Linux's serial drivers without INPCK, from memory).
"""

_FALL: Final = b"\1\0"


@dataclass(frozen=True, slots=True)
class LineEnd:
    """The settings of one end of a serial line."""

    baud: int = 9600
    bits: DataBits = 8
    parity: Parity = "none"
    stop: StopBits = 1

    def seconds(self, characters: int) -> float:
        """Return how long so many characters take, one on the heels of the other."""
        return characters * len(_characters(self)[0]) / self.baud

    def __str__(self) -> str:
        """Return the usual short form, such as "4800 7E1"."""
        return f"{self.baud} {self.bits}{self.parity[0].upper()}{self.stop}"


def resample(
    data: bytes,
    sent: LineEnd,
    received: LineEnd,
    *,
    gap_bits: int = 0,
    framing: Faulty = "kept",
    parity: Faulty = "kept",
) -> bytes:
    """Return what is received of `data`, whose characters are `gap_bits` sent bits apart."""
    return hear(
        waveform([data[i : i + 1] for i in range(len(data))], sent, gap_bits),
        sent.baud,
        received,
        framing=framing,
        parity=parity,
    )


def waveform(frames: Iterable[bytes], sent: LineEnd, gap_bits: int = 0) -> bytes:
    """Return the line's levels, 0 or 1 for each sent bit, with `gap_bits` after each frame."""
    characters = _characters(sent)
    rest = bytes([1]) * gap_bits
    return b"\1" + rest.join(b"".join([characters[byte] for byte in one]) for one in frames)


def hear(
    levels: bytes,
    baud: int,
    received: LineEnd,
    *,
    framing: Faulty = "kept",
    parity: Faulty = "kept",
) -> bytes:
    """Return what `received` makes of `levels` sent at `baud`; the line rests after them."""
    sent_bit, bit, half = 2 * received.baud, 2 * baud, baud
    checked = received.parity != "none"
    looks = [half + bit * k for k in range(1 + received.bits + checked + 1)]
    levels += b"\1" * (looks[-1] // sent_bit + 2)
    heard = bytearray()
    at = 0
    while (high := levels.find(_FALL, at // sent_bit)) >= 0:
        fall = (high + 1) * sent_bit
        seen = [levels[(fall + look) // sent_bit] for look in looks]
        if seen[0]:  # too short for a start bit
            at = fall + half
            continue
        at = fall + looks[-1]
        value = sum(level << k for k, level in enumerate(seen[1 : 1 + received.bits]))
        wrong = checked and seen[-2] != _parity_bit(value, received.parity)
        fate = framing if not seen[-1] else parity if wrong else "kept"
        if fate != "dropped":
            heard.append(value if fate == "kept" else 0)
    return bytes(heard)


@lru_cache(maxsize=64)
def _characters(line: LineEnd) -> tuple[bytes, ...]:
    """Return the levels of each byte's character; bits the line does not carry are lost."""
    return tuple(_character(value % (1 << line.bits), line) for value in range(256))


def _character(value: int, line: LineEnd) -> bytes:
    data = [value >> k & 1 for k in range(line.bits)]
    parity = [] if line.parity == "none" else [_parity_bit(value, line.parity)]
    return bytes([0, *data, *parity, *([1] * line.stop)])


def _parity_bit(value: int, parity: Parity) -> int:
    match parity:
        case "even":
            return value.bit_count() % 2
        case "odd":
            return 1 - value.bit_count() % 2
        case _:
            return int(parity == "mark")
