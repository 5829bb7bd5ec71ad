"""Check values: what a frame says of its own bytes, so that a damaged one shows.

A CRC is told by the parameters of the "Catalogue of parametrised CRC algorithms" (width,
poly, init, refin and refout, which are one here, xorout), and bears the names it has there.
"""

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, reduce
from operator import xor
from typing import Annotated, Final, Literal, NamedTuple

from daq.settings import Range, quoted

Word = Annotated[int, Range(0, 0xFFFF)]


class Crc(NamedTuple):
    """The parameters of a cyclic redundancy check."""

    width: int
    poly: int
    init: int = 0
    reflect: bool = False
    xorout: int = 0


CRCS: Final[Mapping[str, Crc]] = {
    "crc-8/smbus": Crc(8, 0x07),
    "crc-8/i-432-1": Crc(8, 0x07, xorout=0x55),
    "crc-8/rohc": Crc(8, 0x07, 0xFF, reflect=True),
    "crc-8/nrsc-5": Crc(8, 0x31, 0xFF),
    "crc-8/dow": Crc(8, 0x31, reflect=True),
    "crc-8/sae-j1850": Crc(8, 0x1D, 0xFF, xorout=0xFF),
    "crc-8/darc": Crc(8, 0x39, reflect=True),
    "crc-8/cdma2000": Crc(8, 0x9B, 0xFF),
    "crc-16/arc": Crc(16, 0x8005, reflect=True),
    "crc-16/modbus": Crc(16, 0x8005, 0xFFFF, reflect=True),
    "crc-16/usb": Crc(16, 0x8005, 0xFFFF, reflect=True, xorout=0xFFFF),
    "crc-16/umts": Crc(16, 0x8005),
    "crc-16/cms": Crc(16, 0x8005, 0xFFFF),
    "crc-16/xmodem": Crc(16, 0x1021),
    "crc-16/ccitt-false": Crc(16, 0x1021, 0xFFFF),
    "crc-16/aug-ccitt": Crc(16, 0x1021, 0x1D0F),
    "crc-16/genibus": Crc(16, 0x1021, 0xFFFF, xorout=0xFFFF),
    "crc-16/kermit": Crc(16, 0x1021, reflect=True),
    "crc-16/mcrf4xx": Crc(16, 0x1021, 0xFFFF, reflect=True),
    "crc-16/x-25": Crc(16, 0x1021, 0xFFFF, reflect=True, xorout=0xFFFF),
    "crc-16/dnp": Crc(16, 0x3D65, reflect=True, xorout=0xFFFF),
}
_WIDTHS: Final = {"xor": 8, "sum": 8, "sum-16": 16, "sum-to-zero": 8, "crc-8": 8, "crc-16": 16}
_OWN: Final = ("crc-8", "crc-16")
"""Kinds whose parameters stand in the file itself."""

KINDS: Final = (*_WIDTHS, *CRCS)

