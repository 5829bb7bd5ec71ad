"""Text frames, each byte written out by hand."""

import pytest

from daq.virtual.wires import CountStep, TextSpec
from daq.virtual.wires.scale import MM_PER_INCH
from daq.words import Unit

MICRON: dict[Unit, CountStep] = {"mm": CountStep(3), "in": CountStep(5, 5)}

PLAIN = TextSpec("{sign}{number} {unit}\r\n", MICRON)
TRAILING = TextSpec("{number}{sign}\r", MICRON, whole=2, fill=" ", plus=" ")
COMMA = TextSpec("{signed} {unit}\n", MICRON, fill=" ", decimal=",", plus="")
STATUS = TextSpec(
    "{status}{sign}{number}{unit};",
    MICRON,
    whole=2,
    units={"mm": "M", "in": "I"},
    flags={"over": "O", "weak-battery": "W"},
    sound="G",
)
FIXED = TextSpec("{sign}{number:>8}{unit}", {"mm": CountStep(2), "in": CountStep(4, 5)}, length=11)
WHOLE = TextSpec("{sign}{number}\n", {"mm": CountStep(0)}, whole=4)


@pytest.mark.parametrize(
    ("spec", "counts", "unit", "frame"),
    [
        (PLAIN, 1234, "mm", b"+001.234 mm\r\n"),
        (PLAIN, -60, "mm", b"-000.060 mm\r\n"),
        (PLAIN, 0, "mm", b"+000.000 mm\r\n"),
        (PLAIN, 971, "in", b"+000.04855 in\r\n"),
        (PLAIN, -123456, "mm", b"-123.456 mm\r\n"),
        (TRAILING, -12345, "mm", b"12.345-\r"),
        (TRAILING, 345, "mm", b" 0.345 \r"),
        (TRAILING, -1, "in", b" 0.00005-\r"),
        (COMMA, -1234, "mm", b"  -1,234 mm\n"),
        (COMMA, 1234, "mm", b"  1,234 mm\n"),
        (COMMA, -123456, "mm", b"-123,456 mm\n"),
        (STATUS, 5, "mm", b"G+00.005M;"),
        (STATUS, -5, "in", b"G-00.00025I;"),
        (FIXED, 35, "mm", b"+  000.35mm"),
        (FIXED, -2335, "in", b"-001.1675in"),
        (WHOLE, -17, "mm", b"-0017\n"),
    ],
)
def test_a_frame_is_written_as_described(
    spec: TextSpec, counts: int, unit: Unit, frame: bytes
) -> None:
    assert spec.encode(counts, unit) == frame


def test_a_flag_stands_in_the_status_and_the_first_of_the_description_wins() -> None:
    assert STATUS.encode(5, "mm", ["weak-battery"]) == b"W+00.005M;"
    assert STATUS.encode(5, "mm", ["weak-battery", "over"]) == b"O+00.005M;"
    assert STATUS.encode(5, "mm", ["hold"]) == b"G+00.005M;"
    assert PLAIN.encode(5, "mm", ["weak-battery"]) == b"+000.005 mm\r\n"


def test_what_does_not_fit_is_refused() -> None:
    assert TRAILING.encode(99999, "mm") == b"99.999 \r"
    with pytest.raises(ValueError, match="found 100000; allowed: 2 digits"):
        TRAILING.encode(100000, "mm")
    short = TextSpec("{sign}{number}", MICRON, length=7)
    with pytest.raises(ValueError, match="found 8 bytes; allowed: 7"):
        short.encode(1, "mm")


def test_a_count_has_the_size_of_its_scale() -> None:
    """25.4 mm to the inch exactly: NIST SP 811, from memory."""
    assert MM_PER_INCH == 25.4
    assert CountStep(3).size_mm("mm") == pytest.approx(0.001)
    assert CountStep(3, 2).size_mm("mm") == pytest.approx(0.002)
    assert CountStep(5, 5).size_mm("in") == pytest.approx(0.00127)
    assert CountStep(4).size_mm("in") == pytest.approx(0.00254)
