"""Gauges whose frames carry more than a number, each as a function from counts to bytes.

All are invented. The checks are written from their definitions: the longitudinal parity
of ISO 1155 (XOR), plain sums, and cyclic redundancy checks bit by bit.
"""

import math
import random
import struct
from dataclasses import dataclass
from functools import reduce
from operator import xor


def lrc(data):
    return reduce(xor, data, 0)


def crc(data, width, polynomial, start=0):
    value, top = start, 1 << width - 1
    for byte in data:
        value ^= byte << width - 8
        for _ in range(8):
            value = (value << 1 ^ (polynomial if value & top else 0)) & (1 << width) - 1
    return value


def signed(counts, places=3, whole=2):
    before, after = divmod(abs(counts), 10**places)
    return f"{'-' if counts < 0 else '+'}{before:0{whole}d}.{after:0{places}d}"


def weighed(text):
    """A check digit by weights, as no table of checks has it."""
    return sum((3 + 4 * at * at) * ord(one) for at, one in enumerate(text)) % 11 % 10


def packed(counts, places=6):
    return bytes.fromhex(f"{'d' if counts < 0 else 'c'}{abs(counts):0{places + 1}d}")


@dataclass(frozen=True)
class Trial:
    """`frame` makes bytes of counts and of how many frames went before."""

    frame: object
    size_mm: float = 0.001
    every_s: float = 0.1
    first_mm: float = 0.0

    def true_mm(self, counts):
        """The number that a frame of so many counts says."""
        return self.first_mm + counts * self.size_mm


def behind(check, between="", places=3, after="\r\n", before=""):
    def frame(counts, nth):
        body = before + signed(counts, places)
        return (body + between + check(body.encode()) + after).encode("latin-1")

    return frame


CHECKED = {
    "xor hex": Trial(behind(lambda b: f"{lrc(b):02X}")),
    "xor hex behind a star": Trial(behind(lambda b: f"{lrc(b):02X}", "*")),
    "xor hex small letters": Trial(behind(lambda b: f"{lrc(b):02x}", after="\r")),
    "xor decimal": Trial(behind(lambda b: f"{lrc(b):03d}"), every_s=0.05),
    "sum hex": Trial(behind(lambda b: f"{sum(b) & 255:02X}")),
    "sum hex behind a blank": Trial(behind(lambda b: f"{-sum(b) & 255:02X}", " ")),
    "sum one hex digit": Trial(behind(lambda b: f"{sum(b) & 15:X}")),
    "sum one decimal digit": Trial(behind(lambda b: str(sum(b) % 10))),
    "sum two decimal digits": Trial(behind(lambda b: f"{sum(b) % 100:02d}")),
    "sum three decimal digits": Trial(behind(lambda b: f"{sum(b) % 256:03d}", places=2), 0.01),
    "crc-8 hex": Trial(behind(lambda b: f"{crc(b, 8, 0x07):02X}")),
    "crc-8 hex other polynomial": Trial(behind(lambda b: f"{crc(b, 8, 0x31, 0xFF):02X}"), 0.001),
    "crc-16 hex": Trial(behind(lambda b: f"{crc(b, 16, 0x1021, 0xFFFF):04X}")),
    "crc-16 hex behind a comma": Trial(behind(lambda b: f"{crc(b, 16, 0x8005):04X}", ",")),
    "crc-16 hex, coarse": Trial(behind(lambda b: f"{crc(b, 16, 0x1021):04X}", places=2), 0.01),
    "crc-4 one hex digit": Trial(behind(lambda b: f"{crc(b, 8, 0x07) >> 4:X}")),
    "weights, no known check": Trial(
        lambda n, nth: f"{signed(n)}{weighed(signed(n))}\r\n".encode(), every_s=0.05
    ),
    "check behind the unit": Trial(behind(lambda b: f"{lrc(b):02X}", " mm ")),
    "check at the unit": Trial(behind(lambda b: f"{lrc(b):02X}", "mm")),
    "check in front": Trial(lambda n, nth: f"{lrc(signed(n).encode()):02X}{signed(n)}\n".encode()),
    "sum in front": Trial(
        lambda n, nth: f"{sum(signed(n).encode()) % 100:02d} {signed(n)}\r\n".encode()
    ),
    "identifier and check": Trial(behind(lambda b: f"{lrc(b):02X}", ";", before="Q7 ")),
    "counter in front": Trial(lambda n, nth: f"{nth % 1000:03d} {signed(n)} mm\r\n".encode()),
    "counter behind": Trial(lambda n, nth: f"{signed(n)} mm;{nth % 100:02d}\r\n".encode()),
    "counter at the number": Trial(lambda n, nth: f"{signed(n)}{nth % 10}\r\n".encode()),
    "two digits of a counter": Trial(lambda n, nth: f"{signed(n)}{nth % 100:02d}\r".encode()),
    "time of day": Trial(
        lambda n, nth: f"09:41:{nth // 10 % 60:02d}.{nth % 10} {signed(n)}\r\n".encode()
    ),
    "another channel": Trial(lambda n, nth: f"{signed(n)},{signed(417 + nth % 2)}\r\n".encode()),
    "another channel first": Trial(lambda n, nth: f"{signed(-88)} {signed(n)}\r\n".encode()),
    "packed and xor": Trial(
        lambda n, nth: b"\x02" + packed(n) + bytes([lrc(packed(n)) & 0x7F | 0x80]) + b"\x03"
    ),
    "packed and sum in digits": Trial(
        lambda n, nth: b"\xff" + packed(n) + bytes.fromhex(f"{sum(packed(n)) % 100:02d}") + b"\xfe"
    ),
    "digits and hex": Trial(
        lambda n, nth: (
            f"{'-' if n < 0 else '+'}{abs(n):06d}{crc(f'{n:+07d}'.encode(), 8, 0x9B):02X}\r"
        ).encode()
    ),
}

