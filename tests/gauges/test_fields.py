"""Frames said field by field: what could not be said before, exact frame for frame."""

import itertools
import random
import struct

import pytest

from daq.gauges import frames
from daq.gauges.frames.shared.checked import Check
from daq.settings import SettingsError
from tests.words import faults

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


@pytest.mark.parametrize("count", [300, pytest.param(10_000, marks=pytest.mark.long)])
@pytest.mark.parametrize("made_by", CLASSES)
def test_what_could_not_be_said_is_exact(made_by, count):
    rng = random.Random(made_by.__name__)
    sent = [made_by(rng.randrange(-99_999, 100_000) / 1000) for _ in range(count)]
    made = frames.decoder({"shape": "fields", **sent[0][0]}, "gauge.toml")
    made.gap()
    found = []
    for _, wire, _ in sent:
        found += made.feed(wire)
        if sent[0][0].get("apart") == "pause":
            made.gap()
            found += made.feed(b"")
    texts = [each.text for each in found]
    wanted = [text for _, _, text in sent]
    assert [float(text) for text in texts] == [float(text) for text in wanted]
    if made_by not in (raw_counts,):  # its number is shown in full
        assert [t.lstrip("-") for t in texts] == [w.lstrip("-") for w in wanted]
    assert (made.bad, made.damaged) == (0, 0)


def said(table, wire):
    made = frames.decoder({"shape": "fields", **table}, "gauge.toml")
    made.gap()
    return [(each.text, each.flags) for each in made.feed(wire)], made.bad


@pytest.mark.parametrize(
    ("table", "wire", "flag"),
    [
        ({"layout": ["sign", "number"]}, b"LIMIT\r\n", "over-travel"),
        ({"layout": ["sign", "number", "text  mm"]}, b" LIMIT  mm\r\n", "over-travel"),
        ({"layout": ["sign", "number"]}, b"OPEN\r\n", "no-contact"),
        ({"layout": ["sign", "number"]}, b"LO BAT\r\n", "battery-empty"),
        ({"layout": ["hex 4 signed"]}, b"7fff\r\n", "over-travel"),
    ],
)
def test_a_word_for_the_number_says_why_there_is_none(table, wire, flag):
    words = {"LIMIT": "over-travel", "OPEN": "no-contact", "LO BAT": "battery-empty"}
    words["7fff"] = "over-travel"
    found, bad = said(LINES | MM | table | {"words": words}, wire + b"garbled\r\n")
    assert [flags for _, flags in found] == [(flag,)]
    assert bad == 1


def test_a_float_that_is_no_number_is_none():
    table = MM | {"layout": ["bytes a5", "float 32", "check"], "check": CHECK}
    for odd in ("7fc00000", "ff800000", "7f000000"):
        assert said(table, sealed(b"\xa5" + bytes.fromhex(odd)))[0] == []
    nan = sealed(b"\xa5" + bytes.fromhex("7fc00000"))
    assert said(table | {"words": {"nan": "no-contact"}}, nan)[0] == [("nan", ("no-contact",))]


def test_a_float_is_shown_by_the_fewest_digits_that_are_it():
    table = MM | {"layout": ["bytes a5", "float 32", "check"], "check": CHECK}
    rng = random.Random(4)
    raws = [struct.pack(">f", rng.uniform(-100, 100)) for _ in range(300)]
    found, _ = said(table, b"".join(sealed(b"\xa5" + raw) for raw in raws))
    assert len(found) == len(raws)
    for raw, (text, _) in zip(raws, found, strict=True):
        assert struct.pack(">f", float(text)) == raw
        assert len(text) <= len(repr(struct.unpack(">f", raw)[0]))


