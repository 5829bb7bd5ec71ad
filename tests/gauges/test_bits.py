"""Frames of bits: exactly the count sent, and nothing from a frame that is none."""

import hypothesis
import pytest
from hypothesis import given
from hypothesis import strategies as st

from daq.gauges.frames.bits import SHAPE, BitsOptions
from daq.settings import SettingsError, build
from tests.words import faults

steady = hypothesis.settings(deadline=None, derandomize=True)

TABLE = {
    "layout": ["fixed 1", "unit", "sign", "magnitude 5", "fixed 0", "magnitude 7"],
    "signs": {"0": "+", "1": "-"},
    "units": {"0": "mm", "1": "in"},
    "step": {"mm": 0.01, "in": 0.0005},
}
WORD = {"layout": ["magnitude 16"], "signs": ..., "units": ..., "unit": "mm", "step": {"mm": 0.01}}


def decoder(**changes):
    table = {key: value for key, value in {**TABLE, **changes}.items() if value is not ...}
    return SHAPE.make(build(BitsOptions, table, "gauge.toml", under="frame"))


def packed(bits):
    return bytes(int(bits[first : first + 8], 2) for first in range(0, len(bits), 8))


def in_pauses(made, *frames):
    """What a decoder that tells frames apart by pauses makes of these."""
    found = []
    for frame in (b"", *frames):
        found += made.feed(frame)
        made.gap()
    return found + made.feed(b"")


def test_a_frame():
    frame = packed("1000000001100100")
    (one,) = decoder().feed(frame)
    assert one == ("+1.00", 1.0, "mm", (), frame)
    (two,) = decoder().feed(packed("1110000000000011"))
    assert two[:3] == ("-0.0015", -0.0015, "in")


@pytest.mark.parametrize("packing", ["packed", "characters"])
@pytest.mark.parametrize("order", ["high-first", "low-first"])
@pytest.mark.parametrize("lowest_first", [False, True])
@steady
@given(st.integers(0, 2**20 - 1), st.booleans(), st.integers(0, 7))
def test_what_is_sent_is_read(packing, order, lowest_first, count, negative, rest):
    if packing == "characters":
        order = "high-first"
    made = decoder(
        **{**WORD, "layout": ["sign", "magnitude 20", "any 3"], "signs": TABLE["signs"]},
        packing=packing,
        order=order,
        lowest_first=lowest_first,
        apart="pause",
    )
    number = f"{count:020b}"
    bits = f"{negative:b}{number[::-1] if lowest_first else number}{rest:03b}"
    frame = bits.encode() if packing == "characters" else packed(bits)
    if order == "low-first":
        frame = bytes(int(f"{byte:08b}"[::-1], 2) for byte in frame)
    (one,) = in_pauses(made, frame)
    assert one.text == f"{'+-'[negative]}{count // 100}.{count % 100:02}"
    assert one.value == (-1 if negative else 1) * (count / 100)
    assert one.raw == frame


@steady
@given(st.integers(-(2**15), 2**15 - 1))
def test_twos_complement(count):
    made = decoder(**WORD, coding="twos-complement", apart="pause")
    (one,) = in_pauses(made, count.to_bytes(2, "big", signed=True))
    assert one.text[0] == ("-" if count < 0 else "+")
    assert one.value == count / 100


@pytest.mark.parametrize(
    ("step", "count", "text"),
    [
        (0.01, 123, "1.23"),
        (0.005, 3, "0.015"),
        (0.0005, 2000, "1.0000"),
        (0.00005, 7, "0.00035"),
        (1e-5, 7, "0.00007"),
        (0.00127, 100, "0.12700"),
        (1.0, 12, "12"),
        (1, 0, "0"),
    ],
)
def test_the_face_has_the_decimals_of_a_step(step, count, text):
    made = decoder(**{**WORD, "step": {"mm": step}}, apart="pause")
    (one,) = in_pauses(made, count.to_bytes(2, "big"))
    assert (one.text, one.value) == (text, float(text))


def test_flags_are_counted_in_the_order_sent():
    made = decoder(
        **{**WORD, "layout": ["flags", "magnitude 4", "flags 3"]},
        packing="characters",
        terminator="\n",
        flags={"0": "weak-battery", "1": "", "3": "preset"},
    )
    found = made.feed(b"\n10001000\n00001111\n10001001\n")
    assert [each.flags for each in found] == [
        ("weak-battery",),
        ("flag-2", "preset"),
        ("weak-battery", "preset"),
    ]


def test_each_wrong_fixed_bit_makes_the_frame_bad():
    frame = bytearray(packed("1000000001100100"))
    for bit in range(16):
        wrong = bytearray(frame)
        wrong[bit // 8] ^= 0x80 >> bit % 8
        made = decoder()
        found = made.feed(bytes(frame + wrong + frame))
        assert (len(found), made.bad) == ((2, 1) if bit in (0, 8) else (3, 0))


def test_a_terminated_frame_with_bits_too_many_or_too_few_is_bad():
    made = decoder(**WORD, packing="characters", terminator="\r")
    good = b"0000000001100100\r"
    assert made.feed(good) == []  # it may have lost its beginning
    assert [each.text for each in made.feed(good + b"1" + good + good[1:] + good)] == ["1.00"] * 2
    assert made.bad == 2


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"layout": ["fixed 12"]}, 'found "fixed 12" in layout; allowed: "fixed 11" for'),
        ({"layout": ["digits 4"]}, 'found "digits 4" in layout'),
        ({**WORD, "layout": ["any 8"]}, "found 0 bits of magnitude; allowed: 1 to 40"),
        ({**WORD, "layout": ["magnitude 48"]}, "found 48 bits of magnitude"),
        (
            {**WORD, "layout": ["magnitude 15"]},
            "found 15 symbols to be packed; allowed: 8 to",
        ),
        ({"coding": "twos-complement"}, "found a sign beside a twos-complement magnitude"),
        ({"packing": "characters", "order": "low-first"}, "found an order of bits"),
        ({"step": {"mm": 0.01}}, "found step for mm; allowed: for in and mm"),
        ({**WORD, "step": {}}, "found step for no unit; allowed: for mm"),
        ({"step": {"mm": 0.01, "in": 0.00012345678}}, "found step 0.00012345678; allowed: at most"),
        ({"signs": {"2": "-"}}, 'found "2" in signs; allowed: one of 0 1'),
        (WORD, "found frames whose beginning could be the end of another"),
    ],
)
def test_options_that_would_need_guessing_are_refused(changes, words):
    with pytest.raises(SettingsError) as caught:
        decoder(**changes)
    (problem,) = faults(caught.value)
    assert problem.startswith("gauge.toml: frame: found ")
    assert "; allowed: " in problem
    assert words in problem