NOT_TO_BE_TOLD = {
    "a check on a counter": Trial(
        lambda n, nth: (
            f"{nth % 10}{signed(n)}" + f"{lrc(f'{nth % 10}{signed(n)}'.encode()):02X}\r\n"
        ).encode()
    ),
    "a number in hex": Trial(lambda n, nth: f"{n & 0xFFFF:04X}\r\n".encode()),
    "a number in hex, signed": Trial(lambda n, nth: f"{n:+06X}\r".encode()),
    "a power of ten": Trial(lambda n, nth: f"{n / 1000:+.3E}\r\n".encode()),
    "a number of floating point": Trial(
        lambda n, nth: b"\x01" + struct.pack("<f", n / 1000) + b"\x02"
    ),
    "offset binary": Trial(lambda n, nth: b"\xff" + (n + 32768).to_bytes(2) + b"\xfe"),
    "counter and check around": Trial(
        lambda n, nth: f"{nth % 100:02d}{signed(n)}{lrc(signed(n).encode()):02X}\r\n".encode()
    ),
}
"""Not all of it is understood: nothing may be read of these, or what is true."""

PLAIN = {
    "plain": Trial(lambda n, nth: f"{signed(n)} mm\r\n".encode()),
    "fine": Trial(lambda n, nth: f"{signed(n, 4)} mm\r\n".encode(), 0.0001),
    "fast": Trial(lambda n, nth: f"{signed(n)}\r".encode(), every_s=0.02),
    "half thousandths": Trial(lambda n, nth: f"{signed(5 * n, 4)}\r\n".encode(), 0.0005),
    "twos": Trial(lambda n, nth: f"{signed(2 * n + 1)} mm\r\n".encode(), 0.002, first_mm=0.001),
    "inches": Trial(lambda n, nth: f"{signed(5 * n, 5, 1)} in\r\n".encode(), 0.00005 * 25.4),
    "digits": Trial(lambda n, nth: f"{'-' if n < 0 else '+'}{abs(n):06d}\r\n".encode()),
    "packed": Trial(lambda n, nth: b"\x02" + packed(n) + b"\xf3"),
}


def hand(trial, seconds, first=0, period_s=2.3, top_mm=2.0, zero_mm=0.4):
    """Frames of a contact that is worked in and out; no two of them come at the same moment."""
    uneven = random.Random(7)
    found = []
    for k in range(round(seconds / trial.every_s)):
        turn = 2 * math.pi * (k + uneven.uniform(-0.1, 0.1)) * trial.every_s / period_s
        at_mm = top_mm * (0.5 - 0.5 * math.cos(turn)) - zero_mm
        found.append(trial.frame(round(at_mm / trial.size_mm), first + k))
    return tuple(found)


def still(trial, at_mm, seconds, first, flicker=True):
    """Frames of a contact that is held, with a flicker of the last digit."""
    counts = round(at_mm / trial.size_mm)
    return tuple(
        trial.frame(counts + (flicker and k % 7 == 3), first + k)
        for k in range(round(seconds / trial.every_s))
    )
