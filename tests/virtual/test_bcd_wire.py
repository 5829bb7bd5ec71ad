"""Frames of nibbles, each worked out by hand."""

import pytest

from daq.virtual.wires import CountStep
from daq.words import Unit
from tests.rigs.bcd import BcdSpec

MICRON: dict[Unit, CountStep] = {"mm": CountStep(3), "in": CountStep(5, 5)}

PACKED = BcdSpec("FFSUDDDDDDPF", MICRON)
SWAPPED = BcdSpec("FFSUDDDDDDPF", MICRON, first="low")
LOWEST = BcdSpec("FFSUDDDDDDPF", MICRON, digits="lowest")
HEX = BcdSpec("SDDDDDDPU", MICRON, carried="hex", plus=0xC, minus=0xD, tail=b"\r")
SINGLE = BcdSpec("FSDDDDPU", {"mm": CountStep(2)}, carried="single", above=0x30, head=b"\x02")
BATTERY = BcdSpec(
    "BDDDDDDP", MICRON, carried="hex", flags={"weak-battery": 0x1, "over": 0x8}, filler=0xE
)


@pytest.mark.parametrize(
    ("spec", "counts", "unit", "frame"),
    [
        # F F  sign unit  0 0  1 2  3 4  places F
        (PACKED, 1234, "mm", bytes.fromhex("FF 00 00 12 34 3F")),
        (PACKED, -1234, "mm", bytes.fromhex("FF 10 00 12 34 3F")),
        (PACKED, -1234, "in", bytes.fromhex("FF 11 00 61 70 5F")),
        (PACKED, 987654, "mm", bytes.fromhex("FF 00 98 76 54 3F")),
        (SWAPPED, -1234, "in", bytes.fromhex("FF 11 00 16 07 F5")),
        (SWAPPED, -1234, "mm", bytes.fromhex("FF 01 00 21 43 F3")),
        (LOWEST, 1234, "mm", bytes.fromhex("FF 00 43 21 00 3F")),
        (HEX, 1234, "mm", b"C00123430\r"),
        (HEX, -1234, "in", b"D00617051\r"),
        (SINGLE, -9876, "mm", b"\x02" + bytes.fromhex("3F 31 39 38 37 36 32 30")),
        (SINGLE, 5, "mm", b"\x02" + bytes.fromhex("3F 30 30 30 30 35 32 30")),
        (BATTERY, 1234, "mm", b"00012343"),
    ],
)
def test_a_frame_is_made_of_the_nibbles_described(
    spec: BcdSpec, counts: int, unit: Unit, frame: bytes
) -> None:
    assert spec.encode(counts, unit) == frame


def test_flags_are_bits_of_the_status_nibble() -> None:
    assert BATTERY.encode(1234, "mm", ["weak-battery"]) == b"10012343"
    assert BATTERY.encode(1234, "mm", ["weak-battery", "over"]) == b"90012343"
    assert BATTERY.encode(1234, "mm", ["hold"]) == b"00012343"


def test_what_does_not_fit_is_refused() -> None:
    assert SINGLE.encode(9999, "mm")[3:7] == b"\x39\x39\x39\x39"
    with pytest.raises(ValueError, match="found 10000; allowed: 4 digits"):
        SINGLE.encode(10000, "mm")


def test_impossible_roles_are_refused() -> None:
    with pytest.raises(ValueError, match=r"found \['X'\]; allowed: letters of FSDPUB"):
        BcdSpec("FXDD", MICRON)
    with pytest.raises(ValueError, match="found 3 to pack; allowed: an even number"):
        BcdSpec("FDD", MICRON)
    assert BcdSpec("FDD", MICRON, carried="hex").encode(-12, "mm") == b"F12"
