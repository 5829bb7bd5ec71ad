"""Gauges of many kinds, each described by its frames, its line and its habits.

All are invented, to differ from each other in as many ways as frames of their form can.
"""

from pathlib import Path
from typing import Final

from daq.virtual.gauge import VirtualGauge
from daq.virtual.model import GaugeModel
from daq.virtual.talk import OnKey, OnRequest, Streaming
from daq.virtual.tty import PtyLine
from daq.virtual.uart import LineEnd
from daq.virtual.wires import CountStep, TextSpec
from daq.words import Unit
from tests.rigs.bcd import BcdSpec
from tests.rigs.bits import BitsSpec

MICRON: Final[dict[Unit, CountStep]] = {"mm": CountStep(3), "in": CountStep(5, 5)}
HUNDREDTH: Final[dict[Unit, CountStep]] = {"mm": CountStep(2), "in": CountStep(4, 5)}
TENTH: Final[dict[Unit, CountStep]] = {"in": CountStep(4), "mm": CountStep(3, 2)}

TEXT: Final = (
    GaugeModel(
        "text-plain",
        TextSpec("{sign}{number} {unit}\r\n", MICRON),
        LineEnd(9600),
        Streaming(0.02),
    ),
    GaugeModel(
        "text-trailing-sign",
        TextSpec("{number}{sign}\r", MICRON, whole=2, fill=" ", plus=" "),
        LineEnd(4800, 7, "even"),
        Streaming(0.1),
        counts_up=False,
    ),
    GaugeModel(
        "text-comma",
        TextSpec("{signed} {unit}\n", MICRON, fill=" ", decimal=",", plus=""),
        LineEnd(2400),
        Streaming(0.2),
        travel_mm=25.0,
    ),
    GaugeModel(
        "text-inch-asked",
        TextSpec("{sign}{number}\r\n", {"in": CountStep(5, 5)}, whole=1, over=b"LIMIT\r\n"),
        LineEnd(1200, 7, "even"),
        OnRequest(b"?\r", latency_s=0.03),
        unit="in",
        travel_mm=6.35,
    ),
    GaugeModel(
        "text-status-letter",
        TextSpec(
            "{status}{sign}{number}{unit}\r\n",
            MICRON,
            whole=2,
            units={"mm": "M", "in": "I"},
            flags={"weak-battery": "W"},
            sound="G",
        ),
        LineEnd(19200),
        Streaming(0.05),
        counts_up=False,
    ),
    GaugeModel(
        "text-no-end",
        TextSpec("{sign}{number:>8}{unit}", HUNDREDTH, fill=" ", whole=3, length=11),
        LineEnd(38400, stop=2),
        Streaming(0.04),
        travel_mm=30.0,
    ),
    GaugeModel(
        "text-key-thrice",
        TextSpec("{number}{sign} {unit}\r", TENTH, whole=2, plus=" ", fill=" "),
        LineEnd(4800, 7, "even"),
        OnKey(times=3, pause_s=0.08),
        unit="in",
        travel_mm=5.08,
        counts_up=False,
    ),
    GaugeModel(
        "text-inch-mark",
        TextSpec("{signed}{unit}\r\n", MICRON, plus="", units={"mm": "", "in": '"'}),
        LineEnd(57600),
        Streaming(0.01),
    ),
    GaugeModel(
        "text-enquiry",
        TextSpec("\x02{unit}{sign}{number}\x03", MICRON, units={"mm": "mm", "in": "in"}),
        LineEnd(115200),
        OnRequest(b"\x05", latency_s=0.004),
    ),
    GaugeModel(
        "text-lever",
        TextSpec("{signed}\r\n", {"mm": CountStep(3, 2)}, whole=1, plus="+", over=b"-----\r\n"),
        LineEnd(9600, 7, "odd"),
        Streaming(0.1),
        travel_mm=0.8,
        zero_mm=0.1,
    ),
)

BCD: Final = (
    GaugeModel(
        "bcd-packed",
        BcdSpec("FFDDDDDDUPSF", MICRON),
        LineEnd(2400),
        Streaming(0.1),
    ),
    GaugeModel(
        "bcd-swapped",
        BcdSpec(
            "SUDDDDDDPBFF",
            MICRON,
            first="low",
            digits="lowest",
            minus=0xB,
            plus=0xA,
            flags={"weak-battery": 0x4},
        ),
        LineEnd(9600),
        Streaming(0.05),
        counts_up=False,
    ),
    GaugeModel(
        "bcd-hex-asked",
        BcdSpec("USDDDDDDP", TENTH, carried="hex", minus=0xD, plus=0xC, tail=b"\r"),
        LineEnd(4800, 7, "even"),
        OnRequest(b"RD\r"),
        unit="in",
        travel_mm=12.7,
    ),
    GaugeModel(
        "bcd-single-key",
        BcdSpec("FFFUSPDDDDD", HUNDREDTH, carried="single", tail=b"\n"),
        LineEnd(1200),
        OnKey(),
        travel_mm=50.0,
    ),
)

BITS: Final = (
    GaugeModel(
        "bits-lsb",
        BitsSpec(4, 20, HUNDREDTH, sign=23, inch=22, always=0xA5 << 24),
        LineEnd(9600),
        Streaming(0.08),
        travel_mm=150.0,
    ),
    GaugeModel(
        "bits-msb-asked",
        BitsSpec(3, 16, {"mm": CountStep(3)}, at=2, sign=20, order="msb", head=b"\xc3"),
        LineEnd(19200, stop=2),
        OnRequest(b"M", latency_s=0.01),
        counts_up=False,
    ),
    GaugeModel(
        "bits-complement",
        BitsSpec(
            4,
            24,
            {"mm": CountStep(4, 5)},
            order="msb",
            flags={"weak-battery": 30},
            always=1 << 31,
            head=b"\x55",
            tail=b"\xaa",
        ),
        LineEnd(115200),
        Streaming(0.02),
    ),
    GaugeModel(
        "bits-inch",
        BitsSpec(3, 18, {"in": CountStep(4, 5)}, sign=18, always=0b10110 << 19, head=b"\x96"),
        LineEnd(38400),
        Streaming(0.1),
        unit="in",
        counts_up=False,
        travel_mm=25.4,
    ),
)

SHELF: Final = {model.key: model for model in (*TEXT, *BCD, *BITS)}


def on_tty(key: str, link: Path, seed: int = 0) -> VirtualGauge:
    """Return the gauge `key` of the shelf at a pseudo-terminal `link`, not yet started."""
    return VirtualGauge(SHELF[key], PtyLine(link), seed=seed)