Sent = Literal["hex", "hex-low-first", "high-first", "low-first", "character"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """The check value of a frame.

    `kind`: "xor" of the bytes; their "sum" in one byte, "sum-16" in two, or "sum-to-zero",
    which makes it 0; a CRC by its name, or "crc-8" and "crc-16" by `poly`, `init`, `reflect`
    and `xorout`. `sent`: as hexadecimal characters ("hex", its low byte first with
    "hex-low-first"), as bytes ("high-first", "low-first"), or as one "character" of its lowest
    seven bits. `over`: from which byte of the frame it is made and up to which one, that not
    included; counted from 0, below 0 from the frame's end without its terminator; without the
    second, up to the check value. `at`: the byte where that begins; None: it ends the frame.
    """

    kind: str
    sent: Sent = "hex"
    over: tuple[int, ...] = (0,)
    at: int | None = None
    poly: Word | None = None
    init: Word = 0
    reflect: bool = False
    xorout: Word = 0

    def __post_init__(self) -> None:
        """Refuse what could not be checked.

        Raises:
            ValueError: in plain words, what was found and what is allowed.
        """
        if self.kind not in KINDS:
            near = difflib.get_close_matches(self.kind[:40], KINDS, n=1)
            nearest = f"; nearest: {near[0]}" if near else ""
            raise ValueError(
                f"found kind {quoted(self.kind)}; allowed: one of {', '.join(KINDS)}{nearest}"
            )
        if (self.poly is not None) != (self.kind in _OWN):
            raise ValueError(
                f"found {'no poly' if self.poly is None else 'a poly'} with kind "
                f'"{self.kind}"; allowed: with kind = "crc-8" or "crc-16", and there always'
            )
        if self.poly is None and (self.init or self.reflect or self.xorout):
            raise ValueError(
                f'found init, reflect or xorout with kind "{self.kind}"; '
                'allowed: with kind = "crc-8" or "crc-16"'
            )
        if max(self.poly or 0, self.init, self.xorout) >> self._width:
            raise ValueError(
                f'found a poly, init or xorout of more than {self._width} bits with kind "'
                f'{self.kind}"; allowed: at most {(1 << self._width) - 1:#x}'
            )
        if not 1 <= len(self.over) <= 2:
            raise ValueError(
                f"found {len(self.over)} numbers in over; allowed: from which byte, and up to "
                "which, such as [1, -2]"
            )

    @property
    def size(self) -> int:
        """How many bytes it takes on the wire."""
        if self.sent == "character":
            return 1
        return self._width // (4 if self.sent.startswith("hex") else 8)

    @property
    def bits(self) -> int:
        """How many bits of it are sent."""
        return 7 if self.sent == "character" else self._width

    def value(self, data: bytes) -> int:
        """Return the check value of these bytes."""
        if self.kind == "xor":
            return reduce(xor, data, 0)
        if self.kind == "sum-to-zero":
            return -sum(data) & 0xFF
        if self.kind in ("sum", "sum-16"):
            return sum(data) & (1 << self._width) - 1
        return crc(self._crc, data)

    def written(self, data: bytes) -> bytes:
        """Return the check value of these bytes as it is sent."""
        value = self.value(data)
        if self.sent == "character":
            return bytes([value & 0x7F])
        raw = value.to_bytes(self._width // 8, "little" if "low-first" in self.sent else "big")
        return raw.hex().upper().encode() if self.sent.startswith("hex") else raw

    def holds(self, raw: bytes) -> bool:
        """Return whether a frame, its terminator not among it, is as its check value says."""
        begin = -self.size if self.at is None else self.at
        begin += len(raw) if begin < 0 else 0
        found = raw[begin : begin + self.size] if begin > 0 else b""
        over = raw[self.over[0] : self.over[1] if len(self.over) > 1 else begin]
        if self.sent.startswith("hex"):
            found = found.upper()
        return bool(over) and found == self.written(over)

    @property
    def _crc(self) -> Crc:
        if self.poly is None:
            return CRCS[self.kind]
        return Crc(self._width, self.poly, self.init, self.reflect, self.xorout)

    @property
    def _width(self) -> int:
        return _WIDTHS.get(self.kind) or CRCS[self.kind].width


def crc(kind: Crc, data: bytes) -> int:
    """Return the cyclic redundancy check of these bytes, a byte at a time.

    Source: R. N. Williams, "A painless guide to CRC error detection algorithms" (1993).
    """
    table = _table(kind.width, kind.poly, kind.reflect)
    if kind.reflect:
        register = _reversed(kind.init, kind.width)
        for byte in data:
            register = register >> 8 ^ table[(register ^ byte) & 0xFF]
        return register ^ kind.xorout
    register, mask, above = kind.init, (1 << kind.width) - 1, kind.width - 8
    for byte in data:
        register = (register << 8 & mask) ^ table[(register >> above ^ byte) & 0xFF]
    return register ^ kind.xorout


@cache
def _table(width: int, poly: int, reflect: bool) -> Sequence[int]:
    rows = []
    for byte in range(256):
        register = (_reversed(byte, 8) if reflect else byte) << width - 8
        for _ in range(8):
            register = register << 1 ^ (poly if register >> width - 1 & 1 else 0)
            register &= (1 << width) - 1
        rows.append(_reversed(register, width) if reflect else register)
    return rows


def _reversed(value: int, width: int) -> int:
    return int(f"{value:0{width}b}"[::-1], 2)
