"""The line bit by bit, against waveforms drawn by hand.

Bits go out lowest first, between a low start bit and a high stop bit: common practice.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from daq.virtual.uart import LineEnd, Parity, resample, waveform

N81 = LineEnd(9600)
N82 = LineEnd(9600, stop=2)
E71 = LineEnd(9600, 7, "even")
O71 = LineEnd(9600, 7, "odd")
N71 = LineEnd(9600, 7)
FAST = LineEnd(19200)
SLOW = LineEnd(4800)

LINES = [
    LineEnd(baud, bits, parity, stop)
    for baud in (1200, 115200)
    for bits in (5, 7, 8)
    for parity in ("none", "even", "odd", "mark", "space")
    for stop in (1, 2)
]


def levels(drawn: str) -> bytes:
    return bytes(int(level) for level in drawn if level in "01")


@pytest.mark.parametrize(
    ("line", "drawn"),
    [
        (N81, "1  0 10001100 1"),
        (N82, "1  0 10001100 11"),
        (E71, "1  0 1000110 1 1"),
        (O71, "1  0 1000110 0 1"),
        (LineEnd(9600, 7, "mark"), "1  0 1000110 1 1"),
        (LineEnd(9600, 7, "space"), "1  0 1000110 0 1"),
        (LineEnd(9600, 5), "1  0 10001 1"),
    ],
)
def test_a_character_is_drawn_bit_by_bit(line: LineEnd, drawn: str) -> None:
    """ "1" is 0x31, three bits set."""
    assert waveform([b"1"], line) == levels(drawn)


def test_frames_are_so_many_bits_apart() -> None:
    assert waveform([b"\x55", b"\x0f"], N81, 3) == levels("1 0 10101010 1 111 0 11110000 1")


@pytest.mark.parametrize("line", LINES, ids=str)
def test_a_reader_set_as_the_sender_gets_every_byte(line: LineEnd) -> None:
    every = bytes(range(256))
    got = resample(every, line, line, framing="dropped", parity="dropped")
    assert got == bytes(value % (1 << line.bits) for value in every)


def test_even_parity_read_as_eight_bits_stands_in_the_highest() -> None:
    """Of each character, the number of bits set, by hand: + 4, 1 3, . 4, 2 3, 0 2, blank 1, m 5."""
    sent = b"+1.20 mm\r\n"
    assert resample(sent, E71, N81) == bytes.fromhex("2B B1 2E B2 30 A0 ED ED 8D 0A")
    assert resample(sent, O71, N81) == bytes.fromhex("AB 31 AE 32 B0 20 6D 6D 0D 8A")


def test_eight_bits_read_as_seven_and_even_parity_fail_the_check_half_the_time() -> None:
    """Bit 7 of ASCII is 0, which is even parity for + and 0 but not for 1 and m."""
    assert resample(b"+1m0", N81, E71) == b"+1m0"
    assert resample(b"+1m0", N81, E71, parity="dropped") == b"+0"
    assert resample(b"+1m0", N81, E71, parity="zero") == b"+\0\0000"


def test_eight_bits_read_as_seven_lack_a_stop_bit() -> None:
    """Bit 7 stands where the stop bit is expected: 0 in "A", 1 in 0xC1."""
    assert resample(b"A\xc1", N81, N71) == b"AA"
    assert resample(b"A\xc1", N81, N71, framing="dropped") == b"A"
    assert resample(b"A\xc1", N81, N71, framing="zero") == b"\0A"


def test_seven_bits_read_as_eight_swallow_the_next_start_bit() -> None:
    """Drawn: 0 1000001 1 0 0100001 1, then rest.

    The first character takes the stop bit as bit 7 (0xC1) and the next start bit as
    its own stop bit. The next fall is inside "B": then come 0001, its stop bit and rest.
    """
    assert resample(b"AB", N71, N81) == b"\xc1\xf8"
    assert resample(b"AB", N71, N81, framing="dropped") == b"\xf8"
    assert resample(b"AB", N71, N81, gap_bits=1) == b"\xc1\xc2"


def test_a_reader_twice_as_fast_sees_each_bit_twice() -> None:
    """0x55 is drawn 0 10101010 1.

    Twice as fast: 0 01100110 and 0 for a stop bit, 0x66 with an error. Then the fall
    after bit 4 (a 1): 0 01100111 and 1, 0xE6.
    """
    assert resample(b"\x55", N81, FAST) == b"\x66\xe6"
    assert resample(b"\x55", N81, FAST, framing="dropped") == b"\xe6"
    assert resample(b"\x55", N81, FAST, framing="zero") == b"\x00\xe6"
    # Nine low bits are eighteen short ones, one long start: no stop bit, and nothing after it.
    assert resample(b"\x00", N81, FAST) == b"\x00"
    assert resample(b"\x00", N81, FAST, framing="dropped") == b""
    # One low bit is a start bit and a 0.
    assert resample(b"\xff", N81, FAST, framing="dropped") == b"\xfe"


def test_a_reader_half_as_fast_sees_every_other_bit() -> None:
    """Looks at bits 1 (the start), 3, 5, … of what was sent, where 0 is the start bit.

    0x00 is low in bits 0 to 8: start, 0, 0, 0, then rest. 0x30 is drawn 0 00001100 1:
    start, 0 1 0 1, then rest. In 0x55 bit 1 is high again: too short for a start bit,
    and so is every later fall.
    """
    assert resample(b"\x00", N81, SLOW) == b"\xf8"
    assert resample(b"\x30", N81, SLOW) == b"\xfa"
    assert resample(b"\x55", N81, SLOW) == b""
    # Two 0x30 on end are one character: 0 1 0 1 of the first, 0 0 1 0 of the second.
    assert resample(b"\x30\x30", N81, SLOW) == b"\x4a"
    assert resample(b"\x30\x30", N81, SLOW, gap_bits=20) == b"\xfa\xfa"
    # With two stop bits the second comes later by one: 0 0 0 1, and a 0 for a stop bit.
    assert resample(b"\x30\x30", N82, SLOW) == b"\x8a"
    assert resample(b"\x30\x30", N82, SLOW, framing="dropped") == b""


@settings(derandomize=True, max_examples=200, deadline=None)
@given(
    st.binary(min_size=1, max_size=20),
    st.integers(96_000 * 96 // 100, 96_000 * 104 // 100),
    st.integers(0, 30),
)
def test_a_slightly_wrong_speed_does_no_harm(data: bytes, baud: int, gap: int) -> None:
    """The stop bit is looked at 9.5 bits on, so 5 % is too much: common practice, no source."""
    got = resample(data, LineEnd(96_000), LineEnd(baud), gap_bits=gap, framing="dropped")
    assert got == data


@pytest.mark.parametrize("baud", [90_000, 102_500])
def test_a_speed_six_per_cent_off_does(baud: int) -> None:
    every = bytes(range(256))
    assert resample(every, LineEnd(96_000), LineEnd(baud), framing="dropped") != every


@settings(derandomize=True, max_examples=100, deadline=None)
@given(st.binary(max_size=40), st.sampled_from(LINES), st.sampled_from(LINES))
def test_nothing_is_heard_that_there_was_no_time_for(
    data: bytes, one: LineEnd, other: LineEnd
) -> None:
    got = resample(data, one, other)
    assert all(value < 1 << other.bits for value in got)
    shortest = 2 + other.bits + (other.parity != "none") - 0.5
    falls = (len(data) * one.seconds(1)) * other.baud / shortest
    assert len(got) <= falls + 1


def test_a_line_is_named_and_timed_as_usual() -> None:
    parity: Parity = "even"
    assert str(LineEnd(4800, 7, parity)) == "4800 7E1"
    assert LineEnd(9600).seconds(96) == pytest.approx(0.1)
    assert LineEnd(1200, 7, parity, 2).seconds(12) == pytest.approx(0.11)
