"""Gauges of further classes: what stands around a number, and how it may be sent otherwise.

All are invented. Each frame is a function of the counts and of how many frames went before;
checks are written from their definitions in tests/gauges/learn_trials.py.
"""

import struct
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import Final

from daq.virtual.model import GaugeModel
from daq.virtual.talk import OnKey, OnRequest, StartedStream, Streaming, Talk
from daq.virtual.uart import LineEnd
from daq.virtual.wires import CountStep
from daq.words import Unit
from tests.gauges.learn_trials import crc, lrc, signed

MM: Final[dict[Unit, CountStep]] = {"mm": CountStep(3)}
FINE: Final[dict[Unit, CountStep]] = {"mm": CountStep(4)}
ROUGH: Final[dict[Unit, CountStep]] = {"mm": CountStep(2)}
INCH: Final[dict[Unit, CountStep]] = {"in": CountStep(5, 5)}


@dataclass
class Made:
    """A wire whose frames are made by a function of counts and of how many went before."""

    frame: Callable[[int, int], bytes]
    scales: Mapping[Unit, CountStep] = field(default_factory=lambda: MM)
    over: bytes = b""
    sent: int = 0

    def encode(self, counts: int, unit: Unit, flags: Collection[str] = ()) -> bytes:
        """Return the whole frame."""
        self.sent += 1
        return self.frame(counts, self.sent)


def _bus(body: bytes) -> bytes:
    """CRC-16 with 0x8005 reflected, from 0xFFFF, low byte first (serial field buses)."""
    value = 0xFFFF
    for byte in body:
        value ^= byte
        for _ in range(8):
            value = value >> 1 ^ (0xA001 if value & 1 else 0)
    return body + value.to_bytes(2, "little")


def _sealed(body: bytes) -> bytes:
    return body + bytes([crc(body, 8, 0x07)])


def _turns(counts: int, nth: int) -> bytes:
    """Three transmitters in turn: ours is the second."""
    others = {0: f"T1 {signed(2750)} mm\r\n", 2: f"T3 {signed(-118 + nth % 2)} mm\r\n"}
    return others.get(nth % 3, f"T2 {signed(counts)} mm\r\n").encode()


def _packed(n: int) -> bytes:
    return bytes.fromhex(f"{abs(n):06d}")


def _text(form: str) -> Callable[[int, int], bytes]:
    """Frames by a format: `mm` the number, `s` the same in signs and digits, `k` the frame's."""
    return lambda n, k: form.format(
        mm=n / 1000, a=abs(n) / 1000, s=signed(n), k=k, n=n,
        letter="L" if n < 0 else "R", word="NEG" if n < 0 else "POS",
    ).encode("latin-1")  # fmt: skip


def _low_first(n: int, k: int) -> bytes:
    count = n.to_bytes(4, "little", signed=True)
    return b"\x80" + count + bytes([lrc(count) ^ 0xFF]) + b"\x81"


def _time(n: int, k: int) -> bytes:
    clock = f"{k // 600 % 60:02d}:{k // 10 % 60:02d}.{k % 10}"
    return f"2027-05-03T09:{clock} {n / 1000:+.3f}\n".encode()


def _with_check(form: str, check: Callable[[bytes], str]) -> Callable[[int, int], bytes]:
    return lambda n, k: form.format(s=signed(n), c=check(signed(n).encode())).encode()


def _bracketed(n: int, k: int) -> bytes:
    body = signed(n).encode() + b"\x03"
    return b"\x02" + body + bytes([lrc(body)])


def _inches(n: int, k: int) -> bytes:
    return f"{'-' if n < 0 else ' '}{abs(n) * 5 / 100000:.5f}\r\n".encode()


def _model(
    key: str,
    frame: Callable[[int, int], bytes],
    line: LineEnd,
    talk: Talk,
    scales: Mapping[Unit, CountStep] = MM,
    over: bytes = b"",
    counts_up: bool = True,
) -> GaugeModel:
    unit: Unit = "mm" if "mm" in scales else "in"
    return GaugeModel(key, Made(frame, scales, over), line, talk, unit, counts_up)


_ASK_BUS: Final = _bus(b"\x05\x03\x00\x10\x00\x02")