WRONG = [
    ({"layout": ["numbr"]}, "found \"numbr\" in layout; allowed: text, bytes"),
    ({"layout": ["numbr"]}, "nearest: number"),
    ({"layout": ["number x"]}, 'allowed: "number", "number 6" or "number 2.3"'),
    ({"layout": ["any"]}, "found 0 numbers in layout; allowed: one of number"),
    ({"layout": ["number", "text ,", "number"]}, "found 2 numbers in layout"),
    ({"layout": ["number"], "unit": None}, "found the unit nowhere"),
    ({"layout": ["number", "unit"]}, "found the unit twice"),
    ({"layout": ["number"], "signs": {"R": "+"}}, "found signs but no sign in layout"),
    ({"layout": ["number"], "check": {"kind": "xor"}}, "found check but no check in layout"),
    ({"layout": ["number", "check"]}, 'found "check" in layout but no check'),
    ({"layout": ["sign", "sign", "number"]}, "found sign more than once"),
    ({"layout": ["sign", "hex 4 signed"]}, "found a sign beside a number that has its own"),
    ({"layout": ["hex 4", "exponent"]}, 'found exponent without "number"'),
    ({"layout": ["number", "text 12"]}, "before what may begin as it goes on"),
    ({"layout": ["bits 101", "number"]}, 'found 3 bits side by side in layout; allowed: whole'),
    ({"layout": ["number"], "terminator": ""}, "nothing that closes a frame"),
    ({"layout": ["number"], "terminator": "xx"}, "that do not overlap themselves"),
    ({"layout": ["number"], "apart": "pause"}, 'found a terminator with apart = "pause"'),
    ({"layout": ["number"], "scale": 0}, "found scale 0"),
    ({"layout": ["number"], "scale": {"in": 1.0}}, "found scale for in; allowed: for mm"),
    ({"layout": ["number"], "places": 10}, "frame.places"),
    ({"layout": ["number"], "words": {"": "error"}}, 'found "" in words'),
    ({"layout": ["number"], "words": {"X": "gone"}}, 'frame.words.X: found "gone"'),
    ({"layout": ["number", "flags"]}, "found flags in layout but nothing it may be"),
    ({"layout": ["any", "any", "number"]}, "before what may begin as it goes on"),
    ({"layout": ["any 5-2", "number"]}, "allowed: the lower number first"),
    ({"layout": ["bytes 01", "unsigned 16"], "terminator": ""}, "could be the end of another"),
    ({"layout": ["unsigned 65"]}, "allowed: 1 to 64 bits"),
    ({"layout": ["bytes 01", "unsigned 16", "check"], "terminator": "", "check": {"kind": "xor"}},
     "could be the end of another"),  # eight bits are too few to tell frames apart
    ({"layout": ["unsigned 16", "unit 8 bits"], "unit": None, "units": {"mm": "mm"}}, "not 8 bits"),
    ({"layout": ["number"], "check": {"kind": "xor"}, "laiout": 1}, "nearest known: 'layout'"),
    ({"layout": ["check", "number"], "check": {"kind": "xor", "at": 0}}, "found check.at"),
    ({"layout": ["any 300", "number"]}, "allowed: 1 to 128 characters in each"),
]  # fmt: skip


@pytest.mark.parametrize(("table", "words"), WRONG)
def test_a_mistake_is_told(table, words):
    table = {"shape": "fields", "terminator": "\r\n", "unit": "mm", **table}
    with pytest.raises(SettingsError) as caught:
        frames.decoder({k: v for k, v in table.items() if v is not None}, "gauge.toml")
    assert any(words in fault for fault in faults(caught.value)), faults(caught.value)


def test_time_is_in_proportion_to_the_bytes_whatever_repeats():
    table = (
        LINES
        | MM
        | {"layout": ["any", "text ;", "blanks", "text ;", "any 1-100", "text ;", "number"]}
    )
    for part in (b";", b" ", b"; ;", b"1"):
        assert said(table, part * 20_000 + b"\r\n")[1] > 100


def test_every_part_may_be_split_anywhere():
    for made_by in (several_lines, real, exponent):
        table, wire, _ = made_by(1.234)
        for at in range(len(wire)):
            made = frames.decoder({"shape": "fields", **table}, "gauge.toml")
            made.gap()
            found = [made.feed(part) for part in (wire[:at], wire[at:] + wire)]
            assert len(list(itertools.chain(*found))) == 2
