"""Classes of frames, each written by hand from a number: its table, its bytes, what it says."""

import struct

from daq.gauges.frames.shared.checked import Check

CHECK = {"kind": "crc-16/modbus", "sent": "low-first"}
MODBUS = Check(**CHECK)
LINES = {"terminator": "\r\n"}
MM = {"unit": "mm"}


def sealed(over):
    return over + MODBUS.written(over)


def exponent(n):
    return (
        LINES
        | MM
        | {
            "layout": ["sign", "number 1.5", "exponent"],
            "places": 4,
        },
        b"%+.5E\r\n" % n,
        f"{n:.4f}",
    )


def hexadecimal(n):
    counts = round(n * 1000)
    return (
        LINES | MM | {"layout": ["text D", "hex 6 signed"], "places": 3},
        (b"D%06X\r\n" % (counts & 0xFFFFFF)),
        f"{counts / 1000:.3f}",
    )


def real(n):
    table = MM | {"layout": ["bytes a5", "float 32 low-word-first", "check"], "places": 3}
    raw = struct.pack(">f", n)
    return table | {"check": CHECK}, sealed(b"\xa5" + raw[2:] + raw[:2]), f"{n:.3f}"


def bus(n):
    layout = ["bytes 01 04 04", "float 32", "check"]
    table = MM | {"layout": layout, "places": 3, "check": CHECK, "apart": "pause"}
    return table, sealed(b"\x01\x04\x04" + struct.pack(">f", n)), f"{n:.3f}"


def raw_counts(n):
    counts = round(n / 0.0025)
    table = LINES | MM | {"layout": ["sign", "number 5"], "scale": 0.0025, "offset": -2.0}
    return table, b"%+06d\r\n" % counts, f"{counts * 0.0025 - 2.0:.4f}"


def offset_binary(n):
    counts = round(n * 1000)
    layout = ["bits 10", "offset 22", "bytes ff ff ff"]
    wire = (0x800000 | (counts + 0x200000)).to_bytes(3, "big") + b"\xff\xff\xff"
    return MM | {"layout": layout, "places": 3, "apart": "pause"}, wire, f"{counts / 1000:.3f}"


def by_digits(n):
    inch = round(n * 1000) % 2
    table = LINES | {"layout": ["sign", "number"], "unit_by_decimals": {"3": "mm", "5": "in"}}
    text = f"{n:+09.5f}" if inch else f"{n:+08.3f}"
    return table, text.encode() + b"\r\n", text


def letters(n):
    table = LINES | MM | {"layout": ["number 3.3", "sign"], "signs": {"R": "+", "L": "-"}}
    return table, b"%07.3f%c\r\n" % (abs(n), b"RL"[n < 0]), f"{'+-'[n < 0]}{abs(n):07.3f}"


def several_lines(n):
    table = (
        LINES
        | MM
        | {
            "layout": [
                r"text A:",
                "any",
                r"text \r\nB:",
                "sign",
                "number",
                r"text \r\nC:",
                "any",
                r"text \r\n",
            ],
        }
    )
    text = f"{n:+.3f}"
    return table, f"A:{n:.1f}\r\nB:{text}\r\nC: ok\r\n\r\n".encode(), text


def channels(n):
    table = (
        LINES
        | MM
        | {"layout": ["any", "text ;", "any", "text ;", "sign", "number", "text ;", "any"]}
    )
    text = f"{n:+.3f}"
    return table, f"2027-05-01T10:07:{abs(n) % 60:06.3f};+1.25;{text};-0.5\r\n".encode(), text


def half_bytes(n):
    table = {
        "layout": [
            "bytes ff",
            "bcd 6 low-first",
            "places 4 bits",
            "sign 1 bit",
            "any 2 bits",
            "unit 1 bit",
        ],
        "units": {"0": "mm", "1": "in"},
        "apart": "pause",
    }
    digits = f"{round(abs(n) * 1000):06d}"
    last = 0x30 | (8 if n < 0 else 0)
    return (
        table,
        b"\xff" + bytes.fromhex(digits[::-1]) + bytes([last]),
        (f"{'+-'[n < 0]}{digits[:3]}.{digits[3:]}"),
    )


def bits_low_first(n):
    table = MM | {
        "layout": ["unsigned 20 low-first", "sign 1 bit", "any 3 bits"],
        "order": "low-first",
        "places": 3,
        "apart": "pause",
    }
    counts = round(abs(n) * 1000)
    wire = (counts | (n < 0) << 20).to_bytes(3, "little")
    return table, wire, f"{'+-'[n < 0]}{f'{counts:04d}'[:-3]}.{counts % 1000:03d}"


CLASSES = [
    exponent, hexadecimal, real, bus, raw_counts, offset_binary, by_digits, letters,
    several_lines, channels, half_bytes, bits_low_first,
]  # fmt: skip