_TEXTS: Final = (
    _model("id-and-words", _text("GA:7;VAL={s};U=MM;OK\r\n"), LineEnd(9600), Streaming(0.1)),
    _model("letter-behind", _text("{a:07.3f}{letter}\r"), LineEnd(4800, 7, "even"),
           Streaming(0.1), counts_up=False),
    _model("word-in-front", _text("{word} {a:.3f} mm\n"), LineEnd(19200), Streaming(0.05)),
    _model("xor-behind", _with_check("{s}{c}\r\n", lambda b: f"{lrc(b):02X}"), LineEnd(9600),
           Streaming(0.1)),
    _model("crc-behind-star",
           _with_check("{s}*{c}\r\n", lambda b: f"{crc(b, 16, 0x1021, 0xFFFF):04X}"),
           LineEnd(38400), Streaming(0.05)),
    _model("two-channels", lambda n, k: f"A{signed(417 + k % 2)} B{signed(n)} mm\r\n".encode(),
           LineEnd(9600), Streaming(0.1)),
    _model("three-transmitters", _turns, LineEnd(19200), Streaming(0.04)),
    _model("block-of-lines", lambda n, k: f"No {k:05d}\r\nX {signed(n)} mm\r\nT 21\r\n".encode(),
           LineEnd(19200), Streaming(0.2)),
    _model("time-stamp", _time, LineEnd(57600), Streaming(0.05)),
    _model("power-of-ten", _text("{mm:+.4E}\r\n"), LineEnd(9600), Streaming(0.1)),
    _model("hex-characters", lambda n, k: f"D{n & 0xFFFF:04X}\r\n".encode(), LineEnd(9600),
           Streaming(0.1)),
    _model("hex-offset", lambda n, k: f"{n + 0x8000:04X}\r".encode(), LineEnd(2400),
           Streaming(0.2)),
    _model("slowest", _text("{mm:+8.3f}\r\n"), LineEnd(300), Streaming(0.8)),
    _model("two-stop-bits", _text("{mm:+08.3f}mm\r"), LineEnd(4800, 7, "none", 2),
           Streaming(0.15)),
    _model("no-contact-word", _text("{mm:+.3f}\r\n"), LineEnd(9600), Streaming(0.1),
           over=b"--.---\r\n"),
    _model("raw-counts", lambda n, k: f"{n * 4 + 20000:06d}\r\n".encode(), LineEnd(9600),
           Streaming(0.1)),
    _model("temperature-beside",
           lambda n, k: f"{n / 1000:+.3f};{20.4 + k % 3 / 10:.1f}C;{k % 1000}\r\n".encode(),
           LineEnd(9600), Streaming(0.1)),
    _model("sealed-in-brackets", _bracketed, LineEnd(9600), Streaming(0.1)),
    _model("echo", _text("RD,1\r{s} mm\r"), LineEnd(9600), OnRequest(b"RD,1\r")),
    _model("begun", _text("{s} mm\r\n"), LineEnd(9600), StartedStream(b"START\r")),
    _model("inch-key", _inches, LineEnd(9600), OnKey(), scales=INCH),
)  # fmt: skip
_BYTES: Final = (
    _model("complement-high-first",
           lambda n, k: b"\xa5\x5a" + n.to_bytes(3, "big", signed=True) + b"\x00\x0d",
           LineEnd(38400), Streaming(0.05)),
    _model("complement-low-first", _low_first, LineEnd(115200), Streaming(0.05), scales=FINE),
    _model("offset-binary", lambda n, k: b"\xff" + (n + 32768).to_bytes(2, "big") + b"\xfe\x01",
           LineEnd(9600), Streaming(0.1), scales=ROUGH, counts_up=False),
    _model("float-and-crc", lambda n, k: _bus(b"\x01\x2a" + struct.pack(">f", n / 1000)),
           LineEnd(19200), Streaming(0.1)),
    _model("field-bus", lambda n, k: _bus(b"\x05\x03\x04" + struct.pack(">i", n)),
           LineEnd(19200, 8, "even"), OnRequest(_ASK_BUS)),
    _model("odd-parity", lambda n, k: b"\x02" + bytes([0xC0 | (n < 0)]) + _packed(n) + b"\x83",
           LineEnd(9600, 8, "odd"), Streaming(0.1)),
    _model("packed-and-crc-8",
           lambda n, k: _sealed(bytes([0xF0 | (0xD if n < 0 else 0xC)]) + _packed(n)),
           LineEnd(9600), Streaming(0.1)),
)  # fmt: skip
CLASSES: Final = {model.key: model for model in (*_TEXTS, *_BYTES)}
"""By key: text with more than a number, binary in every coding, talks and lines of all sorts."""
