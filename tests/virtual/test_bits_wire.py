"""Frames of bit fields, each worked out by hand."""

import pytest

from daq.virtual.wires import CountStep
from daq.words import Unit
from tests.rigs.bits import BitsSpec

SIZES: dict[Unit, CountStep] = {"mm": CountStep(2), "in": CountStep(4, 5)}

LSB = BitsSpec(3, 20, SIZES, sign=20, inch=23)
MSB = BitsSpec(3, 20, SIZES, sign=20, inch=23, order="msb")
SHIFTED = BitsSpec(2, 8, SIZES, at=3, sign=0, head=b"\xa5", tail=b"\x5a", order="msb")
COMPLEMENT = BitsSpec(2, 12, SIZES, order="msb", always=0x8000, flags={"weak-battery": 14})


@pytest.mark.parametrize(
    ("spec", "counts", "unit", "frame"),
    [
        # 1234 = 0x4D2; sign is bit 4 of the third byte, inch its bit 7
        (LSB, 1234, "mm", bytes.fromhex("D2 04 00")),
        (LSB, -1234, "mm", bytes.fromhex("D2 04 10")),
        (LSB, -1234, "in", bytes.fromhex("D2 04 90")),
        (LSB, 0xFFFFF, "mm", bytes.fromhex("FF FF 0F")),
        (MSB, -1234, "in", bytes.fromhex("90 04 D2")),
        # 0xC8 << 3 = 0x640, and bit 0 for minus
        (SHIFTED, 200, "mm", bytes.fromhex("A5 06 40 5A")),
        (SHIFTED, -200, "mm", bytes.fromhex("A5 06 41 5A")),
        # -1 is 0xFFF, -1234 is 0x1000 - 0x4D2 = 0xB2E
        (COMPLEMENT, -1, "mm", bytes.fromhex("8F FF")),
        (COMPLEMENT, -1234, "mm", bytes.fromhex("8B 2E")),
        (COMPLEMENT, 1234, "in", bytes.fromhex("84 D2")),
    ],
)
def test_a_frame_is_made_of_the_fields_described(
    spec: BitsSpec, counts: int, unit: Unit, frame: bytes
) -> None:
    assert spec.encode(counts, unit) == frame


def test_a_flag_is_a_bit() -> None:
    assert COMPLEMENT.encode(1234, "mm", ["weak-battery"]) == bytes.fromhex("C4 D2")
    assert COMPLEMENT.encode(1234, "mm", ["hold"]) == bytes.fromhex("84 D2")


def test_what_does_not_fit_is_refused() -> None:
    assert SHIFTED.encode(-255, "mm") == bytes.fromhex("A5 07 F9 5A")
    with pytest.raises(ValueError, match="found -256; allowed: 8 bits and a sign"):
        SHIFTED.encode(-256, "mm")
    assert COMPLEMENT.encode(-2048, "mm") == bytes.fromhex("88 00")
    assert COMPLEMENT.encode(2047, "mm") == bytes.fromhex("87 FF")
    for counts in (-2049, 2048):
        with pytest.raises(ValueError, match="allowed: 12 bits, the highest of them the sign"):
            COMPLEMENT.encode(counts, "mm")
