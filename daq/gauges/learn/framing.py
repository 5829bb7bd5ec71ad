"""What the bytes themselves show of a line's framing, heard with 8 data bits and no parity.

A character of 7 bits and a parity bit has as many bits as one of 8 bits without: heard so,
its parity is the highest bit, and all bytes have the same parity as a whole.
"""

from typing import Literal

Framing = tuple[Literal[7, 8], Literal["none", "even", "odd"], Literal[1, 2]]

_ENOUGH = 12
"""So many unlike bytes are by chance of one parity once in two thousand."""


def framing(heard: bytes) -> Framing:
    """Return the data bits, the parity and the stop bits of a line that was heard as 8N1.

    A parity bit that is always set is on the wire what a second stop bit is, and rarer.
    """
    unlike = set(heard)
    high = {byte >> 7 for byte in unlike}
    parities = {byte.bit_count() % 2 for byte in unlike}
    few = len({byte & 0x7F for byte in unlike}) < _ENOUGH and not _written(heard)
    if high == {0} or few:
        return 8, "none", 1
    if len(parities) == 1:
        return 7, "odd" if parities == {1} else "even", 1
    return (7, "none", 2) if high == {1} and _written(heard) else (8, "none", 1)


def stripped(heard: bytes, bits: int) -> bytes:
    """Return the bytes as they are heard with so many data bits."""
    return bytes(byte & 0x7F for byte in heard) if bits == 7 else heard


def _written(heard: bytes) -> bool:
    """Return whether the bytes without their highest bit are what a number is written with."""
    low = stripped(heard, 7)
    known = sum(byte in b"0123456789+-., \r\n" for byte in low)
    return bool(low) and known >= 0.6 * len(low)
